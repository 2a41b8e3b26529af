/** Where cells are: positions in the engine's own count. How they are written is the book's: src/book/address.ts. */
import { readReference as readWritten } from '../book/address.ts';

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

export interface Written {
  readonly table: string | undefined;
  readonly start: { readonly col: number; readonly row: number };
  readonly end: { readonly col: number; readonly row: number };
}

/** Reads `Brief.A1`, `'Light map'.B2:C9` or `A1`; undefined for anything else. */
export function readReference(text: string): Written | undefined {
  const reference = readWritten(text.trim());
  if (!reference) return undefined;
  const { table, from, to } = reference;
  return { table, start: { col: from.column, row: from.row }, end: { col: to.column, row: to.row } };
}
