/** Small books for tests, written as rows of contents. */
import type { Book, Cell, Row, Table } from '../../src/book/book.ts';
import type { Change, Edit } from '../../src/book/change.ts';
import { createEngine } from '../../src/engine/engine.ts';
import type { Value } from '../../src/engine/types.ts';

type Written = string | Partial<Cell> | null;

/** A table whose rows are r1, r2 … and columns c1, c2 …; null is a missing cell. */
export function table(name: string, cells: readonly (readonly Written[])[], rows: readonly Partial<Row>[] = [], columns: readonly string[] = []): Table {
  const width = Math.max(0, ...cells.map((line) => line.length));
  const stored: Record<string, Record<string, Cell>> = {};
  for (const [r, line] of cells.entries()) {
    for (const [c, cell] of line.entries()) {
      if (cell === null) continue;
      stored[`r${r + 1}`] ??= {};
      const row = stored[`r${r + 1}`];
      if (row) row[`c${c + 1}`] = typeof cell === 'string' ? { content: cell } : { content: '', ...cell };
    }
  }
  return {
    id: name.toLowerCase(),
    name,
    form: 'plain',
    columns: Array.from({ length: width }, (_, i) => ({ id: `c${i + 1}`, ...(columns[i] !== undefined && { label: columns[i] }) })),
    rows: cells.map((_, i) => ({ id: `r${i + 1}`, ...rows[i] })),
    cells: stored,
  };
}

export function book(tables: readonly Table[], names: Readonly<Record<string, string>> = {}): Book {
  return { format: 'overbench book', version: 1, id: 'test', title: 'Test', client: '', currency: 'EUR', measures: 'metric', pages: [], tables, names };
}

/** A book with one cell put in (or taken out, with null), and the change that says so. */
export function put(before: Book, tableName: string, row: string, column: string, cell: Partial<Cell> | string | null): { book: Book; change: Change } {
  const found = before.tables.find((t) => t.name === tableName);
  if (!found) throw new Error(`no table ${tableName}`);
  const after: Cell | null = cell === null ? null : typeof cell === 'string' ? { content: cell } : { content: '', ...cell };
  const line = { ...found.cells[row] };
  const edit: Edit = { at: 'cell', table: found.id, row, column, before: line[column] ?? null, after };
  if (after) line[column] = after;
  else delete line[column];
  const changed: Table = { ...found, cells: { ...found.cells, [row]: line } };
  return { book: { ...before, tables: before.tables.map((t) => (t === found ? changed : t)) }, change: { label: 'test', edits: [edit] } };
}

/** Puts an engine over one table T and gives a way to ask for a cell's value. */
export async function loaded(cells: readonly (readonly Written[])[], names: Readonly<Record<string, string>> = {}) {
  const engine = createEngine();
  const values = await engine.load(book([table('T', cells)], names));
  return { engine, at: (cell: string): Value => values[`T.${cell}`] ?? { kind: 'blank' } };
}

/** A value in short: a base number, a text, a boolean, null for a blank, `word: message` for an error. */
export function short(value: Value): number | string | boolean | null {
  if (value.kind === 'number') return value.base;
  if (value.kind === 'text') return value.text;
  if (value.kind === 'yes or no') return value.yes;
  return value.kind === 'blank' ? null : `${value.word}: ${value.message}`;
}

const shared = createEngine();
/** A formula that reads no cell. */
export const calc = async (formula: string): Promise<number | string | boolean | null> => short(await shared.evaluate(formula));
