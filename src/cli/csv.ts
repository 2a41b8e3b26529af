import { formatTidy, formatWide } from '../files/csv/index.ts';
import { openBook } from './open-book.ts';
import { deliver } from './output.ts';
import { spare } from './same-file.ts';
import type { Verb } from './verb.ts';
import { WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: 'BOOK [--tidy | --wide] [-o FILE]',
  about: 'Writes what the cells of a book hold as comma-separated text. The book is only read.',
  options: {
    tidy: { type: 'boolean', about: 'one cell a line with its address, unit, source and formula, for programs; so it is unless said' },
    wide: { type: 'boolean', about: 'labels down, scenarios across, for people' },
    output: { type: 'string', short: 'o', about: 'the file to write; standard output without it' },
  },
  async run(operands, { tidy, wide, output }) {
    const [file, more] = operands;
    if (file === undefined) throw new WrongUse('a book is missing');
    if (more !== undefined) throw new WrongUse(`one book at a time, not also ${more}`);
    if (tidy && wide) throw new WrongUse('tidy or wide, not both');
    spare([file], [output as string | undefined]);
    const session = await openBook(file);
    const { book, values } = session;
    session.close();
    await deliver(wide ? formatWide(book, values) : formatTidy(book, values), output as string | undefined);
    return 0;
  },
};
