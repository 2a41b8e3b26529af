/**
 * CSV in, in three steps that a person can watch: the file is *staged* (its encoding, delimiter and headings found and open to be set otherwise),
 * *planned* (what goes where, what can't be placed and why) and then the plan's one change is dispatched: one step of undo.
 *
 * Tidy files (csv-tidy.ts) come back to their own cells by themselves; any other file needs a mapping, of which `suggestMapping` makes a first one.
 * What could not be placed goes into the book with the same change, on the page "Not placed": see kept.ts. Placed + not placed = read.
 */
import { counted } from '../../../functions/quantity-text.ts';
import { readReference } from '../../book/address.ts';
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { roomAtFoot } from '../../book/list-rows.ts';
import { allTogether, misfits, touchesPicks } from '../../book/misfits.ts';
import { isRefused, type Refused, refused } from '../../book/refused.ts';
import type { Values } from '../../engine/types.ts';
import { unguard } from './csv.ts';
import { Draft } from './draft.ts';
import { keepAside, type NotPlaced } from './kept.ts';
import { type ListRows, newRows } from './list-names.ts';
import { choosing, rowsText } from './list-text.ts';
import { type Mapping, type PlaceOptions, placerFor, type ReadTyped } from './mapped.ts';
import { type CsvRecord, type Delimiter, findDelimiter, RecordReader } from './records.ts';
import { roleOf } from './roles.ts';
import { RecordSplitter } from './split.ts';
import { decode, type Encoding, findEncoding } from './text.ts';
import { isTidy, TidyPlacer } from './tidy-in.ts';

export interface Watch {
  /** Told after every chunk; `of` is the same kind of thing as `done`, and grows with it where the whole is not known. */
  readonly progress?: (done: number, of: number) => void;
  /** Stops with its reason; the book is as it was. */
  readonly signal?: AbortSignal;
}

export interface StageOptions extends Watch {
  /** The file's name, for labels: `readings.csv`. */
  readonly name: string;
  readonly encoding?: Encoding;
  readonly delimiter?: Delimiter;
  readonly decimalMark?: '.' | ',';
  /** Which record holds the headings, from 1; 0: none does. */
  readonly headingsAt?: number;
}

/** A file that was read and not yet used. */
export interface Staged {
  readonly name: string;
  readonly encoding: Encoding;
  /** How the encoding was told. */
  readonly encodingSaid: string;
  readonly delimiter: Delimiter;
  readonly decimalMark: '.' | ',';
  readonly headingsAt: number;
  /** One a column, without guards; "column 3" where the file gives none. */
  readonly headings: readonly string[];
  /** The record of the headings, if there is one. */
  readonly head: CsvRecord | undefined;
  /** All after the headings; for a preview take the first twenty. Those before the headings are titles, and are left out. */
  readonly records: readonly CsvRecord[];
  readonly tidy: boolean;
}

const CHUNK = 1 << 18;

export async function stageCsv(file: Uint8Array | string, options: StageOptions): Promise<Staged> {
  const found = typeof file === 'string' ? { encoding: 'utf-8' as const, said: 'text as it was pasted' } : findEncoding(file, true);
  const encoding = options.encoding ?? found.encoding;
  const text = typeof file === 'string' ? file.replace(/^\uFEFF/u, '') : decode(file, encoding);
  const delimiter = options.delimiter ?? findDelimiter(text);
  const records = await readAll(text, delimiter, options);
  const headingsAt = options.headingsAt ?? findHeadings(records);
  const head = headingsAt === 0 ? undefined : records[headingsAt - 1];
  const rest = records.slice(headingsAt);
  const width = rest.reduce((most, { fields }) => Math.max(most, fields.length), head?.fields.length ?? 0);
  const headings = Array.from({ length: width }, (_, i) => unguard(head?.fields[i] ?? '').trim() || `column ${i + 1}`);
  return {
    name: options.name,
    encoding,
    encodingSaid: options.encoding === undefined ? found.said : 'as you say',
    delimiter,
    decimalMark: options.decimalMark ?? findDecimalMark(rest, delimiter),
    headingsAt,
    headings,
    head,
    records: rest,
    tidy: head !== undefined && isTidy(headings),
  };
}

