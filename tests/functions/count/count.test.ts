import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { runs } from '../../cases.ts';
import { evaluate } from '../evaluate.ts';

const number = (formula: string): number => {
  const value = evaluate(formula);
  if (typeof value !== 'number') throw new Error(`${formula}: ${isRefusal(value) ? value.message : value}`);
  return value;
};
const message = (formula: string): string => {
  const value = evaluate(formula);
  if (!isRefusal(value)) throw new Error(`${formula} is not refused: ${value}`);
  return value.message;
};

test('a count that is whole but for rounding is not rounded up', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1, max: 99 }), (count, ppf, share) => {
      const target = 200;
      // An area that takes exactly that many.
      const area = (count * ppf * (share / 100)) / target;
      return number(`COUNT.FOR.TARGET(${target},${area},${ppf},${share / 100},1)`) === count;
    }),
    runs(200, 7),
  );
});

test('as many fixtures fit along as their lengths and gaps leave room for, and not one more', () => {
  fc.assert(
    fc.property(fc.integer({ min: 20, max: 4000 }), fc.integer({ min: 10, max: 200 }), fc.integer({ min: 0, max: 50 }), (length, fixture, gap) => {
      const value = evaluate(`COUNT.ALONG(${length / 100},${fixture / 100},${gap / 100})`);
      if (isRefusal(value)) return fixture > length;
      const n = value as number;
      return n * fixture + (n - 1) * gap <= length && (n + 1) * fixture + n * gap > length;
    }),
    runs(300, 8),
  );
});

test('three rows of 0.4 m fit across 1.2 m, though 1.2 / 0.4 is a little less than 3 in binary', () => {
  expect(1.2 / 0.4).toBeLessThan(3);
  expect(number('COUNT.ROWS(1.2,0.4)')).toBe(3);
  expect(message('COUNT.ROWS(0.3,0.4)')).toMatch(/wider than the bench/);
});

test('more light than there is cannot be dimmed to, and the refusal says how much is short', () => {
  expect(number('DIM.FOR.TARGET(200,200)')).toBe(1);
  expect(message('DIM.FOR.TARGET(150,200)')).toMatch(/25 % short of 200/);
});

test('a count that no plan has is refused', () => {
  expect(message('COUNT.FOR.TARGET(100000,1000000,0.001,0.01,0.01)')).toMatch(/^COUNT\.FOR\.TARGET: that would take 1[\u202f0]+ fixtures; check the output/);
});
