import fc from 'fast-check';
import { expect, test } from 'vitest';
import { beamExponent } from '../../../functions/beam/beam-exponent.ts';
import { benchField, landingShare, ppfdAt } from '../../../functions/field/kernel.ts';
import { faces, type Layout } from '../../../functions/field/layout.ts';
import { fieldByQuadrature, integrate, ppfdByQuadrature } from './quadrature.ts';

/** What the kernel promises: a share of the value, or of NOTHING of the peak where the value is less than that. */
const PROMISED = 1e-6;
const NOTHING = 1e-12;

interface Case {
  readonly length: number;
  readonly width: number;
  readonly beam: number;
  readonly height: number;
  readonly bench: { readonly length: number; readonly width: number };
  /** Of fixture and point, as shares of the bench. */
  readonly at: readonly [number, number];
  readonly to: readonly [number, number];
  readonly turned: boolean;
}

const layoutOf = (c: Case): Layout => ({
  bench: c.bench,
  sides: 0,
  groups: [
    {
      kind: 'free',
      fixture: { ppf: 100, length: c.length, width: c.width, beam: c.beam },
      places: [{ x: c.at[0] * c.bench.length, y: c.at[1] * c.bench.width, turned: c.turned }],
    },
  ],
});

/** Error of one fixture at one point, as a share of what is promised to be kept to. */
function errorOf(c: Case): number {
  const layout = layoutOf(c);
  const [x, y] = [c.to[0] * c.bench.length, c.to[1] * c.bench.width];
  const emitter = { ppf: 100, m: beamExponent(c.beam) };
  const truth = fieldByQuadrature(faces(layout), emitter, c.height, x, y);
  const peak = ppfdByQuadrature({ ...emitter, length: c.length, width: c.width }, c.height, 0, 0);
  return Math.abs(ppfdAt(layout, c.height, x, y) - truth) / Math.max(truth, NOTHING * peak);
}

const share = fc.double({ min: 0, max: 1, noNaN: true });
const size = fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 4, arbitrary: fc.double({ min: 0.001, max: 3, noNaN: true }) });
/** Even in the logarithm, so that low heights are met as often as great ones. */
const between = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map((x) => Math.min(high, Math.max(low, Math.exp(x))));

const cases: fc.Arbitrary<Case> = fc.record({
  length: size,
  width: size,
  beam: fc.double({ min: 10, max: 170, noNaN: true }),
  height: between(0.02, 10),
  bench: fc.record({ length: between(0.2, 20), width: between(0.2, 20) }),
  at: fc.tuple(share, share),
  to: fc.tuple(share, share),
  turned: fc.boolean(),
});

test('one fixture at one point agrees with adaptive quadrature to 1e-6 in 2,000 random cases', () => {
  let worst = 0;
  fc.assert(
    fc.property(cases, (c) => {
      const error = errorOf(c);
      worst = Math.max(worst, error);
      return error <= PROMISED;
    }),
    { numRuns: 2000, seed: 20260 },
  );
  console.info(`kernel against quadrature, 2,000 cases: worst relative error ${worst.toExponential(2)}`);
}, 120_000);

const one = (length: number, width: number, beam: number, bench: Layout['bench'], x: number, y: number, sides = 0): Layout => ({
  bench,
  sides,
  groups: [{ kind: 'free', fixture: { ppf: 100, length, width, beam }, places: [{ x, y, turned: false }] }],
});

/** Name, layout, height, point. */
const hard: readonly (readonly [string, Layout, number, number, number])[] = [
  ['a height a hundredth of the length, under the middle', one(3, 0.06, 120, { length: 4, width: 1 }, 2, 0.5), 0.03, 2, 0.5],
  ['a height a hundredth of the length, beside the end', one(3, 0.06, 60, { length: 4, width: 1 }, 2, 0.5), 0.03, 3.6, 0.6],
  ['a height a hundredth of the length, a narrow beam', one(3, 0.06, 10, { length: 4, width: 1 }, 2, 0.5), 0.03, 3.505, 0.5],
  ['a point under an edge', one(1.2, 0.6, 120, { length: 2, width: 1 }, 1, 0.5), 0.02, 1.6, 0.4],
  ['a point under an edge, narrow beam', one(1.2, 0.6, 20, { length: 2, width: 1 }, 1, 0.5), 0.3, 1.6, 0.4],
  ['a point under a corner', one(1.2, 0.6, 170, { length: 2, width: 1 }, 1, 0.5), 0.02, 1.6, 0.8],
  ['a point under the end of a line', one(1.2, 0, 90, { length: 2, width: 1 }, 1, 0.5), 0.02, 1.6, 0.5],
  ['a fixture larger than the bench', one(3, 2, 120, { length: 1, width: 0.5 }, 0.5, 0.25), 0.2, 0.05, 0.05],
  ['a fixture larger than the bench, wide beam', one(3, 2, 165, { length: 1, width: 0.5 }, 0.5, 0.25), 0.05, 0.9, 0.1],
  ['a fixture 50 m away', one(1.2, 0.6, 120, { length: 3, width: 1 }, 51, 0.5), 0.5, 1, 0.5],
  ['a fixture 50 m away, wide beam, low', one(1.2, 0.06, 170, { length: 3, width: 1 }, 51, 0.5), 0.05, 1, 0.5],
  ['a point source 50 m away', one(0, 0, 150, { length: 3, width: 1 }, 51, 0.5), 0.5, 1, 0.5],
  ['the far end of a 20 m bench', one(0.45, 0.45, 110, { length: 20, width: 2 }, 0.5, 1), 0.5, 19.9, 0.1],
  ['the thinnest of faces', one(1.2, 1e-4, 100, { length: 2, width: 1 }, 1, 0.5), 0.1, 1.1, 0.55],
];

