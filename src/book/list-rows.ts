/** Rows of a look-up list by what stands first in them, and room for more of them inside what formulas read. */
import type { Book, Row, Table } from './book.ts';
import type { Change } from './change.ts';
import { insertBehind, insertLines } from './commands/insert-lines.ts';
import { plainText } from './content.ts';
import { isRefused, type Refused } from './refused.ts';

/** Texts that are one name: told apart as formulas tell them, without regard to capitals and accents, and with one space for several. */
export const nameKey = (text: string): string => plainText(text).normalize('NFD').replace(/\p{M}/gu, '').trim().replaceAll(/\s+/gu, ' ').toLowerCase();

const isFilled = (table: Table, row: Row): boolean => Object.values(table.cells[row.id] ?? {}).some(({ content }) => content !== '');

/**
 * The columns that tell the rows of a list apart, as ids: its first, and further ones of words where several rows begin alike, as a crop with its
 * stages. None where the rows of the table have no names.
 */
export function nameColumns(table: Table): readonly string[] {
  const [first, ...more] = table.columns;
  if (!first || table.form !== 'list' || !table.rows[0]?.head || first.unit !== undefined || first.range) return [];
  const end = more.findIndex(({ unit, range }) => unit !== undefined || range !== undefined);
  const words = [first, ...more.slice(0, end < 0 ? more.length : end)].map(({ id }) => id);
  const enough = words.findIndex((_, i) => {
    const [rows, names] = namesIn(table, words.slice(0, i + 1));
    return rows === names;
  });
  return words.slice(0, enough < 0 ? 1 : enough + 1);
}

/** Rows that say something, and how many different names they have. */
function namesIn(table: Table, ids: readonly string[]): readonly [rows: number, names: number] {
  const filled = table.rows.filter((row) => !row.head && isFilled(table, row));
  return [filled.length, new Set(filled.map((row) => rowKey(table, row, ids))).size];
}

/** The rows of a list go by their names: few, if any, are called alike. */
export function goesByNames(table: Table): boolean {
  const ids = nameColumns(table);
  const [rows, names] = namesIn(table, ids);
  return ids.length > 0 && names * 2 > rows;
}

/** Of contents that tell a row apart. */
export const keyOf = (contents: readonly string[]): string => contents.map(nameKey).join('\n');

export const rowKey = (table: Table, row: Row, ids: readonly string[]): string => keyOf(ids.map((id) => table.cells[row.id]?.[id]?.content ?? ''));

/**
 * Blank rows at the foot of a list, made before its last row where there are too few, so that what reads the list reads them too. A blank one stays at
 * the foot where there was one. `at`: the first of them; without a change there are enough.
 */
export function roomAtFoot(book: Book, table: Table, count: number): { readonly at: number; readonly change?: Change } | Refused {
  const at = table.rows.findLastIndex((row) => row.head || isFilled(table, row)) + 1;
  const free = table.rows.length - at;
  if (free > count || count === 0) return { at };
  const made = count + (free > 0 ? 1 : 0) - free;
  const before = Math.max(table.rows.length - 1, 1);
  // A blank one at the foot stays there; without one what was the last row stays where it is, and the blank ones stand after it.
  const put = free > 0 || at === 1 ? insertLines : insertBehind;
  const change = put(book, { table: table.id, axis: 'row', at: before, count: made });
  return isRefused(change) ? change : { at, change };
}
