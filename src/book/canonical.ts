/** One and the same text for one and the same book, however it came about: for files, checksums and comparing. */
import type { Book, Table } from './book.ts';

/** Fields that a person looks for first; the rest follow by the alphabet. */
const FIRST = [
  'format',
  'version',
  'checksum',
  'id',
  'title',
  'name',
  'client',
  'purpose',
  'currency',
  'measures',
  'wires',
  'paper',
  'kind',
  'form',
  'base',
  'label',
  'content',
  'typed',
];
const RANK: ReadonlyMap<string, number> = new Map(FIRST.map((key, i) => [key, i]));
const rank = (key: string): number => RANK.get(key) ?? FIRST.length;

/** The book with its fields in a fixed order, and its cells in the order of rows and columns. */
export function canonical(book: Book): Book {
  return { ...(ordered(book) as Book), tables: book.tables.map(canonicalTable) };
}

/** Depends on nothing but the content, so that the text of an older version's book stays what it was. */
export const canonicalText = (stored: object): string => JSON.stringify(ordered(stored));

function canonicalTable(table: Table): Table {
  const cells: Record<string, Table['cells'][string]> = {};
  for (const row of table.rows) {
    const line = table.cells[row.id];
    const filled = line ? table.columns.flatMap(({ id }) => (line[id] ? [[id, ordered(line[id])] as const] : [])) : [];
    if (filled.length > 0) cells[row.id] = Object.fromEntries(filled) as Table['cells'][string];
  }
  const { cells: _, ...rest } = table;
  return { ...(ordered(rest) as typeof rest), cells };
}

function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(([, v]) => v !== undefined);
  entries.sort(([a], [b]) => rank(a) - rank(b) || (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([key, v]) => [key, ordered(v)]));
}
