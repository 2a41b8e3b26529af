import { formatTidy } from '../files/csv-tidy.ts';
import { formatWide } from '../files/csv-wide.ts';
import { openBook } from './open-book.ts';
import { deliver } from './output.ts';
import type { Verb } from './verb.ts';
import { WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: 'BOOK [--tidy | --wide] [-o FILE]',
  options: { tidy: { type: 'boolean' }, wide: { type: 'boolean' }, output: { type: 'string', short: 'o' } },
  async run(operands, { tidy, wide, output }) {
    const [file, more] = operands;
    if (file === undefined) throw new WrongUse('a book is missing');
    if (more !== undefined) throw new WrongUse(`one book at a time, not also ${more}`);
    if (tidy && wide) throw new WrongUse('tidy or wide, not both');
    const session = await openBook(file);
    const { book, values } = session;
    session.close();
    await deliver(wide ? formatWide(book, values) : formatTidy(book, values), output as string | undefined);
    return 0;
  },
};
