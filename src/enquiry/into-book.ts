/** What was understood, as answers in a book: each with the client's own words as who said so. */
import { type At, cellAt, placeIn } from '../book/address.ts';
import { apply } from '../book/apply.ts';
import { type Begin, begin } from '../book/begin.ts';
import type { Book } from '../book/book.ts';
import { BOUNDS } from '../book/bounds.ts';
import type { Change } from '../book/change.ts';
import { setCell } from '../book/commands/set-cell.ts';
import { inOneStep } from '../book/commands/set-habits.ts';
import { addressOf, named } from '../book/look-up.ts';
import { readPlain, unitInBook } from '../book/read-plain.ts';
import { type Answer, isRefused, type Refused, refused } from '../book/refused.ts';
import { sourceText } from '../book/said-by.ts';
import type { Answers, Finding } from './answers.ts';
import type { Rows } from './things.ts';

const LONGEST_WORDS = 160;

/** `client, “16 hours a day”`. */
export function whoSaidSo(words: string): string {
  const line = words.replace(/\s+/gu, ' ').trim();
  return sourceText('client', `“${line.length > LONGEST_WORDS ? `${line.slice(0, LONGEST_WORDS)}…` : line}”`);
}

const isRows = (value: Finding['value']): value is Rows => Array.isArray(value);

/** As it would be typed into its given. */
function typedOf(book: Book, { value, unit }: Finding): string {
  if (isRows(value)) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  // Money without a currency is asked about, and is in the book's own once somebody has agreed to it.
  const symbol = unit.startsWith('/') ? `${book.currency}${unit}` : unit;
  return `${value} ${symbol}`.trimEnd();
}

/** Of a line of a list the name, which it counts by, and who said so in its own column. */
function beside(at: At, words: string): readonly ((book: Book) => Answer)[] {
  const { table } = at;
  const head = table.rows.find((row) => row.head);
  const source = table.columns.findIndex(({ id }) => head && table.cells[head.id]?.[id]?.content === 'Source');
  const [name, said] = [placeIn(table, 0, at.rowIndex), source < 0 ? undefined : placeIn(table, source, at.rowIndex)];
  return [
    ...(name && (name.cell?.content ?? '') === '' ? [(b: Book) => setCell(b, { address: addressOf(name), content: 'Light of the client' })] : []),
    ...(said ? [(b: Book) => setCell(b, { address: addressOf(said), content: whoSaidSo(words) })] : []),
  ];
}

/** Rows of readings, from the place on; refused where the list has no room for them. */
function readingsInto(book: Book, at: At, rows: Rows, words: string): Answer {
  const { table } = at;
  const head = table.rows.find((row) => row.head);
  const source = table.columns.findIndex(({ id }) => head && table.cells[head.id]?.[id]?.content === 'Source');
  const wide = (source < 0 ? table.columns.length : source) - at.columnIndex;
  const high = table.rows.length - at.rowIndex;
  const width = Math.max(...rows.map((row) => row.length));
  if (rows.length > high || width > wide)
    return refused(`${rows.length} by ${width} readings have no room in ${table.name}, which takes ${high} by ${wide}: bring them in as a CSV file.`);
  const steps = table.rows.slice(at.rowIndex).flatMap((_, r) => [
    ...Array.from({ length: wide }, (__, c) => (b: Book): Answer => {
      const value = rows[r]?.[c] ?? null;
      const place = placeIn(table, at.columnIndex + c, at.rowIndex + r);
      return place ? setCell(b, { address: addressOf(place), content: value === null ? '' : String(value) }) : { label: '', edits: [] };
    }),
    ...(source < 0 || r >= rows.length
      ? []
      : [
          (b: Book): Answer => {
            const place = placeIn(table, source, at.rowIndex + r);
            return place ? setCell(b, { address: addressOf(place), content: whoSaidSo(words) }) : { label: '', edits: [] };
          },
        ]),
  ]);
  return inOneStep(book, steps);
}

/** A finding that somebody looked at and keeps, as it is to be typed; readings as they are. */
export interface Kept {
  readonly given: string;
  readonly typed: string;
  readonly rows?: Rows;
  readonly words: string;
}

/** What is kept, read just as if it were typed into its cell, with the client's words as who said so. */
export function keptAnswer(book: Book, { given, typed, rows, words }: Kept): Answer {
  const address = named(book, given) ?? given;
  const at = cellAt(book, address);
  if (!at) return refused(`There is no given ${given} in this book.`);
  if (rows) return readingsInto(book, at, rows, words);
  const read = readPlain(book, at, typed, unitInBook(book, at) ?? '');
  if (!read.ok) return refused(read.message);
  const { content, typed: written, unit } = read;
  const more = { ...(written !== undefined && { typed: written }), ...(unit !== undefined && { unit }) };
  if (at.table.form === 'list') return inOneStep(book, [(b) => setCell(b, { address: addressOf(at), content, ...more }), ...beside(at, words)]);
  return setCell(book, { address: addressOf(at), content, ...more, source: whoSaidSo(words) });
}

/** All that is kept as one change, with the text; what a given refuses is left out and said. */
export function keptAnswers(book: Book, kept: readonly Kept[], text: string): { readonly change: Change; readonly troubles: readonly string[] } {
  const troubles: string[] = [];
  const change = inOneStep(book, [
    ...kept.map((one) => (b: Book): Answer => {
      const answer = keptAnswer(b, one);
      if (!isRefused(answer)) return answer;
      troubles.push(answer.message);
      return { label: '', edits: [] };
    }),
    (b) => enquiryKept(b, text),
  ]);
  return {
    change: isRefused(change)
      ? { label: '', edits: [] }
      : { ...change, label: `What the client wrote: ${kept.length === 1 ? 'one answer' : `${kept.length} answers`}` },
    troubles,
  };
}

function enquiryKept(book: Book, text: string): Answer {
  const enquiry = text.slice(0, BOUNDS.enquiry);
  if (enquiry.trim() === '' || enquiry === book.enquiry) return { label: '', edits: [] };
  const before = book.enquiry === undefined ? {} : { enquiry: book.enquiry };
  return { label: 'What the client wrote', edits: [{ at: 'book', before, after: { enquiry } }] };
}

/** A client's book with what somebody kept of the enquiry. */
export function begunWith(template: Book, said: Begin & { readonly text: string; readonly kept: readonly Kept[] }): MadeBook | Refused {
  const begun = begin(template, said);
  if (isRefused(begun)) return begun;
  const { change, troubles } = keptAnswers(begun, said.kept, said.text);
  return { book: apply(begun, change), troubles };
}

export interface MadeBook {
  readonly book: Book;
  /** Why some of it could not be put in. */
  readonly troubles: readonly string[];
}

/** A client's book with what is sure put in, and the text kept with it. */
export function bookFrom(template: Book, original: string, read: Answers, said: Partial<Begin> = {}): MadeBook | Refused {
  const { currency, measures, findings } = read;
  const habits = { ...(currency && { currency }), ...(measures && { measures }), ...said.habits };
  const book = currency === undefined ? template : { ...template, currency };
  const kept = findings
    .filter(({ sure }) => sure)
    .map((one): Kept => ({ given: one.given, typed: typedOf(book, one), words: one.words, ...(isRows(one.value) && { rows: one.value }) }));
  return begunWith(template, { client: '', ...said, habits, text: original, kept });
}
