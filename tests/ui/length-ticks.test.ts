import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readQuantity } from '../../functions/quantity-text.ts';
import { lengthTicks } from '../../src/pictures/length-ticks.ts';
import { runs } from '../cases.ts';

const texts = (from: number, to: number, most: number, measures: 'metric' | 'US customary' = 'US customary'): string[] =>
  lengthTicks(from, to, most, measures).map(({ text }) => text.replaceAll('\u202f', ' '));

test('places along a length are round in the measures of the book', () => {
  expect(texts(0, 3.6, 6, 'metric')).toEqual(['0', '1', '2', '3']);
  // 14 ft and 12 ft are 4.2672 m and 3.6576 m.
  expect(texts(0, 4.2672, 8)).toEqual(['0', '2′', '4′', '6′', '8′', '10′', '12′', '14′']);
  expect(texts(0, 3.6576, 3)).toEqual(['0', '4′', '8′', '12′']);
  expect(texts(0.3, 0.9, 6)).toEqual(['1′', '1′ 6″', '2′', '2′ 6″']);
  expect(texts(0, 0.1016, 5)).toEqual(['0', '1″', '2″', '3″', '4″']);
});

test('every place stands where its text says, and there are not too many', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 3, noNaN: true }),
      fc.double({ min: 0.1, max: 60, noNaN: true }),
      fc.integer({ min: 2, max: 12 }),
      (from, wide, most) => {
        const found = lengthTicks(from, from + wide, most, 'US customary');
        expect(found.length).toBeLessThanOrEqual(most + 1);
        for (const { at, text } of found) {
          expect(at).toBeGreaterThanOrEqual(from - 1e-6);
          expect(at).toBeLessThanOrEqual(from + wide + 1e-6);
          const read = readQuantity(text, { currency: 'USD', unit: 'ft' });
          expect(read.kind === 'number' ? read.base : text).toBeCloseTo(at, 9);
        }
      },
    ),
    runs(300, 12),
  );
});
