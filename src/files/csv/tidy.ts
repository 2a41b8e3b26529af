/**
 * Tidy CSV: one cell a line, for other programs, and back.
 *
 * `value` is the number in the shown `unit`, the text, TRUE or FALSE, or an error's word. `formula` says what the cell holds wherever that is
 * not simply its value and unit (a formula; `36 in` shown in cm; a text that looks like a number), so that the cells come back as they were.
 * `low` and `high` are in `unit` unless they say their own; a range of choices says "one of" or "from" in `low` and its choices in `high`, with the
 * limits of what else may be written where it has some.
 */
import { readContent } from '../../../functions/quantity-text.ts';
import { type At, placeIn, readReference } from '../../book/address.ts';
import { isOpen } from '../../book/allowed.ts';
import type { Book, Kind, Range, Table } from '../../book/book.ts';
import { isFormula } from '../../book/content.ts';
import { addressOf, columnHeading, namesOf, noteOf, rangeOf, rowHeading, type Standing, sourceOf, standingOf } from '../../book/look-up.ts';
import { ownAddress, ownContent } from '../../book/other-writing.ts';
import type { Value, Values } from '../../engine/types.ts';
import { type CsvOptions, type CsvValue, formatCsv, parseCsv, unguard } from './csv.ts';
import { fieldOf, valueAt } from './values.ts';

export const TIDY_COLUMNS = [
  'book',
  'page',
  'table',
  'address',
  'name',
  'row',
  'scenario',
  'kind',
  'value',
  'unit',
  'low',
  'high',
  'formula',
  'source',
  'note',
] as const;

export interface TidyOptions extends CsvOptions {
  /** Names of the tables to write; left out, all of them. */
  readonly tables?: readonly string[];
}

/** Every cell that holds something or is waiting for an answer, table by table and row by row. */
export function formatTidy(book: Book, values: Values, options: TidyOptions = {}): string {
  const records: CsvValue[][] = [[...TIDY_COLUMNS]];
  for (const table of tablesOf(book, options)) {
    const page = book.pages.find((p) => p.blocks.some((block) => block.kind === 'table' && block.table === table.id))?.title ?? null;
    for (const at of placesOf(table)) {
      const standing = standingOf(at);
      if (standing === 'blank') continue;
      records.push([book.title, page, table.name, addressOf(at), namesOf(book, at).join(' '), ...cellFields(at, standing, valueAt(values, at))]);
    }
  }
  return formatCsv(records, options);
}

export const tablesOf = (book: Book, { tables }: TidyOptions): readonly Table[] =>
  tables === undefined ? book.tables : book.tables.filter((table) => tables.some((name) => name.toLowerCase() === table.name.toLowerCase()));

export function* placesOf(table: Table): Generator<At> {
  for (let r = 0; r < table.rows.length; r++) {
    for (let c = 0; c < table.columns.length; c++) {
      const at = placeIn(table, c, r);
      if (at) yield at;
    }
  }
}

function cellFields(at: At, standing: Standing, value: Value): CsvValue[] {
  const content = at.cell?.content ?? '';
  const symbol = value.kind === 'number' ? value.unit : (at.cell?.unit ?? at.row.unit ?? at.column.unit ?? '');
  // A cell without an answer has no value, whatever the engine says of it.
  const field = content === '' ? null : fieldOf(value);
  const [low, high] = rangeFields(rangeOf(at), symbol);
  const held = contentOf(field === null ? '' : fieldAsRead(field), symbol) === content ? null : content;
  return [rowHeading(at), columnHeading(at), standing, field, symbol, low, high, held, sourceOf(at) ?? null, noteOf(at) ?? null];
}

const fieldAsRead = (field: string | number | boolean): string => (typeof field === 'boolean' ? (field ? 'TRUE' : 'FALSE') : String(field));

/** The content that a value and its unit stand for by themselves. */
export function contentOf(value: string, symbol: string): string {
  return symbol !== '' && readContent(value).kind === 'number' ? `${value} ${symbol}` : value;
}

const ONE_OF = 'one of';
const FROM = 'from';

function rangeFields(range: Range | undefined, symbol: string): [CsvValue, CsvValue] {
  if (!range) return [null, null];
  const { low, high, unit, oneOf } = range;
  // In one order, whichever a book has them in: what comes back in goes out the same.
  if (oneOf) return [ONE_OF, JSON.stringify(isOpen(range) ? { low, high, unit, oneOf } : oneOf)];
  if (range.from !== undefined) return [FROM, range.from];
  const own = range.unit ?? '';
  const limit = (x: number | undefined): CsvValue => (x === undefined ? null : own === symbol ? x : `${x} ${own === '' ? '1' : own}`);
  return [limit(range.low), limit(range.high)];
}

/** One cell as a tidy file tells it. */
export interface TidyCell {
  readonly table: string;
  readonly address: string;
  readonly content: string;
  readonly kind: Kind | 'head';
  /** The shown unit; empty for none. */
  readonly unit: string;
  readonly range?: Range;
  readonly source: string;
  readonly note: string;
}

