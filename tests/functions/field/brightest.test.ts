/** The brightest point of a bench against a search of the test's own, over a field by quadrature. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { runs } from '../../cases.ts';
import { evaluate } from '../evaluate.ts';
import { ppfdByQuadrature } from './quadrature.ts';

test('a puck at 6 cm is as bright right under it as the inverse-square law says, however the grid lies', () => {
  // m = ln ½ / ln cos 30° = 4.8188; 44 · (m + 1) / (2π · 0.06²) = 11,319; the grid alone gave 2,589 to 7,095.
  const m = Math.log(0.5) / Math.log(Math.cos(Math.PI / 6));
  const peak = (44 * (m + 1)) / (2 * Math.PI * 0.06 ** 2);
  expect(peak).toBeCloseTo(11319, -0.5);
  for (const grid of ['', ',8,8', ',9,9', ',10,7', ',3,2', ',1,1'])
    for (const bench of ['0.8,0.8', '1.2,0.6', '0.87,0.53'])
      expect((evaluate(`BENCH.BRIGHTEST(LAYOUT(44,0,0,60,1,1,${bench}),0.06${grid})`) as number) / peak, `${bench} ${grid}`).toBeCloseTo(1, 4);
});

interface Case {
  readonly along: number;
  readonly across: number;
  readonly length: number;
  readonly width: number;
  readonly bar: number;
  readonly beam: number;
  readonly height: number;
  readonly spread: number;
}
const share = fc.integer({ min: 0, max: 1e6 }).map((n) => n / 1e6);
const between = (low: number, high: number) => share.map((x) => Number((low + (high - low) * x).toPrecision(6)));

const cases: fc.Arbitrary<Case> = fc.record({
  along: fc.integer({ min: 1, max: 3 }),
  across: fc.integer({ min: 1, max: 3 }),
  length: between(0.5, 2.5),
  width: between(0.3, 1.2),
  bar: fc.constantFrom(0, 0, 0.8),
  beam: between(20, 150),
  height: share.map((x) => Number((0.05 * 16 ** x).toPrecision(6))),
  spread: between(0.6, 1.3),
});

/** The greatest of a grid of 41 × 41, then the best neighbour in ever smaller steps from each of its five best. */
function greatest(of: (x: number, y: number) => number, length: number, width: number): number {
  const POINTS = 41;
  const seen = Array.from({ length: POINTS * POINTS }, (_, i) => {
    const [x, y] = [((i % POINTS) * length) / (POINTS - 1), (Math.floor(i / POINTS) * width) / (POINTS - 1)];
    return { x, y, e: of(x, y) };
  }).sort((a, b) => b.e - a.e);
  let most = 0;
  for (let { x, y, e } of seen.slice(0, 5)) {
    for (let step = Math.max(length, width) / (POINTS - 1); step > 1e-5; ) {
      const next = [
        [x - step, y],
        [x + step, y],
        [x, y - step],
        [x, y + step],
      ].map(([u = 0, v = 0]) => {
        const [px, py] = [Math.min(length, Math.max(0, u)), Math.min(width, Math.max(0, v))];
        return { x: px, y: py, e: of(px, py) };
      });
      const better = next.reduce((a, b) => (b.e > a.e ? b : a));
      if (better.e > e) ({ x, y, e } = better);
      else step /= 2;
    }
    most = Math.max(most, e);
  }
  return most;
}

test('no point of a bench is brighter than what is given for its brightest, and one is as bright', () => {
  fc.assert(
    fc.property(cases, (c) => {
      const bar = Math.min(c.bar, (0.95 * c.spread * c.length) / c.along);
      const m = Math.log(0.5) / Math.log(Math.cos((c.beam * Math.PI) / 360));
      const centre = (i: number, n: number, size: number): number => size / 2 + c.spread * ((i + 0.5) / n - 0.5) * size;
      const light = (x: number, y: number): number => {
        let sum = 0;
        for (let i = 0; i < c.along; i++)
          for (let j = 0; j < c.across; j++)
            sum += ppfdByQuadrature(
              { ppf: 100, length: bar, width: 0, m },
              c.height,
              x - centre(i, c.along, c.length),
              y - centre(j, c.across, c.width),
              1e-5,
              1e-6,
            );
        return sum;
      };
      const text = `LAYOUT(100,${bar},0,${c.beam},${c.along},${c.across},${c.length},${c.width},FALSE,${c.spread},${c.spread})`;
      const found = evaluate(`BENCH.BRIGHTEST(${text},${c.height})`);
      expect(Math.abs((found as number) / greatest(light, c.length, c.width) - 1)).toBeLessThan(1e-3);
    }),
    runs(120, 7_007),
  );
});
