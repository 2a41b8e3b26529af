import { expect, test } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { begin, monthsLater } from '../../src/book/begin.ts';
import type { Book } from '../../src/book/book.ts';
import { breakersIn, gaugeFor, habitsOf, meantBreaker } from '../../src/book/habits.ts';
import { placeOf, rangeOf, sourceOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import { isLeft, mustBeAsked, questionsOn } from '../../src/book/said-by.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { formatBook } from '../../src/files/book/index.ts';
import { openSession } from '../../src/session.ts';
import { slugs, templateBook } from '../templates/open-template.ts';

function begun(book: Book, args: Parameters<typeof begin>[1] = { client: 'Two sisters' }): Book {
  const made = begin(book, args);
  if (isRefused(made)) throw new Error(made.message);
  return made;
}

const content = (book: Book, name: string): string => placeOf(book, name)?.cell?.content ?? '';

test.each(slugs)('nothing of the example’s client, place and dates stays in a client’s book of %s', (slug) => {
  const template = templateBook(slug);
  const [site, dates] = [content(template, 'site'), ['plan_date', 'plan_until', 'tariff_date'].map((name) => content(template, name))];
  expect([site, ...dates].every((text) => text !== '')).toBe(true);
  const text = formatBook(begun(template, { client: 'Two sisters', title: 'Their bench', date: '2027-03-31' }));
  expect([template.client, site, ...dates].filter((theirs) => text.includes(theirs))).toEqual([]);
  // In what is told, asked and noted: lists name crops and who grew them.
  const words =
    /in the example|garden club|tunnel|lunch kitchen|the kitchen|allotment|\btrust\b|cellar|seed-swap|store room|nursery|\bshed\b|bedding|in a flat\b|the demo/giu;
  const kept = begun(template);
  const told = { ...kept, tables: kept.tables.filter((table) => table.form !== 'list' || table.name === 'Checks') };
  expect(JSON.stringify(told).match(words) ?? []).toEqual([]);
  expect(text).toContain('Two sisters');
});

test.each(slugs)('a book of %s says its own date where one is given, and has it to be set where none is', (slug) => {
  const dated = begun(templateBook(slug), { client: 'Two sisters', date: '2027-11-30' });
  expect([content(dated, 'plan_date'), content(dated, 'plan_until')]).toEqual(['2027-11-30', '2028-02-29']);
  expect(sourceOf(cellAt(dated, 'Sheet.A3') as never)).toBe('ours');
  const undated = begun(templateBook(slug));
  expect([content(undated, 'plan_date'), content(undated, 'plan_until'), content(undated, 'site')]).toEqual(['', '', '']);
});

test.each(slugs.filter((slug) => !templateBook(slug).tables.some(({ name }) => name === 'Readings')))(
  'a book of %s that was just begun works out all but what is to be asked',
  async (slug) => {
    const session = openSession(begun(templateBook(slug)), createEngine());
    await session.settled();
    const open = ['site', 'plan_date', 'plan_until', 'tariff_date', 'breaker', 'circuits_free'].map((name) => session.book.names[name]?.replaceAll('$', ''));
    const errors = Object.entries(session.values).flatMap(([address, value]) => (value.kind === 'error' ? [address] : []));
    session.close();
    expect(errors.filter((address) => !open.includes(address))).toEqual([]);
  },
);

test('three months on is the same day, or the last of a shorter month', () => {
  expect(monthsLater('2026-11-25', 3)).toBe('2027-02-25');
  expect(monthsLater('2027-11-30', 3)).toBe('2028-02-29');
  expect(monthsLater('2100-11-30', 3)).toBe('2101-02-28');
  expect(monthsLater('2027-01-31', 3)).toBe('2027-04-30');
  expect(monthsLater('2027-12-31', 1)).toBe('2028-01-31');
});

test('what the client must say stands at the template’s numbers, and says that it is to be asked', () => {
  const book = begun(templateBook('trade-bench'));
  const at = placeOf(book, 'bench_length');
  if (!at) throw new Error('no bench');
  expect(at.cell?.content).toBe('3.6 m');
  expect([isLeft(at), mustBeAsked(at)]).toEqual([true, true]);
});

test('what is usual where the client is stands in the book from the beginning', () => {
  const habits = { measures: 'US customary', currency: 'USD', mains: 120, breakers: [15, 20, 30], wires: 'AWG', paper: 'letter' } as const;
  for (const slug of slugs) {
    const template = templateBook(slug);
    const book = begun(template, { client: 'Two sisters', habits });
    const has = habitsOf(template);
    const expected = Object.fromEntries(Object.entries(habits).filter(([key]) => key in has));
    expect(habitsOf(book), slug).toEqual(expected);
    expect(formatBook(book), slug).not.toMatch(/\bEUR\b/u);
  }
  const book = begun(templateBook('trade-bench'), { client: 'Two sisters', habits });
  expect(content(book, 'tariff'), 'the numbers stay').toBe('0.25 USD/kWh');
  expect(content(book, 'breaker_assumed')).toBe('15 A');
  expect(content(book, 'breaker')).toBe('');
  // 1.5 mm² lies between 16 and 14 (ASTM B258: 1.31 and 2.08 mm²); the wire is never made thinner.
  expect(content(book, 'wire_gauge')).toBe('14');
  const mains = placeOf(book, 'mains_volts');
  expect(mains && [isLeft(mains), mustBeAsked(mains)], 'a habit can be agreed to').toEqual([true, false]);
  const breaker = placeOf(book, 'breaker');
  expect(breaker && rangeOf(breaker)).toMatchObject({ low: 1, high: 125, oneOf: ['15 A', '20 A', '30 A'] });
});

test('a habit that can not be is refused in a sentence', () => {
  const refusal = begin(templateBook('trade-bench'), { client: '', habits: { mains: 12 } });
  expect(refusal).toMatchObject({ message: expect.stringMatching(/^Mains voltage: 12 V is below what is allowed/) });
  expect(begin(templateBook('trade-bench'), { client: '', habits: { currency: 'DOLLARS' } })).toMatchObject({
    message: expect.stringContaining('not a currency'),
  });
});

test('sizes of breakers are read as they are written, and nothing else is taken for one', () => {
  expect(breakersIn('15, 20 and 30 A')).toEqual([15, 20, 30]);
  expect(breakersIn('32A 10A, 10')).toEqual([10, 32]);
  for (const text of ['', 'fifteen', '15, 0', '15, 200', '15 V']) expect(breakersIn(text), text).toBeUndefined();
  expect([meantBreaker([10, 13, 16, 20], 16), meantBreaker([15, 20], 16), meantBreaker([20, 30], 16)]).toEqual([16, 15, 20]);
  // ASTM B258, solid copper: 18 has 0.823, 17 1.04, 14 2.08 and 12 3.31 mm².
  const gauges = [18, 17, 16, 14, 12];
  expect([0.75, 1, 1.5, 2.5, 4].map((area) => gaugeFor(area, gauges))).toEqual([18, 17, 14, 12, undefined]);
});

test('the brief asks for the breaker, the circuits or the power to spare and the tariff, right after what only the client can say', () => {
  const book = begun(templateBook('trade-bench'));
  const page = book.pages.find(({ id }) => id === 'brief');
  const asked = page ? questionsOn(book, page).map(({ row }) => row.id) : [];
  expect(asked.slice(0, 10)).toEqual([
    'bench_length',
    'bench_width',
    'highest_mount',
    'crop',
    'light_hours',
    'mains_volts',
    'breaker',
    'circuits_free',
    'spare_power',
    'tariff',
  ]);
  expect(new Set(asked).size).toBe(asked.length);
});

test('what is ours to choose is round in a book in feet and inches, and what a source names stays', () => {
  const book = begin(templateBook('trade-bench'), { client: 'Somebody', habits: { measures: 'US customary' } });
  if (isRefused(book)) throw new Error(book.message);
  const content = (address: string): string => cellAt(book, address)?.cell?.content ?? '';
  // 3.6 m, 1.5 m, 0.9 m and 0.25 m.
  expect(['Brief.A1', 'Brief.A2', 'Brief.A3', 'Brief.A8'].map(content)).toEqual(['12 ft', '5 ft', '3 ft', '10 in']);
  // 0.3 m over the leaves.
  expect(content('Scenarios.A7')).toBe('1 ft');
  // What hangs is as its data sheet has it.
  expect(content('Fixtures.B2')).toBe('1.15 m');
  const metric = begin(templateBook('trade-bench'), { client: 'Somebody' });
  expect(isRefused(metric) || cellAt(metric, 'Brief.A1')?.cell?.content).toBe('3.6 m');
});
