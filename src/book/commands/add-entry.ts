/** A new row of a look-up list, as a data sheet has it: each field read as its cell would read it. */
import { readContent, readQuantity } from '../../../functions/quantity-text.ts';
import { fromBase, times, unit, withCurrency } from '../../../functions/units.ts';
import type { At } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Cell, Column, Table } from '../book.ts';
import { noRoomFor } from '../bounds.ts';
import { plainText } from '../content.ts';
import { findTable } from '../lines.ts';
import { keyOf, nameColumns, roomAtFoot, rowKey } from '../list-rows.ts';
import { columnHeading, titleOf, unitOf } from '../look-up.ts';
import { type PlainReading, readPlain, unitInBook } from '../read-plain.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { cellEdit, withOwnUnit } from './set-cell.ts';

export interface AddEntry {
  /** A list's id or name. */
  readonly table: string;
  /** What was typed, by column ids; a blank field, or none, leaves its cell blank. */
  readonly typed: Readonly<Record<string, string>>;
}

export const FROM_SHEET = 'from the data sheet';

/** The cell of a row that is still to come, called by what is typed as its name. */
export function entryAt(table: Table, column: Column, typed: AddEntry['typed'], row = { id: 'new' }, rowIndex = table.rows.length): At {
  const [first] = table.columns;
  const name = (first && typed[first.id]?.trim()) || headingOf(table, first);
  const cells = { ...table.cells, [row.id]: first ? { [first.id]: { content: name } } : {} };
  return { table: { ...table, cells }, row, column, rowIndex, columnIndex: table.columns.indexOf(column), cell: undefined };
}

export function headingOf(table: Table, column: Column | undefined): string {
  const row = table.rows[0];
  return row && column ? columnHeading({ table, row, column, rowIndex: 0, columnIndex: 0, cell: undefined }) : '';
}

/** What each filled field says, or what is wrong with it, by column ids. */
export function readEntry(book: Book, table: Table, typed: AddEntry['typed']): ReadonlyMap<string, PlainReading> {
  const filled = table.columns.filter(({ id }) => (typed[id] ?? '').trim() !== '');
  return new Map(filled.map((column) => [column.id, readField(book, table, column, typed)]));
}

function readField(book: Book, table: Table, column: Column, typed: AddEntry['typed']): PlainReading {
  const at = entryAt(table, column, typed);
  const said = typed[column.id] ?? '';
  const field = column === table.columns[0] ? (`'${plainText(said.trim())}` as const) : (byAnother(book, table, column, typed) ?? said);
  const read = readPlain(book, at, field, unitInBook(book, at) ?? '');
  // On its own, outside its cell, a message says what it is about.
  if (!read.ok) return read.message.startsWith(titleOf(at)) ? read : { ok: false, message: `${titleOf(at)}: ${read.message}` };
  return field !== said && column !== table.columns[0] ? { ...read, said: `${columnHeading(at)}: ${read.content}` } : read;
}

/** An amount for each of another: 2.8 µmol/J stands for 644 µmol/s where the power is 230 W. */
function byAnother(book: Book, table: Table, column: Column, typed: AddEntry['typed']): string | undefined {
  const { currency } = book;
  const own = unit(withCurrency(column.unit ?? '', currency));
  const each = readQuantity(typed[column.id] ?? '', { currency });
  const per = each.kind === 'number' ? unit(each.unit) : undefined;
  if (!own || !per || each.kind !== 'number' || per.symbol === '' || per.dimension === own.dimension) return undefined;
  for (const other of table.columns) {
    const its = unit(withCurrency(other.unit ?? '', currency));
    if (!its || other.unit === undefined || times(per.dimension, its.dimension) !== own.dimension) continue;
    const read = readPlain(book, entryAt(table, other, typed), typed[other.id] ?? '', other.unit);
    const amount = read.ok ? readContent(read.content, currency) : undefined;
    // What the product of two numbers left behind the tenth digit was on no data sheet.
    if (amount?.kind === 'number') return `${Number(fromBase(each.base * amount.base, own).toPrecision(10))} ${own.symbol}`;
  }
  return undefined;
}

/** The needed columns that nothing is said of. */
export const missingOf = (table: Table, typed: AddEntry['typed']): readonly Column[] =>
  table.columns.filter(({ id, needed }) => needed && (typed[id] ?? '').trim() === '');

export function addEntry(book: Book, { table: wanted, typed }: AddEntry): Answer {
  const table = findTable(book, wanted);
  const [first] = table?.columns ?? [];
  if (!table || !first) return refused(`There is no table ${wanted} in this book.`);
  const name = (typed[first.id] ?? '').trim();
  if (name === '') return refused(`${headingOf(table, first)}: it needs a name.`);
  const read = readEntry(book, table, typed);
  for (const one of read.values()) if (!one.ok) return refused(one.message);
  const names = nameColumns(table);
  const key = keyOf(names.map((id) => typed[id] ?? ''));
  if (names.length > 0 && table.rows.some((row) => !row.head && rowKey(table, row, names) === key)) return refused(`${table.name} has “${name}” already.`);
  const room = roomAtFoot(book, table, 1);
  if (isRefused(room)) return room;
  const row = findTable(room.change ? apply(book, room.change) : book, table.id)?.rows[room.at];
  if (!row) return refused(`There is no room in ${table.name}.`);
  const edits = table.columns.flatMap((column) => {
    const at = { ...entryAt(table, column, typed, row, room.at), cell: table.cells[row.id]?.[column.id] };
    const one = read.get(column.id);
    const cell = one?.ok ? cellOf(at, one) : isSource(table, column) ? { content: FROM_SHEET } : undefined;
    return cell ? cellEdit(at, cell) : [];
  });
  const full = noRoomFor(book, '', undefined);
  if (full !== undefined) return refused(full);
  const missing = missingOf(table, typed).map((column) => headingOf(table, column));
  const left = missing.length > 0 ? `; still missing: ${missing.join(', ')}` : '';
  return { label: `${name} added to ${table.name}, ${FROM_SHEET}${left}`, edits: [...(room.change?.edits ?? []), ...edits] };
}

const cellOf = (at: At, read: PlainReading & { readonly ok: true }): Cell =>
  withOwnUnit(at, {
    content: read.content,
    ...(read.typed !== undefined && read.typed !== read.content && { typed: read.typed }),
    ...(read.unit !== undefined && unitOf(at) !== undefined && { unit: read.unit }),
    source: FROM_SHEET,
  });

const isSource = (table: Table, column: Column): boolean => headingOf(table, column).toLowerCase() === 'source';
