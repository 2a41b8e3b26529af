/**
 * Functions of the Medium group that this project puts in itself, because the calculator lacks them or gets them wrong:
 * OASIS, OpenDocument 1.2, Part 2 (OpenFormula), 2011, section 2.3.3 (A); their texts stand under their names in 6.14, 6.17 and 6.18.
 * Values follow from those texts by hand.
 */
import { linearRegression, mode as modeOf } from 'simple-statistics';
import { beforeAll, expect, it } from 'vitest';
import { createEngine } from '../../../src/engine/engine.ts';
import { book, short, table } from '../helpers.ts';
import type { Case } from './small-group.ts';

const xs = [6, 7, 9, 15, 21];
const ys = [20, 28, 31, 38, 40];

const engine = createEngine();
beforeAll(() =>
  engine.load(
    book([
      table(
        'P',
        xs.map((x, i) => [`${x}`, `${ys[i]}`]),
      ),
      table('L', [
        ['2', 'low', '0.5 m'],
        ['4', 'middle', '20 in'],
        ['8', 'high', '3 ft'],
      ]),
      table('M', [['7'], ['3'], ['7'], ['3'], ['1'], ['x'], [null]]),
    ]),
  ),
);

const CASES: readonly Case[] = [
  ['LOOKUP(4,L.A1:A3,L.B1:B3)', 'middle'],
  ['LOOKUP(7.9,L.A1:A3,L.B1:B3)', 'middle'],
  ['LOOKUP(100,L.A1:A3,L.B1:B3)', 'high'],
  ['LOOKUP(1,L.A1:A3,L.B1:B3)', 'error'],
  ['LOOKUP(4,L.A1:B3)', 'middle'],
  ['LOOKUP("b",{"a","b","c"},{1,2,3})', 2],
  ['RANK(7,M.A1:A5)', 1],
  ['RANK(3,M.A1:A5)', 3],
  ['RANK(1,M.A1:A5)', 5],
  ['RANK(7,M.A1:A5,1)', 4],
  ['RANK(2,M.A1:A5)', 'error'],
  ['MODE(M.A1:A7)', 3],
  ['MODE(1,2,3)', 'error'],
  ['INTERCEPT(P.B1:B2,P.A1:A3)', 'error'],
  ['FORECAST(1,{1,2},{3,3})', 'error'],
  ['CEILING(2.4)', 3],
  ['CEILING(-2.4)', -2],
  ['CEILING(4,3)', 6],
  ['CEILING(-4,-3)', -3],
  ['CEILING(-4,-3,1)', -6],
  ['CEILING(4,-3)', 'error'],
  ['FLOOR(2.4)', 2],
  ['FLOOR(-2.4)', -3],
  ['FLOOR(4,3)', 3],
  ['FLOOR(-4,-3)', -6],
  ['FLOOR(-4,-3,1)', -3],
  ['FLOOR(0.3,0.1)', 0.3],
  ['ROUNDUP(45.67,1)', 45.7],
  ['ROUNDUP(-45.67)', -46],
  ['ROUNDUP(45.67,-1)', 50],
  ['ROUNDDOWN(45.67,1)', 45.6],
  ['ROUNDDOWN(-45.67)', -45],
  ['ROUNDDOWN(45.67,-1)', 40],
  ['CONVERT(10,"in","cm")', 25.4],
  ['CONVERT(68,"°F","°C")', 20],
  ['CONVERT(1,"m","kg")', 'error'],
];

it.each(CASES)('%s is %s', async (formula, expected) => {
  const value = await engine.evaluate(formula);
  if (expected === 'error') expect(value).toMatchObject({ kind: 'error' });
  else if (typeof expected === 'number') expect(short(value)).toBeCloseTo(expected, 12);
  else expect(short(value)).toBe(expected);
});

it('draws the line of least squares that a statistics library draws', async () => {
  const { m, b } = linearRegression(xs.map((x, i) => [x, ys[i] ?? 0]));
  expect(short(await engine.evaluate('INTERCEPT(P.B1:B5,P.A1:A5)'))).toBeCloseTo(b, 10);
  expect(short(await engine.evaluate('SLOPE(P.B1:B5,P.A1:A5)'))).toBeCloseTo(m, 10);
  expect(short(await engine.evaluate('FORECAST(30,P.B1:B5,P.A1:A5)'))).toBeCloseTo(b + 30 * m, 10);
});

it('finds the commonest number that a statistics library finds', async () => {
  expect(short(await engine.evaluate('MODE(4,9,4,2,9,4)'))).toBe(modeOf([4, 9, 4, 2, 9, 4]));
});

it('finds a length by its size, whatever unit it is shown in', async () => {
  expect(short(await engine.evaluate('LOOKUP(36 in,L.C1:C3,L.B1:B3)'))).toBe('high');
  expect(short(await engine.evaluate('MATCH(36 in,L.C1:C3,0)'))).toBe(3);
});