async function readAll(text: string, delimiter: Delimiter, watch: Watch): Promise<CsvRecord[]> {
  watch.signal?.throwIfAborted();
  const splitter = new RecordSplitter(delimiter);
  const reader = new RecordReader(delimiter);
  const records: CsvRecord[] = [];
  for (let at = 0; at < text.length; at += CHUNK) {
    for (const record of reader.read(splitter.push(text.slice(at, at + CHUNK)))) records.push(record);
    if (at + CHUNK < text.length) await breath(watch, at + CHUNK, text.length);
  }
  for (const record of reader.read(splitter.end())) records.push(record);
  watch.progress?.(text.length, text.length);
  return records;
}

/** Lets the page draw and a stop be heard. */
async function breath({ progress, signal }: Watch, done: number, of: number): Promise<void> {
  progress?.(done, of);
  await new Promise((resolve) => setTimeout(resolve, 0));
  signal?.throwIfAborted();
}

const isNumber = (field: string): boolean => /^[-+−]?\d[\d.,'\s]*$/u.test(field.trim());
const filled = (record: CsvRecord): number => record.fields.filter((field) => field.trim() !== '').length;

/** The first record, or the second under a title that stands alone; none where there are numbers among what would be headings. */
function findHeadings(records: readonly CsvRecord[]): number {
  const [first, second] = records;
  if (!first) return 0;
  // The headings of labels are often left empty: `,unit,Answer`.
  const headsMore = second && (filled(second) > 1 || second.fields[0]?.trim() === '');
  if (headsMore && filled(first) === 1 && !second.fields.some(isNumber)) return 2;
  return first.fields.some(isNumber) ? 0 : 1;
}

/** A comma where fields are parted by something else and numbers are written with one comma and no point. */
function findDecimalMark(records: readonly CsvRecord[], delimiter: Delimiter): '.' | ',' {
  if (delimiter === ',') return '.';
  const fields = records.slice(0, 1000).flatMap((record) => record.fields);
  const commas = fields.filter((field) => /^\s*[-+−]?\d+,\d+\s*$/u.test(field)).length;
  const points = fields.filter((field) => /^\s*[-+−]?\d+\.\d+\s*$/u.test(field)).length;
  return commas > points ? ',' : '.';
}

export interface PlanOptions extends Watch {
  /** Needed for any file that is not tidy; a tidy one can be mapped too. */
  readonly mapping?: Mapping;
  /** Reads what was typed: `readQuantity`. */
  readonly read: ReadTyped;
  /** The book's values, so that what says the same as before stays untouched. */
  readonly values: Values;
}

/** What an import would do. */
export interface Plan {
  /** To be dispatched as it is. Without edits where the file says nothing new. */
  readonly change: Change;
  /** What is counted: the cells of a tidy file, the filled fields of any other. */
  readonly of: 'cell' | 'field';
  /** read = placed + notPlaced. */
  readonly read: number;
  readonly placed: number;
  readonly notPlaced: number;
  /** Among those not placed: in columns that the mapping does not speak of, or worked out in the book. They are not kept. */
  readonly leftOut: number;
  /** The file's headings over filled fields that the mapping does not speak of. */
  readonly columnsOut: readonly string[];
  readonly problems: readonly NotPlaced[];
  /** The first cells that something goes to; `cells` counts them all. Fields that find a row or say a unit go to no cell. */
  readonly preview: readonly { readonly line: number; readonly where: string; readonly content: string }[];
  readonly cells: number;
  /** What deserves a word: "1,5 read as 1.5". The first of them; `saidInAll` counts them all. */
  readonly said: readonly string[];
  readonly saidInAll: number;
  /** Where the file goes into a list by its names. */
  readonly rows?: ListRows;
}

const PREVIEW = 50;
const RECORDS_A_CHUNK = 2000;

/** Works the plan out for the book as it is. Refused where the book has no room even for what could not be placed. */
export async function planCsv(book: Book, staged: Staged, options: PlanOptions): Promise<Plan | Refused> {
  const { mapping } = options;
  if (!mapping && !staged.tidy) return refused('Say which columns of the file go where.');
  options.signal?.throwIfAborted();
  const room = mapping && roomIn(book, staged, mapping);
  if (isRefused(room)) return room;
  const draft = new Draft(room?.change ? apply(book, room.change) : book);
  const tally = new Tally(mapping ? 'field' : 'cell');
  const place = mapping ? mapped(draft, staged, mapping, { ...options, ...(room && { addAt: room.at }) }, tally) : tidied(draft, staged, options, tally);
  for (const [i, record] of staged.records.entries()) {
    if (i % RECORDS_A_CHUNK === RECORDS_A_CHUNK - 1) await breath(options, i, staged.records.length);
    if (record.broken === undefined) place.record(record);
    else tally.missed(record, undefined, record.broken);
  }
  options.progress?.(staged.records.length, staged.records.length);
  for (const word of place.closing()) tally.word(word);
  const kept = keepAside(draft, staged, tally.problems);
  if (kept !== undefined) return refused(kept);
  const rows = place.rows();
  const chosenIn = rows && choosing(book, rows.table);
  const what = rows ? `${rowsText(rows)}${rows.changed.some(({ row }) => (chosenIn?.(row).length ?? 0) > 0) ? '; results change' : ''}` : '';
  const { label, edits } = draft.change(
    `${staged.name}: ${what || `${counted(tally.placed, tally.of)} brought in`}${tally.problems.length > 0 ? ', some not placed' : ''}`,
  );
  const change = { label, edits: [...(edits.length > 0 ? (room?.change?.edits ?? []) : []), ...allTogether(book, edits)] };
  if (touchesPicks(book, edits)) for (const word of misfits(apply(book, change), change)) tally.word(`${word}.`);
  return { ...tally.plan(change), columnsOut: mapping ? columnsOut(staged, mapping) : [], ...(rows && { rows }) };
}

const columnsOut = ({ headings, records }: Staged, mapping: Mapping): string[] =>
  headings.filter((_, i) => roleOf(mapping, i).is === 'left out' && records.some(({ fields }) => (fields[i] ?? '').trim() !== ''));

/** What the list lacks stands inside what formulas read of it. */
function roomIn(book: Book, staged: Staged, mapping: Mapping) {
  const table = mapping.to === 'rows' ? book.tables.find(({ id }) => id === mapping.table) : undefined;
  return table && mapping.to === 'rows' ? roomAtFoot(book, table, newRows(table, mapping, staged.records)) : undefined;
}

interface Placer {
  record(record: CsvRecord): void;
  closing(): readonly string[];
  rows(): ListRows | undefined;
}

function tidied(draft: Draft, staged: Staged, { values }: PlanOptions, tally: Tally): Placer {
  const placer = new TidyPlacer(draft, staged.headings, values);
  return {
    record(record) {
      const put = placer.place(record);
      if (typeof put === 'string') tally.missed(record, undefined, put);
      else tally.put(record, put);
    },
    closing: () => [],
    rows: () => undefined,
  };
}

function mapped(draft: Draft, staged: Staged, mapping: Mapping, options: PlanOptions & Pick<PlaceOptions, 'addAt'>, tally: Tally): Placer {
  const placer = placerFor(draft, mapping, { ...options, decimalMark: staged.decimalMark, headings: staged.headings });
  return {
    record(record) {
      const { put, missed, whole, leftOut } = placer.place(record);
      for (const one of put) tally.put(record, one);
      for (const { column, message } of missed) tally.missed(record, { number: column + 1, heading: staged.headings[column] ?? '' }, message);
      if (whole) tally.missed(record, undefined, whole.message, whole.fields);
      tally.leave(leftOut);
    },
    closing: () => placer.closing(),
    rows: () => placer.rows(),
  };
}

/** Counts, and holds what a plan tells. */
class Tally {
  placed = 0;
  readonly problems: NotPlaced[] = [];
  private readonly preview: { line: number; where: string; content: string }[] = [];
  private readonly said: string[] = [];
  private words = 0;
  private cells = 0;
  private leftOut = 0;
  private lost = 0;
  readonly of: 'cell' | 'field';

  constructor(of: 'cell' | 'field') {
    this.of = of;
  }

  put(record: CsvRecord, { where, content, said }: { readonly where: string; readonly content: string; readonly said?: string }): void {
    this.placed++;
    if (readReference(where) && content !== '') {
      this.cells++;
      if (this.preview.length < PREVIEW) this.preview.push({ line: record.line, where, content });
    }
    if (said !== undefined) this.word(`Line ${record.line}: ${said}`);
  }

  missed(record: CsvRecord, column: NotPlaced['column'], message: string, count = 1): void {
    this.lost += count;
    this.problems.push({ record, ...(column && { column }), message });
  }

  leave(count: number): void {
    this.leftOut += count;
  }

  word(word: string): void {
    this.words++;
    if (this.said.length < PREVIEW) this.said.push(word);
  }

  plan(change: Change): Omit<Plan, 'columnsOut'> {
    const { of, placed, leftOut, problems, preview, cells, said } = this;
    const notPlaced = this.lost + leftOut;
    return { change, of, read: placed + notPlaced, placed, notPlaced, leftOut, problems, preview, cells, said, saidInAll: this.words };
  }
}
