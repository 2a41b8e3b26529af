/** What pictures read: which cells serve them, which they take unless told otherwise, and what they say where something lacks. */
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Block, Book, Table } from '../../src/book/book.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { renameTable } from '../../src/book/commands/rename.ts';
import { sortRows } from '../../src/book/commands/sort-rows.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import type { Value, Values } from '../../src/engine/types.ts';
import { pictureKind } from '../../src/pictures/kinds.ts';
import { readMonths } from '../../src/pictures/monthly-light.ts';
import type { PictureBlock } from '../../src/pictures/picture.ts';
import { readBars } from '../../src/pictures/scenario-bars.ts';
import { readPicture } from '../../src/pictures/series.ts';
import { cellChoices } from '../../src/ui/finding/cell-list.ts';
import { choicesFor, judge, usualReads } from '../../src/ui/slips/picture-cells.ts';
import { openTemplate, slugs, templateBook } from '../templates/open-template.ts';

const MONTHS = ['January', 'February', 'March'];
const months: Table = {
  id: 'm',
  name: 'Months',
  form: 'list',
  columns: [{ id: 'name' }, { id: 'sun', unit: 'mol/m²/d' }],
  rows: [{ id: 'head', head: true }, ...MONTHS.map((_, i) => ({ id: `m${i}` }))],
  cells: {
    head: { name: { content: 'Month' }, sun: { content: 'Sun under the roof' } },
    ...Object.fromEntries(MONTHS.map((name, i) => [`m${i}`, { name: { content: name }, sun: { content: '=X()' } }])),
  },
};
const scenarios: Table = {
  id: 's',
  name: 'Scenarios',
  form: 'scenarios',
  columns: [
    { id: 'a', label: 'A' },
    { id: 'b', label: 'B' },
  ],
  rows: [
    { id: 'h', label: 'Mount height', unit: 'cm', kind: 'given' },
    { id: 'cost', label: 'Yearly cost', unit: 'EUR/year' },
    { id: 'shade', label: 'Sun shaded by the fixtures', unit: '%' },
    { id: 'most', label: 'Most DLI from the lamps', unit: 'mol/m²/d' },
    ...MONTHS.map((name, i) => ({ id: `g${i}`, label: `Gap, ${name}`, unit: 'mol/m²/d' })),
  ],
  cells: Object.fromEntries(['h', 'cost', 'shade', 'most', 'g0', 'g1', 'g2'].map((id) => [id, { a: { content: '=X()' }, b: { content: '=X()' } }])),
};
const bars: PictureBlock = { id: 'k1', kind: 'picture', picture: 'scenario bars', caption: 'Cost', reads: { value: 'Scenarios.A2' } };
const year: PictureBlock = {
  id: 'k2',
  kind: 'picture',
  picture: 'monthly light',
  caption: 'Year',
  reads: { months: 'Months.A2:A4', sun: 'Months.B2:B4', shade: 'Scenarios.A3', gap: 'Scenarios.A5:A7', most: 'Scenarios.A4' },
};
const book: Book = {
  format: 'overbench book',
  version: 1,
  id: 'x',
  title: 'X',
  client: '',
  currency: 'EUR',
  measures: 'metric',
  pages: [{ id: 'p', title: 'P', blocks: [bars, year, { id: 'k3', kind: 'prose', text: 'B costs {{Scenarios.B2}}.' }] }],
  tables: [months, scenarios],
  names: { sun_january: 'Months.$B$2' },
};

const number = (base: number, unit: string): Value => ({ kind: 'number', base, unit });
const dli = (base: number): Value => number(base, 'mol/m²/d');
const values: Values = {
  ...Object.fromEntries(MONTHS.map((text, i) => [`Months.A${i + 2}`, { kind: 'text', text } as Value])),
  'Months.B2': dli(2),
  'Months.B3': dli(6),
  'Months.B4': dli(12),
  'Scenarios.A1': number(0.45, 'cm'),
  'Scenarios.B1': number(0.6, 'cm'),
  'Scenarios.A2': number(1500, 'EUR/year'),
  'Scenarios.B2': number(1342, 'EUR/year'),
  'Scenarios.A3': number(0.25, '%'),
  'Scenarios.B3': number(0.1, '%'),
  'Scenarios.A4': dli(7),
  'Scenarios.B4': dli(20),
  // Aimed at 10: what 0.75 of the sun leaves open in A, and 0.9 of it in B.
  'Scenarios.A5': dli(8.5),
  'Scenarios.A6': dli(5.5),
  'Scenarios.A7': dli(1),
  'Scenarios.B5': dli(8.2),
  'Scenarios.B6': dli(4.6),
  'Scenarios.B7': dli(0),
};

