import fc from 'fast-check';
import { html } from 'lit/html.js';
import { expect, test } from 'vitest';
import { readQuantity } from '../../functions/quantity-text.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { isRefused } from '../../src/book/refused.ts';
import { templateText } from '../../src/handover/text.ts';
import { PICTURES } from '../../src/pictures/kinds.ts';
import { lengthTicks } from '../../src/pictures/length-ticks.ts';
import { runs } from '../cases.ts';
import { openTemplate } from '../templates/open-template.ts';

const texts = (from: number, to: number, most: number, measures: 'metric' | 'US customary' = 'US customary'): string[] =>
  lengthTicks(from, to, most, measures).map(({ text }) => text.replaceAll(/[\u202f\u00a0]/g, ' '));

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

test('bars of lengths stand on an axis of feet and inches', async () => {
  const session = await openTemplate('trade-bench');
  const change = setMeasures(session.book, { measures: 'US customary' });
  if (isRefused(change)) throw new Error(change.message);
  session.dispatch(change);
  await session.settled();
  const row = session.book.tables.find((table) => table.form === 'scenarios')?.rows.findIndex(({ id }) => id === 'height') ?? -1;
  const block = { id: 'k', kind: 'picture', picture: 'scenario bars', caption: '', reads: { value: `Scenarios.A${row + 1}` } } as const;
  const { draw } = PICTURES['scenario bars'].ready(block, session.book, session.values);
  const text = templateText(
    draw?.({ id: 'k', caption: '', chosen: '', width: 700, again: (_, piece) => piece() }, { get: () => undefined }) ?? html``,
  ).replaceAll(/[\u202f\u00a0]/g, ' ');
  expect(text).toContain('>1′</text>');
  expect(text).toMatch(/A 11 3\/4″|A 1′|A 2′/);
  expect(text).not.toMatch(/\d\.\d+ ft|>ft</);
  session.close();
});
