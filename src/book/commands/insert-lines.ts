/** Puts empty rows or columns into a table. */
import { columnText } from '../address.ts';
import type { Book } from '../book.ts';
import { count as amount } from '../bounds.ts';
import { type Axis, findTable, followLines, freshIds, lineEdit, linesOf, linesText, mostLines } from '../lines.ts';
import { type Answer, refused } from '../refused.ts';

export interface InsertLines {
  /** A table's id or name. */
  readonly table: string;
  readonly axis: Axis;
  /** Before which place, from 0; the number of lines there are puts them at the end. */
  readonly at: number;
  readonly count?: number;
}

export function insertLines(book: Book, { table: wanted, axis, at, count = 1 }: InsertLines): Answer {
  const table = findTable(book, wanted);
  if (!table) return refused(`There is no table ${wanted} in this book.`);
  const lines = linesOf(table, axis);
  if (!Number.isInteger(at) || at < 0 || at > lines.length || !Number.isInteger(count) || count < 1) return refused(`There is no such place in ${table.name}.`);
  if (lines.length + count > mostLines(axis))
    return refused(`${table.name} would have more than ${amount(mostLines(axis))} ${axis}s, which is the most a table may have.`);
  const { edits } = followLines(book, table, axis, { kind: 'insert', at, count });
  const ids = freshIds(lines, axis === 'row' ? 'r' : 'c', count);
  return {
    label: `${linesText(axis, at, count, columnText)} put into ${table.name}`,
    edits: [...edits, ...ids.map((id, i) => lineEdit(table, axis, at + i, null, { id }))],
  };
}