export interface TidyRead {
  readonly cells: readonly TidyCell[];
  /** What could not be read, with its record: placed and not placed make up all that was read. */
  readonly problems: readonly { readonly record: number; readonly message: string; readonly fields: readonly string[] }[];
}

/** Reads tidy CSV back. Columns are found by their headings, in any order; `table`, `address`, and `value` or `formula` must be there. */
export function parseTidy(text: string): TidyRead {
  const { records } = parseCsv(text);
  const head = (records[0] ?? []).map((heading) => unguard(heading).trim().toLowerCase());
  const missing = ['table', 'address', 'value'].filter((heading) => !head.includes(heading));
  if (missing.length > 0) {
    return { cells: [], problems: records.map((fields, i) => ({ record: i + 1, message: `There is no column headed ${missing.join(' or ')}.`, fields })) };
  }
  const cells: TidyCell[] = [];
  const problems: { record: number; message: string; fields: readonly string[] }[] = [];
  for (const [i, fields] of records.entries()) {
    if (i === 0) continue;
    const field = (name: (typeof TIDY_COLUMNS)[number]): string => unguard(fields[head.indexOf(name)] ?? '');
    const cell = fields.length === head.length ? readTidyCell(field) : `It has ${fields.length} fields, the headings are ${head.length}.`;
    if (typeof cell === 'string') problems.push({ record: i + 1, message: cell, fields });
    else cells.push(cell);
  }
  return { cells, problems };
}

const KINDS: Readonly<Record<string, Kind | 'head'>> = { given: 'given', as: 'given', worked: 'worked', check: 'check', head: 'head', '': 'given' };

/** One record, whose fields are asked for by their heading; or why it is no cell. */
export function readTidyCell(field: (name: (typeof TIDY_COLUMNS)[number]) => string): TidyCell | string {
  const kind = Object.hasOwn(KINDS, field('kind')) ? KINDS[field('kind')] : undefined;
  if (!kind) return `“${field('kind')}” is not a kind of cell: given, as, worked, check or head.`;
  const symbol = field('unit');
  const range = readRange(field('low'), field('high'), symbol);
  if (typeof range === 'string') return range;
  const held = ownContent(field('formula'));
  if (held === '' && (kind === 'worked' || kind === 'check') && isFormula(field('value'))) return 'A formula stands under “value”; it belongs under “formula”.';
  const content = held === '' ? contentOf(field('value'), symbol) : held;
  return {
    table: field('table'),
    address: addressIn(field('address')),
    content,
    kind,
    unit: symbol,
    ...(range ? { range } : {}),
    source: field('source'),
    note: field('note'),
  };
}

/** A table's name in quotes begins as a guard does, and whoever writes a file by hand does not guard it. */
function addressIn(text: string): string {
  const own = ownAddress(text);
  const quoted = ownAddress(`'${text}`);
  return !readReference(own) && readReference(quoted) ? quoted : own;
}

function readRange(low: string, high: string, symbol: string): Range | string | undefined {
  if (low === '' && high === '') return undefined;
  if (low === FROM) return { from: addressIn(high) };
  if (low === ONE_OF) {
    const list = readList(high);
    return list ?? `The choices under “high” are not a list: ${high}`;
  }
  const limits = [low, high].map((text) => readContent(text));
  const own = limits.map((limit) => (limit.kind === 'number' ? limit.unit : undefined));
  if ((low !== '' && own[0] === undefined) || (high !== '' && own[1] === undefined)) return `The allowed range is not two numbers: “${low}” to “${high}”.`;
  const said = [low, high].map((text) => /^\S+\s+(.+)$/u.exec(text)?.[1]).find((text) => text !== undefined);
  const unitText = said === undefined ? symbol : said === '1' ? '' : said;
  return {
    ...(limits[0]?.kind === 'number' ? { low: limits[0].given } : {}),
    ...(limits[1]?.kind === 'number' ? { high: limits[1].given } : {}),
    ...(unitText === '' ? {} : { unit: unitText }),
  };
}

/** A list of choices, or, where other numbers are allowed too, the list with its limits. */
function readList(text: string): Range | undefined {
  try {
    const told: unknown = JSON.parse(text);
    const { oneOf, low, high, unit } = (Array.isArray(told) ? { oneOf: told } : (told ?? {})) as Partial<Record<keyof Range, unknown>>;
    const isLimit = (limit: unknown): limit is number | undefined => limit === undefined || Number.isFinite(limit);
    if (!Array.isArray(oneOf) || !oneOf.every((item) => typeof item === 'string') || !isLimit(low) || !isLimit(high)) return undefined;
    return { ...(low !== undefined && { low }), ...(high !== undefined && { high }), ...(typeof unit === 'string' && { unit }), oneOf };
  } catch {
    return undefined;
  }
}
