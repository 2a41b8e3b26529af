/** Rows and columns alike: what the commands on them share. */
import { tableNamed } from './address.ts';
import type { Book, Column, Row, Table } from './book.ts';
import { BOUNDS } from './bounds.ts';
import type { Edit } from './change.ts';
import { followShift } from './references.ts';
import { type Lost, type Rewritten, rewriteBook } from './rewrite-book.ts';
import type { Shift } from './shift.ts';

export type Axis = 'row' | 'column';

export const linesOf = (table: Table, axis: Axis): readonly (Row | Column)[] => (axis === 'row' ? table.rows : table.columns);

/** By id or by name. */
export const findTable = (book: Book, table: string): Table | undefined => book.tables.find((t) => t.id === table) ?? tableNamed(book, table);

export const tablesOf = (book: Book, form: Table['form']): readonly Table[] => book.tables.filter((table) => table.form === form);

/** All blocks of a book: their ids are unique across its pages. */
export const blockIds = (book: Book): readonly { readonly id: string }[] => book.pages.flatMap((page) => page.blocks);

/** Ids that the table does not use: `r12`, `r13`. */
export function freshIds(lines: readonly { readonly id: string }[], prefix: string, count: number): readonly string[] {
  let highest = 0;
  for (const { id } of lines) {
    const match = /^[a-z]+(\d{1,9})$/u.exec(id);
    if (match) highest = Math.max(highest, Number(match[1]));
  }
  return Array.from({ length: count }, (_, i) => `${prefix}${highest + 1 + i}`);
}

export const lineEdit = (table: Table, axis: Axis, index: number, before: Row | Column | null, after: Row | Column | null): Edit =>
  ({ at: axis, table: table.id, index, before, after }) as Edit;

/** The edits elsewhere in the book that lines shifting in a table call for. */
export function followLines(book: Book, table: Table, axis: Axis, shift: Shift): Rewritten {
  const going = new Set(
    shift.kind === 'delete'
      ? linesOf(table, axis)
          .slice(shift.at, shift.at + shift.count)
          .map((line) => line.id)
      : [],
  );
  return rewriteBook(
    book,
    (home) => followShift(table.name, axis, shift, home?.name),
    (home, row, column) => home === table && going.has(axis === 'row' ? row : column),
  );
}

/** Takes lines out, with their cells, and mends what pointed at them. */
export function removeLines(book: Book, table: Table, axis: Axis, at: number, count: number): Rewritten {
  const going = linesOf(table, axis).slice(at, at + count);
  const { edits, ...lost } = followLines(book, table, axis, { kind: 'delete', at, count });
  const made: Edit[] = [...edits];
  const ids = new Set(going.map((line) => line.id));
  for (const [row, line] of Object.entries(table.cells)) {
    for (const [column, before] of Object.entries(line)) {
      if (ids.has(axis === 'row' ? row : column)) made.push({ at: 'cell', table: table.id, row, column, before, after: null });
    }
  }
  for (const line of going) made.push(lineEdit(table, axis, at, line, null));
  if (table.base !== undefined && axis === 'column' && ids.has(table.base))
    made.push({ at: 'table fields', table: table.id, before: { base: table.base }, after: {} });
  return { edits: made, ...lost };
}

/** "Row 3", "Rows 3 to 5", "Column B". */
export function linesText(axis: Axis, at: number, count: number, columnText: (column: number) => string): string {
  const name = (place: number): string => (axis === 'row' ? String(place + 1) : columnText(place));
  const word = axis === 'row' ? 'Row' : 'Column';
  return count === 1 ? `${word} ${name(at)}` : `${word}s ${name(at)} to ${name(at + count - 1)}`;
}

export const mostLines = (axis: Axis): number => (axis === 'row' ? BOUNDS.rows : BOUNDS.columns);

export const NOTHING_LOST: Lost = { lost: 0, told: 0, names: [] };

export const lostTogether = (a: Lost, b: Lost): Lost => ({ lost: a.lost + b.lost, told: a.told + b.told, names: [...a.names, ...b.names] });

/** A label says at most so many names. */
const NAMES_SAID = 3;

/** For the label: what points at nothing from now on. */
export function lostText({ lost, told, names }: Lost): string {
  const parts: string[] = [];
  if (lost > 0) parts.push(lost === 1 ? 'one formula lost a cell that it read' : `${lost} formulas lost a cell that they read`);
  if (told > 0) parts.push(told === 1 ? 'a text or a picture lost a cell that it showed' : `${told} texts and pictures lost a cell that they showed`);
  if (names.length === 1) parts.push(`the name ${names[0]} goes too`);
  else if (names.length > 1) {
    const said = names.slice(0, NAMES_SAID);
    const more = names.length - said.length;
    parts.push(`the names ${more > 0 ? `${said.join(', ')} and ${more} more` : `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`} go too`);
  }
  return parts.length === 0 ? '' : ` (${parts.join('; ')})`;
}
