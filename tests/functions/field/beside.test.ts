/** Rows alike beside a bench: their light against a quadrature of the tests' own, and every reader of light against the same rows added up one by one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { fixtureShares } from '../../../functions/field/fixture-shares.ts';
import { benchField, cellCentres, fieldAt, landingShare } from '../../../functions/field/kernel.ts';
import { fixtureLandings } from '../../../functions/field/landing.ts';
import { faces, type Layout, layoutPpf } from '../../../functions/field/layout.ts';
import { layoutInFeet } from '../../../functions/field/layout-shown.ts';
import { layoutText, parseLayout } from '../../../functions/field/layout-text.ts';
import { meanByHeight } from '../../../functions/field/mean-by-height.ts';
import { runs } from '../../cases.ts';
import { evaluate, stepsOf } from '../evaluate.ts';
import { ppfdByQuadrature } from './quadrature.ts';

/** A gutter of 0.2 × 12 m under one row of nine bars, which hang 1.40 m over it; gutters are 1.1 m from centre to centre. */
const GUTTER = 'LAYOUT(243,1.15,0.06,120,9,1,12,0.2)';
const beside = (before: number, after: number): string => `LAYOUT.BESIDE(${GUTTER},1.1,${before},${after})`;
const number = (formula: string): number => {
  const value = evaluate(formula);
  if (typeof value !== 'number') throw new Error(`${formula}: ${isRefusal(value) ? value.message : value}`);
  return value;
};

/** Mean and lowest of 24 × 12 points of the gutter, from the bars of gutters so many places to the side, each by quadrature. */
function byQuadrature(places: readonly number[]): { readonly mean: number; readonly low: number } {
  const bar = { ppf: 243, length: 1.15, width: 0.06, m: 1 };
  // All like distances are one: twelve bars' ends and the symmetry of a bar leave few of them.
  const known = new Map<string, number>();
  const light = (dx: number, dy: number): number => {
    const key = `${Math.abs(dx).toFixed(9)} ${Math.abs(dy).toFixed(9)}`;
    const found = known.get(key) ?? ppfdByQuadrature(bar, 1.4, dx, dy, 1e-7, 1e-8);
    known.set(key, found);
    return found;
  };
  const points: number[] = [];
  for (let i = 0; i < 24; i++) {
    for (let j = 0; j < 12; j++) {
      let sum = 0;
      for (const place of places) for (let n = 0; n < 9; n++) sum += light((i + 0.5) / 2 - ((n + 0.5) * 12) / 9, ((j + 0.5) * 0.2) / 12 - 0.1 - 1.1 * place);
      points.push(sum);
    }
  }
  return { mean: points.reduce((sum, e) => sum + e, 0) / points.length, low: Math.min(...points) };
}

test('of three gutters the middle one gets nearly twice the light of a gutter alone, the one at the end less', () => {
  // Worked out outside the project, light that comes from the rows beside: 60.264 alone, 117.8 in the middle.
  const mean = (before: number, after: number): number => number(`BENCH.MEAN(${beside(before, after)},1.4,24,12)`);
  expect(mean(0, 0)).toBeCloseTo(60.264, 3);
  expect(Math.abs(mean(1, 1) - 117.8)).toBeLessThan(0.05);
  expect(Math.abs(mean(1, 1) / mean(0, 0) - 1.955)).toBeLessThan(0.0005);
  for (const [before, after] of [
    [0, 0],
    [1, 1],
    [0, 2],
    [2, 0],
    [0, 1],
  ] as const) {
    const truth = byQuadrature(Array.from({ length: 1 + before + after }, (_, i) => i - before));
    expect(mean(before, after) / truth.mean, `${before} and ${after}`).toBeCloseTo(1, 6);
    expect(number(`BENCH.LOW(${beside(before, after)},1.4,24,12)`) / truth.low, `${before} and ${after}`).toBeCloseTo(1, 6);
  }
  expect(mean(0, 2)).toBeLessThan(mean(1, 1));
  expect(number(`NEIGHBOUR.SPILL(${GUTTER},1.4,0.9)`)).toBeCloseTo(number(`BENCH.MEAN(${beside(1, 1)},1.4)`) / number(`BENCH.MEAN(${GUTTER},1.4)`) - 1, 6);
});

