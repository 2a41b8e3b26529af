/** Where cells are, as formulas and people say it: `Scenarios!B7`, `'Day light'!A1`. Rows and columns count from 0 inside, from A and 1 in text. */
import type { Book, Cell, Column, Row, Table } from './book.ts';

const PLAIN_TABLE = /^[A-Za-z_\u00C0-\u02AF][A-Za-z0-9_\u00C0-\u02AF]*$/u;

/** A table's name as a formula says it: in quotes where it holds more than letters, digits and underscores. */
export const tableText = (name: string): string => (PLAIN_TABLE.test(name) ? name : `'${name.replaceAll("'", "''")}'`);

/** 0 → A, 25 → Z, 26 → AA. */
export function columnText(column: number): string {
  let text = '';
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26)) text = String.fromCharCode(65 + ((n - 1) % 26)) + text;
  return text;
}

/** A → 0, AA → 26. */
export function columnNumber(text: string): number {
  let n = 0;
  for (const letter of text.toUpperCase()) n = n * 26 + letter.charCodeAt(0) - 64;
  return n - 1;
}

/** The address of a cell, with its table: the key of its value. */
export const textOf = (table: string, column: number, row: number): string => `${tableText(table)}!${columnText(column)}${row + 1}`;

/** One corner of a reference; `$` before its column or row is kept, though nothing here is ever relative. */
export interface Corner {
  readonly column: number;
  readonly row: number;
  readonly columnFixed: boolean;
  readonly rowFixed: boolean;
}

/** A cell (both corners the same one) or a range of cells. */
export interface Reference {
  /** Undefined: the table in which it is written. */
  readonly table: string | undefined;
  readonly from: Corner;
  readonly to: Corner;
  readonly range: boolean;
}

const TABLE = "(?:'((?:[^']|'')+)'|([A-Za-z0-9_\\u00C0-\\u02AF]+))!";
const CORNER = '(\\$?)([A-Za-z]{1,3})(\\$?)([1-9]\\d{0,6})';
/** One reference, at the place where the search stands. A range may say its table on both sides. */
export const REFERENCE = new RegExp(`(?:${TABLE})?${CORNER}(?::(?:${TABLE})?${CORNER})?(?![A-Za-z0-9_.!(\\u00C0-\\u02AF])`, 'uy');

/** Reads `B7`, `$B$7`, `Scenarios!B7`, `'Day light'!A1:C4`; undefined for anything else. */
export function readReference(text: string): Reference | undefined {
  REFERENCE.lastIndex = 0;
  const match = REFERENCE.exec(text);
  return match && match[0].length === text.length ? referenceOf(match) : undefined;
}

/** What a match of `REFERENCE` says; undefined for a range from one table into another. */
export function referenceOf(match: RegExpExecArray): Reference | undefined {
  const [, quoted, bare, c1, col1, r1, row1, quoted2, bare2, c2, col2, r2, row2] = match;
  const table = quoted?.replaceAll("''", "'") ?? bare;
  const second = quoted2?.replaceAll("''", "'") ?? bare2;
  if (second !== undefined && second.toLowerCase() !== table?.toLowerCase()) return undefined;
  const from = corner(c1, col1, r1, row1);
  if (row2 === undefined) return { table, from, to: from, range: false };
  return { table, from, to: corner(c2, col2, r2, row2), range: true };
}

const corner = (columnFixed = '', column = '', rowFixed = '', row = ''): Corner => ({
  column: columnNumber(column),
  row: Number(row) - 1,
  columnFixed: columnFixed === '$',
  rowFixed: rowFixed === '$',
});

export function referenceText(reference: Reference): string {
  const prefix = reference.table === undefined ? '' : `${tableText(reference.table)}!`;
  return `${prefix}${cornerText(reference.from)}${reference.range ? `:${cornerText(reference.to)}` : ''}`;
}

const cornerText = (c: Corner): string => `${c.columnFixed ? '$' : ''}${columnText(c.column)}${c.rowFixed ? '$' : ''}${c.row + 1}`;

/** One place in a book, with what stands there. */
export interface At {
  readonly table: Table;
  readonly row: Row;
  readonly column: Column;
  readonly rowIndex: number;
  readonly columnIndex: number;
  /** Undefined where the cell is blank. */
  readonly cell: Cell | undefined;
}

/** Table names are told apart without regard to capitals. */
export const tableNamed = (book: Book, name: string): Table | undefined => book.tables.find((t) => t.name.toLowerCase() === name.toLowerCase());

export const cellOf = (table: Table, row: string, column: string): Cell | undefined => table.cells[row]?.[column];

/** The place that `Scenarios!B7` names, or undefined where the book has none such. */
export function cellAt(book: Book, address: string): At | undefined {
  const reference = readReference(address);
  if (!reference || reference.range || reference.table === undefined) return undefined;
  const table = tableNamed(book, reference.table);
  return table && placeIn(table, reference.from.column, reference.from.row);
}

export function placeIn(table: Table, columnIndex: number, rowIndex: number): At | undefined {
  const row = table.rows[rowIndex];
  const column = table.columns[columnIndex];
  return row && column && { table, row, column, rowIndex, columnIndex, cell: cellOf(table, row.id, column.id) };
}
