import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { longestDark } from '../../../functions/sun/night.ts';
import { runs } from '../../cases.ts';
import { evaluate, record, stepsOf } from '../evaluate.ts';

const refusal = (formula: string): string => {
  const value = evaluate(formula);
  return isRefusal(value) ? value.message : `no refusal: ${value}`;
};
const notes = (formula: string): string =>
  stepsOf(formula)
    .steps.flatMap((s) => (s.kind === 'note' ? [s.label] : []))
    .join('\n');
const hours = (formula: string): number => evaluate(formula) as number;
/** Twelve cells, January first. */
const only = (...grown: readonly number[]): string => `{${Array.from({ length: 12 }, (_, i) => (grown.includes(i + 1) ? 'TRUE' : 'FALSE')).join(',')}}`;

test('lamps from 6 to 18 at 52° leave June under six hours of night, where the darkest month has twelve', () => {
  // Half a day at −6° and δ = 23.45°: 18.37 h at the solstice, so 5.63 h of night; the middle of June is some minutes short of it.
  expect(hours('NIGHT.SHORTEST(52,,6,18)')).toBeGreaterThan(5.63);
  expect(hours('NIGHT.SHORTEST(52,,6,18)')).toBeLessThan(6);
  expect(notes('NIGHT.SHORTEST(52,,6,18)')).toContain('The shortest is in June');
  expect(hours(`NIGHT.SHORTEST(52,${only(12)},6,18)`)).toBeCloseTo(12, 9);
});

test('months that are not grown in do not count, and a blank one does', () => {
  expect(notes(`NIGHT.SHORTEST(52,${only(3, 4)},12,12)`)).toContain('The shortest is in April');
  const blank = [Array.from({ length: 12 }, () => null)];
  expect(record('NIGHT.SHORTEST').work([52, blank, 6, 18, null, null] as never, undefined)).toBe(hours('NIGHT.SHORTEST(52,,6,18)'));
  expect(notes('NIGHT.SHORTEST(-34,,12,12)')).toContain('The shortest is in December');
});

test('a blackout keeps the sun out and leaves the lamps on', () => {
  expect(hours('NIGHT.SHORTEST(52,,8,18,18,8)')).toBeCloseTo(14, 9);
  // Drawn from 17 to 8, with lamps until 20: dark from 20 to 8.
  expect(hours('NIGHT.SHORTEST(52,,8,20,17,8)')).toBeCloseTo(12, 9);
  // All day long: only the lamps.
  expect(hours('NIGHT.SHORTEST(52,,6,14,0,24)')).toBeCloseTo(16, 9);
  expect(hours('NIGHT.SHORTEST(52,,12,12,0,24)')).toBe(24);
});

test('a night that a lamp breaks counts by its longer piece', () => {
  // In December dark falls at 16.56 h by the sun (day of 9.13 h): from 23 to 1 lit, the night's halves are less than half of it.
  const december = hours(`NIGHT.LONGEST(52,${only(12)},12,12)`);
  expect(hours(`NIGHT.LONGEST(52,${only(12)},23,1)`)).toBeCloseTo((december - 2) / 2, 9);
});

test('where the sun does not sink 6° below the horizon there is no night', () => {
  expect(hours('NIGHT.SHORTEST(65,,12,12)')).toBe(0);
  expect(hours('DAY.LENGTH(90,172)')).toBe(24);
  expect(hours('DAY.LENGTH(-90,172)')).toBe(0);
});

test('half a blackout, fewer than twelve months and no month are refused', () => {
  expect(refusal('NIGHT.SHORTEST(52,{TRUE,TRUE},6,18)')).toContain('months holds 2 cells; twelve are needed');
  expect(refusal(`NIGHT.SHORTEST(52,${only()},6,18)`)).toContain('no month is grown in');
  expect(refusal('NIGHT.SHORTEST(52,,6,18,17)')).toContain('of the blackout only one hour is given');
});

test('the longest dark stretch holds no light, and no longer one is found by going along the clock', () => {
  const piece = fc
    .tuple(fc.integer({ min: 0, max: 240 }), fc.integer({ min: 0, max: 240 }))
    .map(([a, b]) => [Math.min(a, b) / 10, Math.max(a, b) / 10] as const);
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 5 }), (light) => {
      const [from, to] = longestDark(light);
      // Tenths of an hour, by their middle.
      const isLit = Array.from({ length: 240 }, (_, i) => light.some(([a, b]) => (i + 0.5) / 10 > a && (i + 0.5) / 10 < b));
      let [run, best] = [0, 0];
      for (let i = 0; i < 480; i++) {
        run = isLit[i % 240] ? 0 : run + 1;
        best = Math.max(best, Math.min(run, 240));
      }
      expect(to - from).toBeCloseTo(best / 10, 9);
      for (let i = Math.round(from * 10); i < Math.round(to * 10); i++) expect(isLit[i % 240]).toBe(false);
    }),
    runs(1000, 20260302),
  );
});
