/** Whatever is typed or stored: an answer or a sentence comes back, never an exception, never a number that is none. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { OFFERED } from '../../src/engine/offered.ts';
import { offered } from '../../src/engine/register.ts';
import type { Value } from '../../src/engine/types.ts';
import { runs } from '../cases.ts';
import { book, put, table } from './helpers.ts';

const tables = [
  table('T', [
    ['1', '3 m', 'lamp', ''],
    ['TRUE', '25 °C', '-2', '=A1/0'],
    ['0', '36 in', null, '=D2'],
  ]),
];

const leaf = fc.oneof(
  fc.constantFrom(
    '0',
    '1',
    '-1',
    '2.5',
    '1e308',
    '1E-300',
    '""',
    '"lamp"',
    '"a""b"',
    'TRUE',
    '3 m',
    '36 in',
    '200 µmol/m²/s',
    '16 h/d',
    '-5 °C',
    '10%',
    '{1,2;3,4}',
    'T.A1',
    'T.B1',
    'T.D1',
    'T.C3',
    'T.D2',
    'T.A1:D3',
    'T.B1:B3',
    'nobody',
    '',
  ),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => String(x)),
);
const operator = fc.constantFrom('+', '-', '*', '/', '^', '&', '=', '<', '>=', '<>');
const { formula } = fc.letrec((tie) => ({
  formula: fc.oneof({ depthSize: 'small', withCrossShrink: true }, leaf, tie('call'), tie('pair'), tie('bracket')),
  call: fc.tuple(fc.constantFrom(...offered), fc.array(tie('formula'), { maxLength: 4 })).map(([name, args]) => `${name}(${args.join(',')})`),
  pair: fc.tuple(tie('formula'), operator, tie('formula')).map((parts) => parts.join('')),
  bracket: tie('formula').map((inner) => `(${inner})`),
}));

function wellFormed(value: Value): void {
  if (value.kind === 'number') {
    expect(Number.isFinite(value.base)).toBe(true);
    expect(value.unit).not.toContain('money');
  }
  if (value.kind === 'error') {
    expect(value.word).toMatch(/^[a-z][a-z ]+$/);
    expect(value.message).toMatch(/^\S.*[.?\d]$/s);
    expect(value.message).not.toMatch(/undefined|NaN|\[object|failed: /);
  }
}

const SEED = 20261125;

it('answers any formula made of what is offered', async () => {
  const engine = createEngine();
  await engine.load(book(tables));
  await fc.assert(
    fc.asyncProperty(formula, async (text) => wellFormed(await engine.evaluate(text as string))),
    runs(1_500, SEED),
  );
});

it('answers any text at all', async () => {
  const engine = createEngine();
  await engine.load(book(tables));
  const any = fc.oneof(fc.string({ unit: 'binary', maxLength: 60 }), fc.string({ unit: fc.constantFrom(...'=()!:;,."\'{}+-*/^&<>%°µ²AZ19 '), maxLength: 40 }));
  await fc.assert(
    fc.asyncProperty(any, async (text) => {
      wellFormed(await engine.evaluate(text));
      const reading = await engine.read('T.A1', text);
      if (!reading.ok) expect(reading.message).not.toBe('');
    }),
    runs(1_500, SEED),
  );
});

it('tells the working of any formula, and leaves the book as it was', async () => {
  const engine = createEngine();
  const before = await engine.load(book(tables));
  await fc.assert(
    fc.asyncProperty(formula, async (text) => {
      wellFormed((await engine.evaluateWithSteps(text as string)).value);
      expect(await engine.feeds('T.A1')).toEqual({ directly: ['T.D2'], all: ['T.D2', 'T.D3'] });
    }),
    runs(300, SEED),
  );
  expect(await engine.load(book(tables))).toEqual(before);
});

it('tells the working of a call that lacks its arguments', async () => {
  wellFormed((await createEngine().evaluateWithSteps('ABS(0+IFERROR())')).value);
});

it('stores any content of any cell and goes on', async () => {
  const engine = createEngine();
  let now = book(tables);
  await engine.load(now);
  await fc.assert(
    fc.asyncProperty(
      fc.oneof(
        formula.map((text) => `=${text}`),
        fc.string({ unit: 'binary', maxLength: 40 }),
      ),
      async (content) => {
        const edit = put(now, 'T', 'r3', 'c3', content);
        now = edit.book;
        for (const value of Object.values(await engine.apply([edit.change], now))) wellFormed(value);
      },
    ),
    runs(500, SEED),
  );
  expect(OFFERED.size).toBeGreaterThan(150);
});
