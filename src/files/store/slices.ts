/**
 * A large book in the records that the browser keeps it in. Copying one of ten thousand rows into the browser's store at one go takes half a
 * second, in which nothing that is typed is seen; in slices the page sees to other things in between, and of a book that was kept before only the
 * slices are written in which something changed.
 */
import type { Book, Row, Table } from '../../book/book.ts';

/** By its key: rows in their order, or ids of rows each with its cells after it. */
export type Slices = ReadonlyMap<string, readonly unknown[]>;

/** Rows of a table that is kept in slices, and about how many make one. */
const LARGE = 500;
const ROWS = 1000;
const FILLED = 100;

interface Sliced {
  /** The book without what is in the slices. */
  readonly head: Book;
  readonly slices: Slices;
}

export function sliced(book: Book): Sliced {
  const slices = new Map<string, unknown[]>();
  const tables = book.tables.map((table) => {
    if (table.rows.length < LARGE) return table;
    for (let from = 0; from < table.rows.length; from += ROWS) slices.set(`${table.id} rows ${from / ROWS}`, table.rows.slice(from, from + ROWS));
    slicesOfCells(table, slices);
    return { ...table, rows: [], cells: {} };
  });
  return { head: { ...book, tables }, slices };
}

/** A row's cells lie in the slice that its id says, so that rows before it may come and go. */
function slicesOfCells({ id, cells, rows }: Table, slices: Map<string, unknown[]>): void {
  const count = 2 ** Math.ceil(Math.log2(rows.length / FILLED));
  const made = Array.from({ length: count }, (): unknown[] => []);
  for (const row of Object.keys(cells)) made[hash(row) % count]?.push(row, cells[row]);
  for (const [i, slice] of made.entries()) slices.set(`${id} cells ${i}`, slice);
}

function hash(text: string): number {
  let n = 0;
  for (let i = 0; i < text.length; i++) n = (n * 31 + text.charCodeAt(i)) >>> 0;
  return n;
}

/** Whether two slices hold the very same rows: what a change does not touch is shared with the book before it. */
export const sameSlice = (a: readonly unknown[], b: readonly unknown[] | undefined): boolean =>
  b !== undefined && a.length === b.length && a.every((each, i) => each === b[i]);

/** The book whole again, as it was kept: what came of the browser's store is still to be checked. */
export function joined(head: unknown, slices: Slices): unknown {
  if (slices.size === 0 || typeof head !== 'object' || head === null || !Array.isArray((head as Partial<Book>).tables)) return head;
  const tables = (head as { tables: unknown[] }).tables.map((found) => {
    // A damaged one stays as it is, for the check to find.
    if (typeof found !== 'object' || found === null) return found;
    const table = found as Table;
    const rows: Row[] = [];
    const cells: [string, Table['cells'][string]][] = [];
    for (const slice of slicesCalled(slices, `${table.id} rows`)) for (const row of slice) rows.push(row as Row);
    for (const slice of slicesCalled(slices, `${table.id} cells`)) {
      for (let k = 0; k < slice.length; k += 2) cells.push([String(slice[k]), slice[k + 1] as Table['cells'][string]]);
    }
    return rows.length === 0 ? table : { ...table, rows, cells: Object.fromEntries(cells) };
  });
  return { ...head, tables };
}

function* slicesCalled(slices: Slices, name: string): Generator<readonly unknown[]> {
  for (let i = 0; slices.has(`${name} ${i}`); i++) {
    const slice: unknown = slices.get(`${name} ${i}`);
    if (Array.isArray(slice)) yield slice;
  }
}