const done = (from: Book, answer: Answer): Book => {
  if (isRefused(answer)) throw new Error(answer.message);
  return apply(from, answer);
};
const blockOf = (from: Book, id: string): Block => from.pages.flatMap((page) => page.blocks).find((block) => block.id === id) as Block;
const read = (kind: string, key: string) =>
  pictureKind(kind)?.reads.find((each) => each.key === key) as NonNullable<ReturnType<typeof pictureKind>>['reads'][number];

describe('the bars of scenarios', () => {
  it('are the row of the cell, scenario by scenario, as the table shows them', () => {
    const found = readBars(bars, book, values);
    expect(found.bars.map(({ letter, amount, text }) => [letter, amount, text])).toEqual([
      ['A', 1500, '1500 EUR/year'.replace(' ', '\u202f')],
      ['B', 1342, '1342 EUR/year'.replace(' ', '\u202f')],
    ]);
    expect(found.name).toBe('Yearly cost');
    expect(found.unit).toBe('EUR/year');
    expect(found.missing).toEqual([]);
  });

  it('leave out what has no number, and say so; a line of another quantity is not drawn', () => {
    const broken: Values = { ...values, 'Scenarios.B2': { kind: 'error', code: 'unit', word: 'unit error', message: 'No.' } as Value };
    const found = readBars({ ...bars, reads: { ...bars.reads, target: 'Scenarios.A4' } }, book, broken);
    expect(found.bars.map(({ letter }) => letter)).toEqual(['A']);
    expect(found.missing).toEqual(['B: Yearly cost: unit error', 'the line for the value aimed at is another quantity']);
    expect(found.target).toBeUndefined();
    expect(readBars({ ...bars, reads: {} }, book, values).missing).toEqual(['no cell is chosen for the quantity']);
  });
});

describe('the light by month', () => {
  it('is the sun that the fixtures let through, and the lamps as far as they can fill the gap', () => {
    const found = readMonths(year, book, values);
    expect(found.years.map(({ letter, months: all }) => [letter, ...all.map(({ name, sun, lamps }) => [name, sun, lamps])])).toEqual([
      // Three quarters of 2, 6 and 12; of the gap in January the lamps fill 7 of 8.5.
      ['A', ['January', 1.5, 7], ['February', 4.5, 5.5], ['March', 9, 1]],
      ['B', ['January', 1.8, 8.2], ['February', expect.closeTo(5.4, 12), 4.6], ['March', expect.closeTo(10.8, 12), 0]],
    ]);
  });

  it('takes the gap of each month from the row that says the month, whatever the order of the months', () => {
    const sorted = done(book, sortRows(book, { table: 'Months', column: 1, downward: true, worked: (address) => (values[address] as { base: number }).base }));
    const turned: Values = {
      ...values,
      ...Object.fromEntries(['March', 'February', 'January'].map((text, i) => [`Months.A${i + 2}`, { kind: 'text', text } as Value])),
      'Months.B2': dli(12),
      'Months.B4': dli(2),
    };
    const found = readMonths(blockOf(sorted, 'k2') as PictureBlock, sorted, turned);
    expect(found.years[0]?.months.map(({ name, sun, lamps }) => [name, sun, lamps])).toEqual([
      ['March', 9, 1],
      ['February', 4.5, 5.5],
      ['January', 1.5, 7],
    ]);
  });

  it('says which month has no gap of its own, where others have', () => {
    const renamed = { ...scenarios, rows: scenarios.rows.map((row) => (row.id === 'g1' ? { ...row, label: 'Gap, later' } : row)) };
    expect(readMonths(year, { ...book, tables: [months, renamed] }, values).missing).toEqual([
      'A, B: no row of the gaps is called February, where others say their month',
    ]);
    const unnamed = { ...scenarios, rows: scenarios.rows.map((row, i) => (row.id.startsWith('g') ? { ...row, label: `Open ${i}` } : row)) };
    expect(readMonths(year, { ...book, tables: [months, unnamed] }, values).years[0]?.months.map(({ lamps }) => lamps)).toEqual([7, 5.5, 1]);
  });

  it('says what it lacks', () => {
    const without = (key: string): PictureBlock => ({ ...year, reads: Object.fromEntries(Object.entries(year.reads).filter(([k]) => k !== key)) });
    expect(readMonths(without('sun'), book, values).missing).toEqual(['A, B: no cell is chosen for the sun on the bench']);
    expect(readMonths(without('most'), book, values).missing).toEqual(['the lamps, as no cell is chosen for the most that the lamps give']);
    expect(readMonths({ ...year, reads: { ...year.reads, months: 'Months.A2:A3' } }, book, values).missing).toEqual([
      'A, B: there are 2 names of months for 3 values of sun',
    ]);
    expect(readMonths({ ...year, reads: { ...year.reads, sun: '#REF!' } }, book, values).missing).toEqual(['A, B: the cell for the sun on the bench is gone']);
  });
});

