/** The shape of a stored book, field by field. What the parts mean to one another is checked afterwards: see check.ts. */
import * as v from 'valibot';
import type { Book } from './book.ts';
import { BOUNDS, count } from './bounds.ts';
import { idIsGood } from './names.ts';

const id = v.pipe(v.string(), v.check(idIsGood, 'must be made of letters, digits, - and _'));
const title = v.pipe(v.string(), v.maxLength(BOUNDS.title, `must have at most ${count(BOUNDS.title)} characters`));
const text = v.pipe(v.string(), v.maxLength(BOUNDS.text, `must have at most ${count(BOUNDS.text)} characters`));
/** A list would pass for a record of nothing. */
const group = v.custom<Record<string, unknown>>((found) => typeof found === 'object' && found !== null && !Array.isArray(found), 'must be a group of fields');
const number = v.pipe(v.number(), v.finite());
const wholeUpTo = (most: number) => v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(most));
const kind = v.picklist(['given', 'worked', 'check']);

const range = v.strictObject({
  low: v.exactOptional(number),
  high: v.exactOptional(number),
  unit: v.exactOptional(title),
  oneOf: v.exactOptional(v.array(title)),
  from: v.exactOptional(title),
});

export const cellSchema = v.strictObject({
  content: text,
  typed: v.exactOptional(text),
  unit: v.exactOptional(title),
  decimals: v.exactOptional(wholeUpTo(15)),
  kind: v.exactOptional(kind),
  source: v.exactOptional(text),
  note: v.exactOptional(text),
  range: v.exactOptional(range),
});

const line = {
  id,
  label: v.exactOptional(title),
  unit: v.exactOptional(title),
  decimals: v.exactOptional(wholeUpTo(15)),
  kind: v.exactOptional(kind),
  note: v.exactOptional(text),
  source: v.exactOptional(text),
  range: v.exactOptional(range),
};

const row = v.strictObject({
  ...line,
  head: v.exactOptional(v.boolean()),
  parted: v.exactOptional(v.boolean()),
  help: v.exactOptional(text),
  holds: v.exactOptional(v.literal('text')),
  strong: v.exactOptional(v.boolean()),
});
const column = v.strictObject({ ...line, width: v.exactOptional(wholeUpTo(10_000)), needed: v.exactOptional(v.literal(true)) });

const table = v.strictObject({
  id,
  name: v.string(),
  form: v.picklist(['brief', 'scenarios', 'list', 'plain']),
  columns: v.pipe(v.array(column), v.maxLength(BOUNDS.columns, `must be at most ${count(BOUNDS.columns)}`)),
  rows: v.pipe(v.array(row), v.maxLength(BOUNDS.rows, `must be at most ${count(BOUNDS.rows)}`)),
  cells: v.pipe(group, v.record(id, v.pipe(group, v.record(id, cellSchema)))),
  base: v.exactOptional(id),
});

const block = v.variant('kind', [
  v.strictObject({ id, kind: v.literal('prose'), text }),
  v.strictObject({ id, kind: v.literal('table'), table: id }),
  v.strictObject({ id, kind: v.literal('picture'), picture: title, caption: text, reads: v.pipe(group, v.record(id, title)) }),
]);

const page = v.strictObject({ id, title, group: v.exactOptional(title), blocks: v.array(block) });

const labels = v.array(title);
const origin = v.strictObject({
  slug: id,
  edition: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(1_000_000)),
  lacks: v.exactOptional(v.strictObject({ checks: labels, older: labels })),
});

export const bookSchema: v.GenericSchema<unknown, Book> = v.strictObject({
  format: v.literal('overbench book'),
  version: wholeUpTo(1_000_000),
  id,
  title,
  client: title,
  purpose: v.exactOptional(text),
  currency: v.pipe(v.string(), v.regex(/^[A-Z]{3}$/u, 'must be a code of three letters, such as EUR')),
  measures: v.picklist(['metric', 'US customary']),
  wires: v.exactOptional(v.picklist(['AWG', 'mm²'])),
  paper: v.exactOptional(v.picklist(['A4', 'letter'])),
  pages: v.pipe(v.array(page), v.maxLength(BOUNDS.pages, `must be at most ${count(BOUNDS.pages)}`)),
  tables: v.pipe(v.array(table), v.maxLength(BOUNDS.tables, `must be at most ${count(BOUNDS.tables)}`)),
  names: v.pipe(group, v.record(v.string(), title)),
  template: v.exactOptional(origin),
  enquiry: v.exactOptional(v.pipe(v.string(), v.maxLength(BOUNDS.enquiry, `must have at most ${count(BOUNDS.enquiry)} characters`))),
  went: v.exactOptional(v.pipe(group, v.record(v.string(), text))),
});
