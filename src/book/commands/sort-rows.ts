/** Puts the rows of a plain list into the order of one column. References follow the rows. */
import { readContent } from '../../../functions/quantity-text.ts';
import { type At, columnText, placeIn, type Reference, textOf } from '../address.ts';
import type { Book, Row, Table } from '../book.ts';
import type { Edit } from '../change.ts';
import { findTable, lineEdit } from '../lines.ts';
import { addressOf, columnHeading } from '../look-up.ts';
import { LOST, type Rewrite } from '../references.ts';
import { type Answer, refused } from '../refused.ts';
import { rewriteBook } from '../rewrite-book.ts';

export interface SortRows {
  /** A table's id or name. */
  readonly table: string;
  readonly column: number;
  readonly downward?: boolean;
  /** What a formula gives: the book does not know it. Undefined: it has no value, and its row goes last. */
  readonly worked?: (address: string) => number | string | undefined;
}

/** Numbers come before texts, and what is blank comes last in either direction. Rows that are alike keep their order, and headings their place. */
export function sortRows(book: Book, { table: wanted, column, downward = false, worked = () => undefined }: SortRows): Answer {
  const table = findTable(book, wanted);
  if (!table?.columns[column]) return refused(`There is no such column in ${wanted}.`);
  if (table.form !== 'list' && table.form !== 'plain') return refused(`${table.name} is not a plain list: its rows stand in an order that means something.`);
  const first = table.rows.findLastIndex((row) => row.head) + 1;
  const keys = table.rows.map((_, r) => keyOf(placeIn(table, column, r), worked));
  const order = table.rows.map((_, r) => r);
  const sorted = [...order.slice(0, first), ...order.slice(first).sort((a, b) => compared(keys[a], keys[b], downward) || a - b)];
  const heading = placeIn(table, column, 0);
  const label = `${table.name} put in the order of ${(heading && columnHeading(heading)) || `column ${columnText(column)}`}${downward ? ', the greatest first' : ''}`;
  if (sorted.every((from, to) => from === to)) return { label, edits: [] };
  const places = new Map(sorted.map((from, to) => [from, to]));
  const torn = tornRange(book, table, places);
  if (torn) return refused(torn);
  const { edits } = rewriteBook(book, (home) => followOrder(table, places, home));
  return { label, edits: [...edits, ...rowEdits(table, first, sorted, edits)] };
}

type Key = number | string | undefined;

function keyOf(at: At | undefined, worked: (address: string) => Key): Key {
  const content = readContent(at?.cell?.content ?? '');
  if (content.kind === 'number') return content.base;
  if (content.kind === 'formula') return at && worked(addressOf(at));
  return content.kind === 'text' ? content.text : content.kind === 'yes or no' ? String(content.yes) : undefined;
}

const inWords = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

function compared(a: Key, b: Key, downward: boolean): number {
  if (a === undefined || b === undefined) return a === b ? 0 : a === undefined ? 1 : -1;
  const by =
    typeof a === 'number' && typeof b === 'number' ? a - b : typeof a === typeof b ? inWords.compare(String(a), String(b)) : typeof a === 'number' ? -1 : 1;
  return downward ? -by : by;
}

/** Where the lines of a span go: together (its new ends), or apart (undefined). */
function spanAfter(places: ReadonlyMap<number, number>, from: number, to: number): readonly [number, number] | undefined {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let row = Math.min(from, to); row <= Math.max(from, to); row++) {
    const place = places.get(row) ?? row;
    least = Math.min(least, place);
    most = Math.max(most, place);
  }
  return most - least === Math.abs(to - from) ? [least, most] : undefined;
}

const reads = (table: Table, reference: Reference, home: Table | undefined): boolean =>
  (reference.table ?? home?.name)?.toLowerCase() === table.name.toLowerCase();

function followOrder(table: Table, places: ReadonlyMap<number, number>, home: Table | undefined): Rewrite {
  return (reference) => {
    if (!reads(table, reference, home)) return undefined;
    const span = spanAfter(places, reference.from.row, reference.to.row);
    if (!span) return undefined;
    const [from, to] = reference.from.row <= reference.to.row ? span : [span[1], span[0]];
    if (from === reference.from.row && to === reference.to.row) return undefined;
    return { ...reference, from: { ...reference.from, row: from }, to: { ...reference.to, row: to } };
  };
}

/** A range that holds a part of the list would hold other rows afterwards, and nobody would see it. */
function tornRange(book: Book, table: Table, places: ReadonlyMap<number, number>): string | undefined {
  const mark =
    (home: Table | undefined): Rewrite =>
    (reference) =>
      reads(table, reference, home) && !spanAfter(places, reference.from.row, reference.to.row) ? LOST : undefined;
  const [edit] = rewriteBook(book, mark).edits;
  if (!edit) return undefined;
  return `${placeOfEdit(book, edit)} reads a part of ${table.name}, which would be other rows afterwards. Let it read the whole list, or put the rows in order by hand.`;
}

function placeOfEdit(book: Book, edit: Edit): string {
  if (edit.at === 'name') return `The name ${edit.name}`;
  if (edit.at !== 'cell') return edit.at === 'block' ? 'A text or a picture' : 'A list of choices';
  const home = book.tables.find((each) => each.id === edit.table);
  const [row, column] = [home?.rows.findIndex((each) => each.id === edit.row) ?? 0, home?.columns.findIndex((each) => each.id === edit.column) ?? 0];
  return home ? textOf(home.name, column, row) : 'A formula';
}

/** Out of their places and back in the new order; a row whose list of choices was rewritten goes as it is then. */
function rowEdits(table: Table, first: number, sorted: readonly number[], rewritten: readonly Edit[]): Edit[] {
  const now = new Map<number, Row>();
  for (const edit of rewritten) if (edit.at === 'row' && edit.table === table.id && edit.after) now.set(edit.index, edit.after);
  const rows = table.rows.map((row, r) => now.get(r) ?? row);
  const out = rows.slice(first).map((row) => lineEdit(table, 'row', first, row, null));
  const back = sorted.slice(first).map((from, i) => lineEdit(table, 'row', first + i, null, rows[from] ?? null));
  return [...out, ...back];
}