const share = fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000);
const layouts: fc.Arbitrary<Layout> = fc
  .record({
    bench: fc.record({ length: share.map((s) => 0.5 + 4 * s), width: share.map((s) => 0.5 + s) }),
    beam: fc.constantFrom(60, 100, 120, 150),
    along: fc.integer({ min: 1, max: 3 }),
    across: fc.integer({ min: 1, max: 3 }),
    // Wide enough for lights over the aisle, that of the next bench among them.
    spreadAcross: share.map((s) => 0.5 + 1.5 * s),
    extra: fc.option(fc.tuple(share, share), { nil: undefined }),
    aisle: share,
    before: fc.integer({ min: 0, max: 3 }),
    after: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ bench, beam, along, across, spreadAcross, extra, aisle, before, after }) => {
    const fixture = { ppf: 200, length: 0.1, width: 0.02, beam };
    return {
      bench,
      sides: 0,
      beside: before + after > 0 ? { apart: Number((bench.width + aisle).toPrecision(12)), before, after } : undefined,
      groups: [
        { kind: 'regular' as const, fixture, along, across, turned: false, spreadAlong: 1, spreadAcross },
        // Points have no extent with which they could touch a bar.
        ...(extra
          ? [
              {
                kind: 'free' as const,
                fixture: { ...fixture, ppf: 44, length: 0, width: 0 },
                places: [{ x: extra[0] * bench.length, y: extra[1] * bench.width, turned: false }],
              },
            ]
          : []),
      ],
    };
  });

test('field, mean by height, landing and the share of each fixture are those of the same bench at points a row and a row further away', () => {
  fc.assert(
    fc.property(layouts, share, (layout, s) => {
      const [height, nx, ny] = [0.2 + s, 6, 5];
      const alone = { ...layout, beside: undefined };
      const { apart, before, after } = layout.beside ?? { apart: 1, before: 0, after: 0 };
      const [xs, ys] = [cellCentres(nx, layout.bench.length), cellCentres(ny, layout.bench.width)];
      const sum = new Float64Array(nx * ny);
      for (let k = -before; k <= after; k++) {
        const from = fieldAt(
          alone,
          height,
          xs,
          ys.map((y) => y - k * apart),
        );
        for (const [i, e] of from.entries()) sum[i] = (sum[i] as number) + e;
      }
      const field = benchField(layout, height, nx, ny);
      for (const [i, e] of sum.entries()) expect(Math.abs((field[i] as number) / e - 1)).toBeLessThan(2e-6);
      const mean = field.reduce((total, e) => total + e, 0) / field.length;
      expect(Math.abs(meanByHeight(layout, 0.1, 2, nx, ny)(height) / mean - 1)).toBeLessThan(2e-6);
      const shares = fixtureShares(layout, height, xs[1] as number, ys[1] as number);
      expect(shares.map(({ face }) => face)).toEqual(faces(layout));
      expect(Math.abs(shares.reduce((total, { ppfd }) => total + ppfd, 0) / (field[nx + 1] as number) - 1)).toBeLessThan(2e-6);
      for (const { face, ppf, m, ppfd } of shares) {
        const truth = ppfdByQuadrature(
          { ppf, m, length: face.length, width: face.width },
          height,
          (xs[1] as number) - face.x,
          (ys[1] as number) - face.y,
          1e-7,
          1e-8,
        );
        expect(Math.abs(ppfd / truth - 1)).toBeLessThan(2e-6);
      }
      const landings = fixtureLandings(layout, height);
      expect(landings).toHaveLength(shares.length);
      expect(landings.reduce((total, e) => total + e, 0) / layoutPpf(alone) / landingShare(layout, height)).toBeCloseTo(1, 9);
      expect(layoutPpf(layout)).toBe(layoutPpf(alone));
    }),
    runs(150, 1912),
  );
});

