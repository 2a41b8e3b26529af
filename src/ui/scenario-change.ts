import { type At, columnText } from '../book/address.ts';
import type { Book, Table } from '../book/book.ts';
import { setCell } from '../book/commands/set-cell.ts';
import { addressOf, baseColumn } from '../book/look-up.ts';
import { type Answer, refused } from '../book/refused.ts';

export function scenarioChange(verb: 'add' | 'drop' | 'same' | 'base', book: Book, table: Table, at: At | undefined): Answer {
  if (verb === 'same' && at) return setCell(book, { address: addressOf(at), content: `=${columnText(baseColumn(table))}${at.rowIndex + 1}` });
  return refused('soon');
}
