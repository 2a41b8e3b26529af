/** Hours of lamps that follow the day, against a numerical integral and against days that are drawn; the clock of their window. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { runs } from '../../cases.ts';
import { evaluate } from '../evaluate.ts';

const hours = (formula: string): number => {
  const value = evaluate(formula);
  if (typeof value !== 'number') throw new Error(isRefusal(value) ? value.message : String(value));
  return value;
};

interface Month {
  readonly sun: number;
  readonly spread: number;
  readonly ppfd: number;
  readonly target: number;
  readonly limit: number;
}

const worked = ({ sun, spread, ppfd, target, limit }: Month): number => hours(`LAMP.HOURS.MEAN(${sun},${spread},${ppfd},${target},${limit})`);

/** How long lamps are on, on a day with so much sun; less than none is none. */
const on = ({ ppfd, target, limit }: Month, sun: number): number => Math.min(Math.max(0, target - Math.max(0, sun)) / ((ppfd * 3600) / 1e6), limit);

/** The midpoint rule over the bell, ten spreads either side. */
function integral(month: Month): number {
  const steps = 20_000;
  const width = 20 / steps;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const z = -10 + (i + 0.5) * width;
    sum += on(month, month.sun + z * month.spread) * Math.exp((-z * z) / 2);
  }
  return (sum * width) / Math.sqrt(2 * Math.PI);
}

const between = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min: 0, max: 1000 }).map((x) => min + ((max - min) * x) / 1000);

test('hours of lamps that follow the day are the integral over the days', () => {
  fc.assert(
    fc.property(
      fc.record({ sun: between(0, 40), spread: between(0.1, 12), ppfd: between(20, 600), target: between(0, 30), limit: between(0, 24) }),
      (month) => {
        // The rule's own error at a kink is some width² of the spread, 1e-6.
        expect(Math.abs(worked(month) - integral(month))).toBeLessThan(1e-5 * (1 + month.spread / ((month.ppfd * 3600) / 1e6)));
      },
    ),
    runs(200, 20_260_101),
  );
});

test('they are the mean of ten thousand drawn days', () => {
  const random = seeded(52);
  for (const month of [
    { sun: 8.9, spread: 3.9, ppfd: 203.8, target: 11, limit: 14 },
    { sun: 1.8, spread: 1.3, ppfd: 142.4, target: 11, limit: 14 },
    { sun: 19, spread: 7.5, ppfd: 203.8, target: 11, limit: 12 },
    { sun: 1, spread: 2, ppfd: 500, target: 5, limit: 24 },
  ]) {
    const days = Array.from({ length: 10_000 }, () => on(month, month.sun + month.spread * random()));
    const mean = days.reduce((sum, h) => sum + h, 0) / days.length;
    const deviation = Math.sqrt(days.reduce((sum, h) => sum + (h - mean) ** 2, 0) / days.length);
    // Three and a half deviations of the mean of as many days: one month in two thousand lies farther out.
    expect(Math.abs(worked(month) - mean)).toBeLessThan((3.5 * deviation) / 100);
    expect(deviation / 100).toBeLessThan(0.06);
  }
});

/** Normal numbers by the polar method, from a generator with a seed (Park and Miller). */
function seeded(seed: number): () => number {
  let state = seed;
  const uniform = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  return () => {
    for (;;) {
      const [u, v] = [2 * uniform() - 1, 2 * uniform() - 1];
      const s = u * u + v * v;
      if (s > 0 && s < 1) return u * Math.sqrt((-2 * Math.log(s)) / s);
    }
  };
}

test('a month whose mean day has no gap has lamp hours on its dull days, and one of like days has those of its mean day', () => {
  expect(hours('LAMP.HOURS.MEAN(12,5,200,11,14)')).toBeGreaterThan(1);
  expect(hours('LAMP.HOURS.MEAN(12,0,200,11,14)')).toBe(0);
  // 3 mol/m²/d at 200 µmol/m²/s.
  expect(hours('LAMP.HOURS.MEAN(8,0,200,11,14)')).toBeCloseTo(3 / 0.72, 12);
  // Without any sun, all that the target or the window asks.
  expect(hours('LAMP.HOURS.MEAN(0,0,200,11,14)')).toBe(14);
  expect(hours('LAMP.HOURS.MEAN(0,0,400,11,14)')).toBeCloseTo(11 / 1.44, 12);
  expect(hours('LAMP.HOURS.MEAN(40,1,200,11,14)')).toBeCloseTo(0, 12);
});

test('a window from midnight to midnight is the whole day, and the same hour at both ends is refused', () => {
  expect(hours('LAMP.WINDOW(0,24)')).toBe(24);
  expect(hours('LAMP.WINDOW(24,6)')).toBe(6);
  expect(hours('LAMP.WINDOW(22,4.5)')).toBe(6.5);
  for (const same of ['7,7', '0,0', '24,24', '24,0'])
    expect(evaluate(`LAMP.WINDOW(${same})`)).toMatchObject({ message: expect.stringContaining('all day or not at all') });
});
