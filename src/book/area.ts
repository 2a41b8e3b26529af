/** A block of cells: where it begins and how far it goes. */
import { type At, cellText, placeIn, textOf } from './address.ts';
import type { Book, Cell, Table } from './book.ts';
import { findTable } from './lines.ts';
import { unitOf } from './look-up.ts';

export interface Area {
  /** A table's id or name. */
  readonly table: string;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** The table and every place of the area, row by row; undefined where it goes beyond the table. */
export function placesOf(
  book: Book,
  { table: wanted, row, column, rows, columns }: Area,
): { readonly table: Table; readonly lines: readonly (readonly At[])[] } | undefined {
  const table = findTable(book, wanted);
  const whole = [row, column, rows, columns].every(Number.isInteger) && row >= 0 && column >= 0 && rows > 0 && columns > 0;
  if (!table || !whole || row + rows > table.rows.length || column + columns > table.columns.length) return undefined;
  const lines = Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_x, c) => placeIn(table, column + c, row + r)).filter((at) => at !== undefined),
  );
  return { table, lines };
}

/** `Scenarios.B2:C4`, or one address where it is one cell. */
export function areaText(table: Table, { row, column, rows, columns }: Area): string {
  const to = rows * columns > 1 ? `:${cellText(column + columns - 1, row + rows - 1)}` : '';
  return `${textOf(table.name, column, row)}${to}`;
}

/** A cell as it is carried elsewhere: with the unit in which it is shown here, and without what belongs to its place. */
export function carriedCell(at: At): Cell | null {
  if (!at.cell || at.cell.content === '') return null;
  const { kind: _, range: __, ...kept } = at.cell;
  const unit = unitOf(at);
  return unit === undefined ? kept : { ...kept, unit };
}
