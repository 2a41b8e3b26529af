/** A formula that is repeated or pasted elsewhere reads the cells that lie to it as the old ones lay to the old place. */
import { type Corner, type Reference, tableNamed } from './address.ts';
import type { Book, Table } from './book.ts';
import { LOST, rewriteFormula } from './references.ts';

/**
 * Rows and columns with `$` stay. In another table a reference goes along only where there are several lines to go along: `Brief.A2` stays in its one
 * column when a formula is repeated across. What would lie before the first line is lost.
 */
export function rebased(book: Book, home: Table, formula: string, down: number, across: number): string {
  return rewriteFormula(formula, (reference) => {
    const table = reference.table === undefined ? home : tableNamed(book, reference.table);
    if (!table) return undefined;
    const by = {
      row: table === home || table.rows.length > 1 ? down : 0,
      column: table === home || table.columns.length > 1 ? across : 0,
    };
    const [from, to] = [movedCorner(reference.from, by), movedCorner(reference.to, by)];
    return from && to ? { ...reference, from, to } : LOST;
  });
}

function movedCorner(corner: Corner, by: { readonly row: number; readonly column: number }): Corner | undefined {
  const row = corner.rowFixed ? corner.row : corner.row + by.row;
  const column = corner.columnFixed ? corner.column : corner.column + by.column;
  return row < 0 || column < 0 ? undefined : { ...corner, row, column };
}

/** In another table the formula goes on reading the cells that it read: those beside it are now named with their table. */
export const withTable = (formula: string, table: string): string =>
  rewriteFormula(formula, (reference: Reference) => (reference.table === undefined ? { ...reference, table } : undefined));