test('a layout with rows beside it comes back from its text, and is seen in feet', () => {
  fc.assert(
    fc.property(layouts, (layout) => {
      const back = parseLayout(layoutText(layout));
      // Lights may meet those of the next bench; that is refused, and not what is asked here.
      if (!isRefusal(back)) expect(layoutText(back)).toBe(layoutText(layout));
      else expect(back.message).toMatch(/overlap|at one place/);
    }),
    runs(300, 5),
  );
  expect(parseLayout(String(evaluate(beside(2, 1))))).toMatchObject({ beside: { apart: 1.1, before: 2, after: 1 } });
  expect(evaluate(`LAYOUT.BESIDE(${beside(2, 1)},1.1,0,0)`)).toBe(evaluate(GUTTER));
  expect(layoutInFeet(String(evaluate(beside(2, 1))))).toMatch(/, beside 2 and 1 at 3′.7.1\/4″$/u);
});

test('counts and output are those of one row, and the working says what is counted', () => {
  expect(number(`LAYOUT.COUNT(${beside(3, 4)})`)).toBe(9);
  expect(number(`LAYOUT.PPF(${beside(3, 4)})`)).toBe(9 * 243);
  const steps = JSON.stringify(stepsOf(`BENCH.MEAN(${beside(3, 4)},1.4)`));
  expect(steps).toContain('Rows alike beside it, 1.1 m from centre to centre, are counted: 3 on one side, 4 on the other.');
});

test('the height for a mean is the one at which the rows together give it', () => {
  const layout = beside(2, 2);
  const height = number(`MOUNT.HEIGHT(${layout},90)`);
  expect(number(`BENCH.MEAN(${layout},${height})`)).toBeCloseTo(90, 6);
  expect(height).toBeGreaterThan(number(`MOUNT.HEIGHT(${GUTTER},90)`));
});

test('a fixture that gives too little is found among those of all rows that are counted', () => {
  const layout = parseLayout(String(evaluate(beside(1, 1))));
  if (isRefusal(layout)) throw new Error(layout.message);
  // The seventh of the middle row gives half; gutters before it have nine each.
  const weak = 9 + 7;
  const readings = Array.from({ length: 2 }, (_, j) =>
    Array.from({ length: 24 }, (_, i) =>
      fixtureShares(layout, 0.6, (i + 0.5) / 2, (j + 0.5) / 10).reduce((sum, { ppfd }, n) => sum + (n === weak - 1 ? 0.5 : 1) * ppfd, 0),
    ),
  );
  const cells = `{${readings.map((row) => row.map((e) => e.toFixed(6)).join(',')).join(';')}}`;
  expect(number(`METER.WEAK(${cells},${beside(1, 1)},0.6)`)).toBe(weak);
  expect(number(`METER.WEAK(${cells},${beside(1, 1)},0.6,"share")`)).toBeCloseTo(0.5, 4);
});

const refused: readonly (readonly [string, string, RegExp])[] = [
  ['rows that lie over one another', `LAYOUT.BESIDE(${GUTTER},0.15,1,1)`, /rows 0\.15 m from centre to centre lie over one another; each is 0\.2 m wide/],
  ['lights that run into those of the next row', 'LAYOUT.BESIDE(LAYOUT(100,0.5,0.5,120,1,2,1,1,FALSE,1,2),1,0,1)', /two faces overlap/],
  ['reflecting sides between the rows', 'LAYOUT.BESIDE(LAYOUT(100,0.5,0.1,120,1,1,1,1,FALSE,1,1,0.5),1.5,1,1)', /reflecting sides shut/],
  ['rows too far away', `LAYOUT.BESIDE(${GUTTER},50,5,0)`, /the farthest row is 5 on, 250 m away/],
  ['more lights than can be reckoned', 'LAYOUT.BESIDE(LAYOUT(100,0,0,120,20,20,4,1),1,5,5)', /4400 fixtures; the most is 4000/],
  ['half a row', `LAYOUT.BESIDE(${GUTTER},1.1,0.5,1)`, /before/],
  ['a join of other rows', `LAYOUT.JOIN(${GUTTER},${beside(1, 1)})`, /the same rows beside them/],
  ['what neighbours add to what has them', `NEIGHBOUR.SPILL(${beside(1, 1)},1.4,0.9)`, /has rows beside it already/],
];

test.each(refused)('%s: refused, and the refusal says why', (_, formula, words) => {
  const value = evaluate(formula);
  expect(isRefusal(value) ? value.message : value).toMatch(words);
});
