/**
 * Whatever is typed or comes in as a file is read or refused in words: nothing throws, nothing takes long, and nothing reaches what all objects share.
 * Inputs are sound ones that were spoilt, and letters that make trouble put together by chance.
 */
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { parseLayout } from '../../functions/field/layout-text.ts';
import { readContent, readQuantity } from '../../functions/quantity-text.ts';
import { unit } from '../../functions/units.ts';
import { checkBook } from '../../src/book/check.ts';
import { isRefused } from '../../src/book/refused.ts';
import { put } from '../../src/cli/new.ts';
import { WrongUse } from '../../src/cli/wrong-use.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { formatBook, parseBook } from '../../src/files/book/book-file.ts';
import { formatCsv, parseCsv } from '../../src/files/csv/csv.ts';
import { planCsv, stageCsv } from '../../src/files/csv/staged.ts';
import { parseTidy } from '../../src/files/csv/tidy.ts';
import { openSession } from '../../src/session.ts';
import { sample } from '../book/sample.ts';
import { long, runs } from '../cases.ts';

const INPUTS = 20_000;
/** Milliseconds of the processor that one input may take; the long run measures it. */
const LONGEST = 2000;

const TROUBLE = [
  ...['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', 'NaN', 'Infinity', '-0', '1e999', '1e-999', '9'.repeat(40), '0x10', '1_000'],
  ...[
    '\0',
    '\uFEFF',
    '\u00a0',
    '\u202e',
    '\u2028',
    '\ud800',
    '😀',
    'µ',
    '²',
    '⁻¹',
    '×',
    '°',
    '·',
    '，',
    '＝',
    '\\',
    '\\u0000',
    '"',
    "'",
    '“',
    '`',
    '${',
    '\r\n',
    '\n',
    '\t',
    '\v',
  ],
  ...['=', '+', '-', '@', '*', '/', '^', '%', '(', ')', '[', ']', '{', '}', '<', '>', '&', ',', ';', ':', '!', '$', '#', '.', '..', '|', ' ', '   '],
  ...['a'.repeat(300), '('.repeat(120), '"'.repeat(99), ','.repeat(200), ' '.repeat(500), '1/'.repeat(80)],
];

/** Texts near the sound ones: pieces of them are cut, doubled, moved and mixed with trouble. */
function near(sound: readonly string[], words: readonly string[]): fc.Arbitrary<string> {
  const piece = fc.oneof(
    fc.constantFrom(...TROUBLE),
    fc.constantFrom(...words),
    fc.string({ unit: 'grapheme', maxLength: 4 }),
    fc.string({ unit: 'binary', maxLength: 3 }),
    fc.double().map(String),
  );
  const spoilt = fc
    .tuple(fc.constantFrom(...sound), fc.array(fc.tuple(fc.nat(), fc.nat({ max: 12 }), piece), { minLength: 1, maxLength: 4 }))
    .map(([text, cuts]) =>
      cuts.reduce((made, [where, length, put]) => {
        const at = where % (made.length + 1);
        return made.slice(0, at) + put + made.slice(at + length);
      }, text),
    );
  return fc.oneof({ weight: 3, arbitrary: spoilt }, { weight: 2, arbitrary: fc.array(piece, { maxLength: 14 }).map((pieces) => pieces.join('')) });
}

const SHARED = [Object.prototype, Array.prototype, Function.prototype, String.prototype, Number.prototype];
const shared = (): string => JSON.stringify(SHARED.map((each) => Reflect.ownKeys(each).map(String)));
const before = shared();

/** Reads each input, and holds it to its time and to leaving alone what all objects share. */
async function each(inputs: fc.Arbitrary<string>, seed: number, read: (text: string) => unknown): Promise<void> {
  let slowest = 0;
  await fc.assert(
    fc.asyncProperty(inputs, async (text) => {
      const began = process.cpuUsage();
      await read(text);
      const { user, system } = process.cpuUsage(began);
      slowest = Math.max(slowest, (user + system) / 1000);
      if (long) expect(slowest).toBeLessThan(LONGEST);
    }),
    runs(INPUTS, seed),
  );
  expect(shared()).toBe(before);
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
}

