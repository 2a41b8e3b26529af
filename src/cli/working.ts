import { cellAt } from '../book/address.ts';
import { named } from '../book/look-up.ts';
import { ownAddress } from '../book/other-writing.ts';
import { workingText } from '../handover/working-text.ts';
import { openBook } from './open-book.ts';
import { print } from './output.ts';
import { valueWithUnit } from './say-value.ts';
import type { Verb } from './verb.ts';
import { WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: 'BOOK Table.C12',
  about: 'Tells where a number comes from: its formula, its steps and what it reads, down to the givens and who said them.',
  options: {},
  async run(operands) {
    const [file, place, more] = operands;
    if (file === undefined) throw new WrongUse('a book is missing');
    if (place === undefined) throw new WrongUse('a cell is missing');
    if (more !== undefined) throw new WrongUse(`one cell at a time, not also ${more}`);
    const session = await openBook(file);
    try {
      const address = named(session.book, place) ?? ownAddress(place);
      if (!cellAt(session.book, address)) throw new WrongUse(`${file} has no cell ${place}; a cell is said as Table.B7, or by its name`);
      const tree = await session.ask((engine) => engine.trace(address));
      await print(workingText(tree, valueWithUnit));
      return 0;
    } finally {
      session.close();
    }
  },
};
