/** Takes rows or columns out of a table, with what stands in them. */
import { columnText } from '../address.ts';
import type { Book } from '../book.ts';
import { type Axis, findTable, linesOf, linesText, lostText, removeLines } from '../lines.ts';
import { type Answer, refused } from '../refused.ts';

export interface DeleteLines {
  /** A table's id or name. */
  readonly table: string;
  readonly axis: Axis;
  readonly at: number;
  readonly count?: number;
}

/** Formulas that read a deleted cell show an error; those that read a range with other lines in it go on with what is left. */
export function deleteLines(book: Book, { table: wanted, axis, at, count = 1 }: DeleteLines): Answer {
  const table = findTable(book, wanted);
  if (!table) return refused(`There is no table ${wanted} in this book.`);
  const lines = linesOf(table, axis);
  if (!Number.isInteger(at) || at < 0 || !Number.isInteger(count) || count < 1 || at + count > lines.length)
    return refused(`There is no such ${axis} in ${table.name}.`);
  if (count === lines.length) return refused(`${table.name} must keep at least one ${axis}.`);
  const { edits, ...lost } = removeLines(book, table, axis, at, count);
  return { label: `${linesText(axis, at, count, columnText)} taken out of ${table.name}${lostText(lost)}`, edits };
}