test.each(hard)('%s: within 1e-6', (_, layout, height, x, y) => {
  const fixture = layout.groups[0]?.fixture as Layout['groups'][number]['fixture'];
  const truth = fieldByQuadrature(faces(layout), { ppf: 100, m: beamExponent(fixture.beam) }, height, x, y);
  expect(truth).toBeGreaterThan(0);
  expect(Math.abs(ppfdAt(layout, height, x, y) / truth - 1)).toBeLessThanOrEqual(PROMISED);
});

/** Sum over mirror images, to where the weight is nothing: image i along x stands at i·L + (x or L − x). */
function withMirrors(layout: Layout, reach: number, from: (x: number, y: number) => number): number {
  const { bench, sides } = layout;
  let sum = 0;
  for (const face of faces(layout)) {
    for (let i = -reach; i <= reach; i++) {
      for (let j = -reach; j <= reach; j++) {
        const weight = sides ** (Math.abs(i) + Math.abs(j));
        if (weight < 1e-12) continue;
        sum +=
          weight * from(i * bench.length + (i % 2 === 0 ? face.x : bench.length - face.x), j * bench.width + (j % 2 === 0 ? face.y : bench.width - face.y));
      }
    }
  }
  return sum;
}

test('a point source between walls of 0.95 agrees with the sum over 500 images each way', () => {
  for (const beam of [120, 60, 160]) {
    const layout = one(0, 0, beam, { length: 1.5, width: 0.8 }, 0.4, 0.3, 0.95);
    const m = beamExponent(beam);
    const h = 0.4;
    const truth = withMirrors(layout, 500, (x, y) => ppfdByQuadrature({ ppf: 100, length: 0, width: 0, m }, h, 1.1 - x, 0.7 - y));
    expect(Math.abs(ppfdAt(layout, h, 1.1, 0.7) / truth - 1)).toBeLessThanOrEqual(PROMISED);
  }
});

test('a bar between walls of 0.5 agrees with quadrature over every image', () => {
  const layout = one(0.6, 0.06, 110, { length: 1.2, width: 0.6 }, 0.6, 0.2, 0.5);
  const emitter = { ppf: 100, length: 0.6, width: 0.06, m: beamExponent(110) };
  const truth = withMirrors(layout, 40, (x, y) => ppfdByQuadrature(emitter, 0.3, 0.1 - x, 0.5 - y, 1e-8, 1e-9));
  expect(Math.abs(ppfdAt(layout, 0.3, 0.1, 0.5) / truth - 1)).toBeLessThanOrEqual(PROMISED);
});

test('grids of regular layouts agree with quadrature point by point, turned, spread and joined', () => {
  const group = { fixture: { ppf: 243, length: 1.15, width: 0.06, beam: 120 }, along: 3, across: 2, spreadAlong: 1.1, spreadAcross: 1.25 };
  const layout: Layout = {
    bench: { length: 4.2, width: 1.5 },
    sides: 0,
    groups: [
      { kind: 'regular', turned: false, ...group },
      { kind: 'free', fixture: { ...group.fixture, beam: 120 }, places: [{ x: 0.6, y: 0.2, turned: true }] },
    ],
  };
  const field = benchField(layout, 0.35, 7, 5);
  for (const [i, e] of field.entries()) {
    const truth = fieldByQuadrature(faces(layout), { ppf: 243, m: 1 }, 0.35, (((i % 7) + 0.5) * 4.2) / 7, ((Math.floor(i / 7) + 0.5) * 1.5) / 5);
    expect(Math.abs(e / truth - 1)).toBeLessThanOrEqual(PROMISED);
  }
});

test('the landing share agrees with the integral of the quadrature over the bench', () => {
  const layouts: readonly [Layout, number][] = [
    [one(1.15, 0.06, 120, { length: 1.2, width: 0.6 }, 0.6, 0.3), 0.3],
    [one(0.5, 0.3, 60, { length: 1.2, width: 0.6 }, 0.3, 0.5), 0.6],
    [one(0.5, 0, 150, { length: 1.2, width: 0.6 }, 2.5, 0.5), 0.2],
    [one(0, 0, 25, { length: 1.2, width: 0.6 }, 0.2, 0.3), 1.5],
  ];
  for (const [layout, h] of layouts) {
    const fixture = layout.groups[0]?.fixture as Layout['groups'][number]['fixture'];
    const m = beamExponent(fixture.beam);
    const [face] = faces(layout);
    const at = (x: number, y: number) => ppfdByQuadrature({ ...fixture, m }, h, x - (face?.x ?? 0), y - (face?.y ?? 0), 1e-8, 1e-9);
    const truth = integrate((x) => integrate((y) => at(x, y), 0, layout.bench.width, 1e-8), 0, layout.bench.length, 1e-7) / 100;
    expect(Math.abs(landingShare(layout, h) / truth - 1)).toBeLessThanOrEqual(PROMISED);
  }
}, 120_000);
