import fc from 'fast-check';
import { expect, test } from 'vitest';
import { darkHours } from '../../../functions/day/dark-hours.ts';
import { dli } from '../../../functions/day/dli.ts';
import { hoursForDli } from '../../../functions/day/hours-for-dli.ts';
import { ppfdForDli } from '../../../functions/day/ppfd-for-dli.ts';
import { runs } from '../../cases.ts';
import { evaluate } from '../evaluate.ts';

const positive = fc.double({ min: 0.01, max: 1000, noNaN: true });

test('level, hours and light per day go round', () => {
  fc.assert(
    fc.property(positive, fc.double({ min: 0.1, max: 24, noNaN: true }), (ppfd, hours) => {
      expect(ppfdForDli(dli(ppfd, hours), hours)).toBeCloseTo(ppfd, 8);
      expect(hoursForDli(dli(ppfd, hours), ppfd)).toBeCloseTo(hours, 8);
    }),
    runs(100, 20260102),
  );
});

test('dark hours are what is left when every minute of the day is looked at', () => {
  const half = fc.integer({ min: 0, max: 47 }).map((n) => n / 2);
  const lit = (at: number, from: number, to: number): boolean => (from <= to ? at >= from && at < to : at >= from || at < to);
  fc.assert(
    fc.property(half, half, half, half, (on, off, rise, set) => {
      let dark = 0;
      for (let minute = 0; minute < 1440; minute++) {
        const at = (minute + 0.5) / 60;
        if (!lit(at, on, off) && !lit(at, rise, set)) dark++;
      }
      expect(darkHours(on, off, rise, set).dark).toBeCloseTo(dark / 60, 9);
    }),
    runs(100, 20260103),
  );
});

test('all day and not at all', () => {
  expect(evaluate('DARK.HOURS(0,24,7,17)')).toBe(0);
  expect(evaluate('DARK.HOURS(6,6,7,17)')).toBe(14);
  // 18.37 to 11.24 leaves 11.24 to 18.37 dark, where the sun is up: not a rounding error less than nothing.
  expect(evaluate('DARK.HOURS(18.37,11.24,10.63,22.55)')).toBe(0);
});