describe('a picture of the light over the bench', () => {
  it('says in words which of its cells is not chosen, not there or not worked out', () => {
    const block = (reads: Record<string, string>): PictureBlock => ({ id: 'k4', kind: 'picture', picture: 'light map', caption: '', reads });
    const missing = (reads: Record<string, string>) => readPicture(block(reads), book, values).missing;
    expect(missing({})).toEqual(['no cell is chosen for the layout, no cell is chosen for the mount height']);
    expect(missing({ layout: 'Nowhere.A1', height: 'Scenarios.A1' })).toEqual(['there is no cell Nowhere.A1 for the layout']);
    expect(missing({ layout: 'Scenarios.A1', height: 'Scenarios.A1' })).toEqual(['A, B: Mount height does not say the layout']);
  });
});

describe('what pictures and texts read', () => {
  it('follows rows that are put in and tables that are renamed', () => {
    const longer = done(book, insertLines(book, { table: 'Months', axis: 'row', at: 2, count: 1 }));
    expect(blockOf(longer, 'k2')).toMatchObject({ reads: { months: 'Months.A2:A5', sun: 'Months.B2:B5', gap: 'Scenarios.A5:A7' } });
    const lower = done(longer, insertLines(longer, { table: 'Scenarios', axis: 'row', at: 0, count: 2 }));
    expect(blockOf(lower, 'k2')).toMatchObject({ reads: { shade: 'Scenarios.A5', gap: 'Scenarios.A7:A9', most: 'Scenarios.A6' } });
    expect(blockOf(lower, 'k1')).toMatchObject({ reads: { value: 'Scenarios.A4' } });
    const named = done(lower, renameTable(lower, { table: 'Scenarios', name: 'Ways to do it' }));
    expect(blockOf(named, 'k1')).toMatchObject({ reads: { value: "'Ways to do it'.A4" } });
    expect(blockOf(named, 'k3')).toMatchObject({ text: "B costs {{'Ways to do it'.B4}}." });
  });

  it('is found by any words of its title, its name, its table or its address', () => {
    const references = (wanted: string) => cellChoices(book, values, wanted).map(({ reference }) => reference);
    expect(references('cost b')).toEqual(['Scenarios.B2']);
    expect(references('sun_jan')).toEqual(['sun_january']);
    expect(references('months.b3')).toEqual(['Months.B3']);
    expect(references('nothing like it')).toEqual([]);
  });

  it('is judged: the cell must be there and of the quantity that is meant', () => {
    const height = read('light map', 'height');
    expect(judge(height, 'Scenarios.B1', book, values)).toEqual({ reference: 'Scenarios.B1' });
    expect(judge(height, 'Scenarios.A2', book, values)).toEqual({ wrong: 'Yearly cost, A is money per year; the mount height is a length.' });
    expect(judge(height, 'Scenarios.Z9', book, values)).toEqual({ wrong: 'There is no cell called “Scenarios.Z9”.' });
    expect(judge(height, '', book, values)).toEqual({ wrong: 'Choose a cell for the mount height.' });
    expect(judge(read('light map', 'dim'), '', book, values)).toEqual({ reference: '' });
    expect(judge(read('light map', 'layout'), 'Months.A2', book, values)).toMatchObject({
      wrong: expect.stringContaining('is no layout, such as LAYOUT gives.'),
    });
    expect(judge(read('height curve', 'target'), 'sun_january', book, values)).toMatchObject({ wrong: expect.stringContaining('light per day (DLI)') });
    const sun = read('monthly light', 'sun');
    expect(judge(sun, 'Months.B2:B4', book, values)).toEqual({ reference: 'Months.B2:B4' });
    for (const other of ['Months!B2:B4', '[Months.B2:.B4]']) expect(judge(sun, other, book, values), other).toEqual({ reference: 'Months.B2:B4' });
    expect(judge(sun, 'Months.B2', book, values)).toMatchObject({ wrong: expect.stringContaining('no run of cells') });
    expect(judge(read('scenario bars', 'value'), 'Months.B2', book, values)).toMatchObject({
      wrong: expect.stringContaining('Months, which compares no scenarios'),
    });
    expect(choicesFor(sun, book, values, '').map(({ reference }) => reference)).toEqual(['Months.B2:B4', 'Scenarios.A5:A7']);
  });

  it.each(slugs)('is found for a new picture in %s by what its rows are called', async (slug) => {
    const session = await openTemplate(slug);
    const own = templateBook(slug).pages.flatMap((page) =>
      page.blocks.flatMap((block) => (block.kind === 'picture' && block.picture === 'light map' ? [block.reads] : [])),
    )[0];
    const bare = { ...session.book, pages: session.book.pages.map((page) => ({ ...page, blocks: page.blocks.filter((block) => block.kind !== 'picture') })) };
    const found = usualReads('light map', bare, session.values);
    session.close();
    expect(found).toMatchObject({ layout: own?.layout, height: own?.height, low: own?.low, high: own?.high });
  });
});
