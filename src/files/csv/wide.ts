/**
 * Wide CSV: as the page shows it, for people. One block a table, an empty line between. In a brief or a comparing table labels go down, scenarios
 * across, and each row's unit stands in the column after its label; in a list each column's unit stands in its heading.
 */
import { unit } from '../../../functions/units.ts';
import { placeIn } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { columnHeading } from '../../book/look-up.ts';
import type { Value, Values } from '../../engine/types.ts';
import { type CsvValue, formatCsv } from './csv.ts';
import { type TidyOptions, tablesOf } from './tidy.ts';
import { fieldOf, valueAt } from './values.ts';

export function formatWide(book: Book, values: Values, options: TidyOptions = {}): string {
  const records: CsvValue[][] = [];
  for (const table of tablesOf(book, options)) {
    if (records.length > 0) records.push([]);
    records.push([table.name]);
    const grid = table.rows.map((_, r) => table.columns.map((_, c) => cellValue(table, values, c, r)));
    records.push(...(table.form === 'brief' || table.form === 'scenarios' ? byRow(table, grid) : byColumn(table, grid)));
  }
  return formatCsv(records, options);
}

function cellValue(table: Table, values: Values, column: number, row: number): Value {
  const at = placeIn(table, column, row);
  return at ? valueAt(values, at) : { kind: 'blank' };
}

function byRow(table: Table, grid: readonly (readonly Value[])[]): CsvValue[][] {
  const heading = [null, 'unit', ...table.columns.map((_, c) => headingOf(table, c))];
  const rows = table.rows.map((row, r): CsvValue[] => {
    const line = grid[r] ?? [];
    const shared = sharedUnit(line);
    return [row.label ?? null, shared || unitInTexts(line), ...line.map((value) => fieldIn(value, shared))];
  });
  return [heading, ...rows];
}

function byColumn(table: Table, grid: readonly (readonly Value[])[]): CsvValue[][] {
  const labelled = table.rows.some((row) => row.label !== undefined && row.label !== '');
  const units = table.columns.map((_, c) => sharedUnit(grid.map((line) => line[c] ?? { kind: 'blank' })));
  const heading = table.columns.map((_, c) => {
    const text = headingOf(table, c);
    return units[c] ? `${text} (${units[c]})`.trim() : text;
  });
  const rows = table.rows.flatMap((row, r): CsvValue[][] => {
    if (row.head) return [];
    const line = (grid[r] ?? []).map((value, c) => fieldIn(value, units[c]));
    return [labelled ? [row.label ?? null, ...line] : line];
  });
  return [labelled ? [null, ...heading] : heading, ...rows];
}

function headingOf(table: Table, column: number): string {
  const at = placeIn(table, column, 0);
  return at ? columnHeading(at) : '';
}

/** A layout is written exactly, for programs, in metres, also in a book that shows it in feet: then its row says so. */
const unitInTexts = (line: readonly Value[]): string =>
  line.some((value) => value.kind === 'text' && value.shown !== undefined && value.shown !== value.text) ? 'lengths in m' : '';

/** The first number's unit, where all the numbers are of its kind; undefined where each must say its own. */
function sharedUnit(line: readonly Value[]): string | undefined {
  const symbols = line.flatMap((value) => (value.kind === 'number' ? [value.unit] : []));
  const first = symbols[0];
  if (first === undefined) return '';
  const kind = unit(first);
  const shared = symbols.every((symbol) => symbol === first || (kind && unit(symbol)?.dimension === kind.dimension && unit(symbol)?.reading === kind.reading));
  return shared ? first : undefined;
}

function fieldIn(value: Value, shared: string | undefined): CsvValue {
  if (value.kind !== 'number' || shared !== undefined) return fieldOf(value, shared);
  return value.unit === '' ? fieldOf(value) : `${fieldOf(value)} ${value.unit}`;
}
