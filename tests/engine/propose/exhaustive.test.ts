import fc from 'fast-check';
import { expect, it } from 'vitest';
import { AIMS, type Choices, finished, gathered, Searcher } from '../../../src/engine/propose/index.ts';
import { runs } from '../../cases.ts';
import { bestOf, everyOne, type Lists, type Tried } from './every-one.ts';
import { smallBook, type Wanted, wanted } from './small-books.ts';

/** Heights by 5 cm between the limits, and the limits; worked out here by another way, in whole millimetres. */
function heights({ lowest, room }: Wanted): readonly string[] {
  const [low, high] = [Math.round(lowest * 1000), Math.round((lowest + room) * 1000)];
  const between = Array.from({ length: 20 }, (_, i) => i * 50).filter((mm) => mm > low && mm < high);
  return [...new Set([low, ...between, high])].map((mm) => `${mm / 1000} m`);
}

function listsOf(by: Wanted, most: number): Lists {
  const counts = Array.from({ length: most }, (_, i) => String(i + 1));
  const all: Lists = [
    ['fixture', by.fixtures],
    ['along', counts],
    ['across', counts],
    ['turned', ['FALSE', 'TRUE']],
    ['height', heights(by)],
  ];
  return all.filter(([row]) => !by.lacks.includes(row));
}

/** Square lights turned are the same lights, and are not told twice. */
const distinct = (every: readonly Tried[]): readonly Tried[] =>
  every.filter(
    ({ cells }) => cells.turned !== 'TRUE' || !['tile', 'dot'].includes(cells.fixture ?? '') || !every.some((other) => isUnturned(other.cells, cells)),
  );

const isUnturned = (a: Tried['cells'], b: Tried['cells']): boolean =>
  a.turned === 'FALSE' && ['fixture', 'along', 'across', 'height'].every((row) => a[row] === b[row]);

const same = (cells: Readonly<Record<string, string>> | undefined, tried: Tried | undefined): void => {
  expect(cells && { ...cells, spread_along: undefined }).toEqual(tried && { ...tried.cells, spread_along: undefined });
};

it('are the best of all that there are, by every question, with and without what is passed over', () => {
  let [held, none] = [0, 0];
  fc.assert(
    fc.property(wanted, fc.constantFrom(2, 2, 2, 3), (by, most) => {
      const book = smallBook(by);
      const choices: Choices = { along: { low: 1, high: most }, across: { low: 1, high: most } };
      const every = everyOne(book, listsOf(by, most), by.supplies, by.fuses, { low: by.least, high: 100 });
      if (every.length > 0) held++;
      else none++;
      for (const all of [false, true]) {
        const searcher = Searcher.of(book, { ...choices, all });
        if (typeof searcher === 'string') throw new Error(searcher);
        const pieces = Array.from({ length: searcher.plan.pieces }, (_, i) => searcher.piece(i));
        const { best } = gathered(pieces);
        for (const aim of AIMS) same(best[aim] && searcher.cellsOf(best[aim]), bestOf(every, aim));
        if (all) {
          expect(gathered(pieces).counts.hold).toBe(distinct(every).length);
          searcher.close();
          continue;
        }
        const { proposals } = every.length > 0 ? finished(searcher, pieces) : { proposals: [] };
        for (const { aim, layout } of proposals) {
          const first = bestOf(every, aim) as Tried;
          if (aim === 'cheapest') expect(layout.annual).toBeLessThanOrEqual(first.annual);
          if (aim === 'most even') expect(layout.evenness).toBeGreaterThanOrEqual(first.evenness);
          if (aim === 'fewest lights') expect(layout.count).toBe(first.count);
        }
        searcher.close();
      }
    }),
    runs(500, 20_261),
  );
  if (process.env.SHOW) console.log({ held, none });
  // Neither kind is a rarity, or little would have been shown.
  expect(held).toBeGreaterThan(none / 2);
  expect(none).toBeGreaterThan(held / 20);
}, 1_800_000);
