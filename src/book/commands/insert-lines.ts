/** Puts empty rows or columns into a table. */
import { columnText } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Table } from '../book.ts';
import { count as amount } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { isFormula } from '../content.ts';
import { type Axis, findTable, followLines, freshIds, lineEdit, linesOf, linesText, mostLines } from '../lines.ts';
import { rewriteFormula } from '../references.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { squash } from '../squash.ts';
import { moveLines } from './move-lines.ts';

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
  const label = `${linesText(axis, at, count, columnText)} put into ${table.name}`;
  if (axis === 'row' && at === lines.length && alike(table, at - 1).length > 0) {
    const behind = insertBehind(book, { table: table.id, axis, at: at - 1, count });
    return isRefused(behind) ? behind : { ...behind, label };
  }
  const { edits } = followLines(book, table, axis, { kind: 'insert', at, count });
  const ids = freshIds(lines, axis === 'row' ? 'r' : 'c', count);
  return {
    label,
    edits: [
      ...edits,
      ...ids.map((id, i) => lineEdit(table, axis, at + i, null, { id })),
      ...(axis === 'row' ? ids.flatMap((row, i) => takenAlong(table, row, at, at + i)) : []),
    ],
  };
}

/** Puts them behind a line, and has ranges that end in it reach over them too: they come in before it, and it goes back to its place. */
export function insertBehind(book: Book, { table, axis, at, count = 1 }: InsertLines): Answer {
  const put = insertLines(book, { table, axis, at, count });
  if (isRefused(put)) return put;
  const back = moveLines(apply(book, put), { table, axis, at: at + count, to: at });
  return isRefused(back) ? back : squash(put, back);
}

/** The formulas of a list's row where each of them is that of the row above, a row further on; none where one is another. */
function alike(table: Table, place: number): readonly (readonly [column: string, formula: string])[] {
  const [above, below] = [place - 1, place].map((r) =>
    Object.entries(table.cells[table.rows[r]?.id ?? ''] ?? {}).filter(([, cell]) => isFormula(cell.content)),
  );
  if (table.form !== 'list' || !above?.length || above.length !== below?.length) return [];
  const formulas = above.map(([column, cell]) => [column, cell.content] as const);
  const same = formulas.every(([column, formula]) => table.cells[table.rows[place]?.id ?? '']?.[column]?.content === inRow(table, formula, place - 1, place));
  return same ? formulas : [];
}

/** A formula of one row as it stands in another: what it reads of its own row is read there. */
const inRow = (table: Table, formula: string, from: number, to: number): string =>
  rewriteFormula(formula, (reference) => {
    const own = (reference.table ?? table.name) === table.name && reference.from.row === from && reference.to.row === from;
    if (!own || reference.from.rowFixed || reference.to.rowFixed) return undefined;
    return { ...reference, from: { ...reference.from, row: to }, to: { ...reference.to, row: to } };
  });

const takenAlong = (table: Table, row: string, at: number, to: number): readonly Edit[] =>
  alike(table, at).map(([column, formula]) => ({
    at: 'cell',
    table: table.id,
    row,
    column,
    before: null,
    after: { content: inRow(table, formula, at - 1, to) },
  }));