const QUANTITIES = [
  '12 ft',
  '36 in',
  '3.6 m',
  '1,000.5 µmol/m²/s',
  '0.31 EUR/kWh',
  '16 h/d',
  '6%',
  '-40 °C',
  '12 ft 6 in',
  'TRUE',
  '=A1',
  "'text",
  '1:30',
  '5e3 kWh/m²/d',
  '1/2 in',
];
const UNITS = ['m', 'ft', 'in', 'µmol', 'mol/m²/d', 'kWh', 'EUR', 'W', '°C', '%', 'h/d', 'm²', 's⁻¹', 'money'];
const FORMULAS = [
  '=DLI(200 µmol/m²/s, 16 h/d)',
  '=LAYOUT(156,1.2,0,120,2,4,2.4,1.2)',
  '=IF(1<2,"a","b")',
  '=SUM({1,2;3,4})',
  '=ROUND(1/3;2)',
  '=1+2*(3-4)^2%',
  '=Brief.A1+6 in',
  "='Fixture list'.B2:C4",
  '=CHECK.AT.MOST(1 m, 2 m)',
  '=MID("µ²",1,1)&TEXT(1,"0.0")',
  '=CONVERT(1,"ft","m")',
  '=COUNTIF(A1:B2,">3")',
];
const LAYOUTS = [
  '9 (3×3) of 243 µmol/s 1.15×0.06 m 120° over 3.6×1.5 m, turned, spread 1.1×1.25, sides 0.5',
  '2 at (0.6, 0.3) (1.8, 0.3 turned) of 44 µmol/s 0×0 m 60° over 3.6×1.5 m',
  '9 (9×1) of 243 µmol/s 1.15×0.06 m 120° over 12×0.2 m, beside 1 and 2 at 1.1 m',
  '1 (1×1) of 1 µmol/s 0×0 m 10° over 1×1 m + 2 (2×1) of 2 µmol/s 0×0 m 20° over 1×1 m',
];
const SETTINGS = [
  'bench_length=12ft',
  'tariff=0.31 EUR/kWh',
  'Scenarios.A7=45 cm',
  'crop=sweet basil',
  'bench_width==1 m+2 ft',
  'neighbours=2',
  'light_hours=16 h/d',
];
const TABLES = [
  formatCsv([
    ['table', 'address', 'name', 'kind', 'value', 'unit', 'low', 'high', 'formula', 'source', 'note'],
    ['Brief', 'Brief.A1', '', 'given', 3.6, 'm', 0.2, 50, null, 'client', ''],
    ['Scenarios', 'Scenarios.A1', '', 'worked', 3, '', 'one of', '["a","b"]', '=B1', '', ''],
  ]),
  ',unit,Answer\r\nBench length,ft,12\r\nCrop,,basil\r\n',
  '10;20;30,5\n40;50;60,5\n',
  'name\tprice (EUR)\nRail 45\t79\n"Rail\n60"\t"1""39"\n',
  'a|b\n1|2\n',
];
const BOOK = formatBook(sample);

describe('no input makes the reading throw, hang or reach what all objects share:', { timeout: 1_200_000 }, () => {
  it('quantities and units', async () => {
    await each(near([...QUANTITIES, ...UNITS], UNITS), 1601, (text) => {
      for (const options of [{ currency: 'EUR' }, { currency: 'USD', unit: 'm', decimalMark: ',' as const }])
        expect(readQuantity(text, options).kind).toMatch(/^[a-z ]+$/);
      expect(readContent(text).kind).toMatch(/^[a-z ]+$/);
      unit(text);
    });
  });

  const engine = createEngine();
  afterAll(() => engine.close());
  it('formulas', async () => {
    await each(near(FORMULAS, ['=', 'SUM(', 'IF(', 'A1', 'B2:C3', 'Brief!', 'Brief.', '[Brief.A1]', '"', '{1,2}', 'TRUE', ...UNITS]), 1602, async (text) => {
      const value = await engine.evaluate(text.startsWith('=') ? text : `=${text}`);
      expect(['number', 'text', 'yes or no', 'blank', 'error']).toContain(value.kind);
      if (value.kind === 'error') expect(value.message.length).toBeGreaterThan(5);
    });
  });

  it('layouts', async () => {
    await each(near(LAYOUTS, [' + ', '×', '°', ' µmol/s', ' of ', ' over ', ' at ', 'turned', '(1, 2)']), 1603, (text) => {
      const layout = parseLayout(text);
      expect('groups' in layout || 'refusal' in layout || Object.keys(layout).length > 0).toBe(true);
    });
  });

  it('settings of the command line', async () => {
    const session = openSession(sample, createEngine());
    await session.settled();
    await each(near(SETTINGS, Object.keys(sample.names)), 1604, async (text) => {
      try {
        await put(session, text);
      } catch (error) {
        // What can't be set is wrong use, and said.
        if (!(error instanceof WrongUse)) throw error;
      }
    });
    expect(checkBook(session.book).ok).toBe(true);
    session.close();
  });

  it('comma-separated text, as it is, tidy and brought into a book', async () => {
    const values = await engine.load(sample);
    await each(near(TABLES, ['"', '""', ',', ';', '\r\n', 'Bench length', 'Brief.A1', '\t']), 1605, async (text) => {
      expect(parseCsv(text).records.length).toBeGreaterThanOrEqual(0);
      parseTidy(text);
      for (const file of [text, Buffer.from(text, 'latin1')]) {
        const staged = await stageCsv(file, { name: 'x.csv' });
        const plan = await planCsv(sample, staged, { read: readQuantity, values });
        if (!isRefused(plan)) expect(plan.placed + plan.notPlaced).toBeLessThanOrEqual(plan.read);
      }
    });
  });

  it('book files', async () => {
    const strange = fc.json({ maxDepth: 6 }).map((json) => BOOK.replace(/"tables": \[/u, `"tables": [${json},`));
    const keyed = fc
      .tuple(
        fc.constantFrom('id', 'cells', 'rows', 'content', 'kind', 'reads', 'names', 'label', 'range'),
        fc.constantFrom(...TROUBLE.filter((word) => /^\w+$/u.test(word))),
      )
      .map(([key, word]) => BOOK.replace(`"${key}"`, `"${word}"`));
    const inputs = fc.oneof(
      { weight: 4, arbitrary: near([BOOK, JSON.stringify(sample)], ['null', '[]', '{}', '7', '"id":"x"', '"__proto__":{"polluted":1},']) },
      strange,
      keyed,
    );
    await each(inputs, 1606, (text) => {
      const read = parseBook(text);
      if (read.ok) expect(checkBook(read.book).ok).toBe(true);
      else expect(read.message).toMatch(/^[A-Z].*[.)]$/su);
      if (!read.ok && read.rescued) expect(checkBook(read.rescued).ok).toBe(true);
    });
  });
});
