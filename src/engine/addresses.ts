/** Where cells are: positions in the engine's own count, and the A1 text that formulas and people use. */

/** Sheet, column and row from 0. */
export interface Position {
  readonly sheet: number;
  readonly col: number;
  readonly row: number;
}

/** The cells of a rectangle; one cell where both ends are the same. */
export interface Span {
  readonly start: Position;
  readonly end: Position;
}

/** The key of a position in our maps: room for a million rows of ten thousand columns, so that what is too large has one too. */
export const keyOf = (at: Position): number => (at.sheet * 1e6 + at.row) * 1e4 + at.col;
export const positionOf = (key: number): Position => {
  const line = Math.floor(key / 1e4);
  return { sheet: Math.floor(line / 1e6), row: line % 1e6, col: key % 1e4 };
};

const PLAIN_NAME = /^[A-Za-z_\u00C0-\u02AF][A-Za-z0-9_\u00C0-\u02AF]*$/u;

/** A table's name as a formula says it: quoted where it holds more than letters, digits and underscores. */
export function tableText(name: string): string {
  return PLAIN_NAME.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}

/** 0 → A, 25 → Z, 26 → AA. */
export function columnText(col: number): string {
  let text = '';
  for (let n = col + 1; n > 0; n = Math.floor((n - 1) / 26)) text = String.fromCharCode(65 + ((n - 1) % 26)) + text;
  return text;
}

/** A → 0, AA → 26. */
export function columnNumber(text: string): number {
  let n = 0;
  for (const letter of text.toUpperCase()) n = n * 26 + letter.charCodeAt(0) - 64;
  return n - 1;
}

export const cellText = (col: number, row: number): string => `${columnText(col)}${row + 1}`;

export interface Written {
  readonly table: string | undefined;
  readonly start: { readonly col: number; readonly row: number };
  readonly end: { readonly col: number; readonly row: number };
}

const REFERENCE = /^(?:(?:'((?:[^']|'')+)'|([^'!]+))!)?\$?([A-Za-z]{1,3})\$?(\d{1,7})(?::\$?([A-Za-z]{1,3})\$?(\d{1,7}))?$/u;

/** Reads `Brief!A1`, `'Light map'!B2:C9` or `A1`; undefined for anything else. */
export function readReference(text: string): Written | undefined {
  const match = REFERENCE.exec(text.trim());
  if (!match) return undefined;
  const [, quoted, bare, col1 = '', row1 = '', col2, row2] = match;
  const start = { col: columnNumber(col1), row: Number(row1) - 1 };
  const end = col2 && row2 ? { col: columnNumber(col2), row: Number(row2) - 1 } : start;
  return { table: quoted?.replaceAll("''", "'") ?? bare, start, end };
}
