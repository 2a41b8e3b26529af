/**
 * Where cells are, as formulas and people say it: `Scenarios.B7`, `'Day light'.A1`. Rows and columns count from 0 inside, from A and 1 in text.
 *
 * The writing is that of the datatype cellAddress (OASIS, Open Document Format for Office Applications, version 1.3, part 3: OpenDocument Schema, 2021,
 * 18.3; the pattern from memory), with the table's name in quotes wherever it is no plain word; of a range only the first corner says the table.
 * This file alone writes it and reads it. Other writings are turned into it where they come in: see other-writing.ts.
 */
import type { Book, Cell, Column, Row, Table } from './book.ts';

/** × and ÷, which lie among the letters of Latin-1, are signs. */
const LETTER = 'A-Za-z_\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u02AF';
/** What a table may be called without quotes: a digit at its beginning would make a number of it, `2024.E5`. */
export const PLAIN = `[${LETTER}][${LETTER}0-9]*`;
export const QUOTED = "'((?:[^']|'')+)'";
export const CORNER = '(\\$?)([A-Za-z]{1,3})(\\$?)([1-9]\\d{0,6})';
/** What can't follow upon a reference: it would be part of something else. */
export const END = `(?![${LETTER}0-9.!]|\\s*\\()`;
const PLAIN_TABLE = new RegExp(`^${PLAIN}$`, 'u');

/** A table's name as a formula says it: in quotes where it holds more than letters, digits and underscores, or begins with a digit. */
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

/** A cell of a table that need not be named: `B7`. */
export const cellText = (column: number, row: number): string => `${columnText(column)}${row + 1}`;

/** What says the table in front of a cell: `Scenarios.`. */
export const tablePrefix = (table: string): string => `${tableText(table)}.`;

/** The address of a cell, with its table: the key of its value. */
export const textOf = (table: string, column: number, row: number): string => `${tablePrefix(table)}${cellText(column, row)}`;

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

const TABLE = `(?:${QUOTED}|(${PLAIN}))\\.`;
/** One reference, at the place where the search stands. A range may say its table on both sides. */
export const REFERENCE = new RegExp(`(?:${TABLE})?${CORNER}(?::(?:${TABLE})?${CORNER})?${END}`, 'uy');

/** Reads `B7`, `$B$7`, `Scenarios.B7`, `'Day light'.A1:C4`; undefined for anything else. */
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
  const prefix = reference.table === undefined ? '' : tablePrefix(reference.table);
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

/** The place that `Scenarios.B7` names, or undefined where the book has none such. */
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
