/** The rows of a list that a file speaks of, found by its names. */
import type { Row, Table } from '../../book/book.ts';
import { plainText } from '../../book/content.ts';
import { keyOf, nameColumns, rowKey } from '../../book/list-rows.ts';
import { unguard } from './csv.ts';
import type { CsvRecord } from './records.ts';

/** How a mapping finds rows, and the columns that its fields go to. */
interface Found {
  readonly into: 'end' | 'start' | { readonly from: number; readonly column: 'label' | { readonly id: string } };
  readonly columns: readonly { readonly from: number; readonly column: string }[];
}

/** What becomes of the rows of a list that is found by its names. */
export interface ListRows {
  readonly table: Table;
  /** Of rows that the list had; those that say the same are not among them. */
  readonly changed: readonly { readonly name: string; readonly row: Row; readonly cells: readonly string[] }[];
  readonly added: readonly { readonly name: string; readonly cells: readonly string[] }[];
  /** Rows that say what they said, and rows that the file lacks. */
  readonly same: number;
  readonly stay: number;
}

/** A column of a list that tells its rows apart, and the field that stands for it. */
export interface NameField {
  readonly from: number;
  readonly column: string;
}

/** None where the rows of the table have no names, or the file finds them otherwise. */
export function nameFields(table: Table, { into, columns }: Found): readonly NameField[] {
  const [first, ...more] = nameColumns(table);
  if (first === undefined || typeof into === 'string' || into.column === 'label' || into.column.id !== first) return [];
  const rest = more.map((id) => columns.find(({ column }) => column === id));
  return [{ from: into.from, column: first }, ...rest.flatMap((one) => (one ? [{ from: one.from, column: one.column }] : []))];
}

export const fieldsKey = (fields: readonly string[], names: readonly { readonly from: number }[]): string =>
  keyOf(names.map(({ from }) => unguard(fields[from] ?? '').trim()));

export const nameIn = (table: Table, row: Row, names: readonly NameField[]): string =>
  names.flatMap(({ column }) => plainText(table.cells[row.id]?.[column]?.content ?? '') || []).join(', ');

/** How many rows of the file its list does not have yet. */
export function newRows(table: Table, mapping: Found, records: readonly CsvRecord[]): number {
  const names = nameFields(table, mapping);
  if (names.length === 0) return 0;
  const known = new Set(
    table.rows.map((row) =>
      rowKey(
        table,
        row,
        names.map(({ column }) => column),
      ),
    ),
  );
  const unknown = records.flatMap(({ fields, broken }) =>
    broken === undefined && (fields[names[0]?.from ?? 0] ?? '').trim() !== '' ? [fieldsKey(fields, names)] : [],
  );
  return new Set(unknown.filter((key) => !known.has(key))).size;
}
