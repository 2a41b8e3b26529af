import fc from 'fast-check';
import { expect, test } from 'vitest';
import { beamExponent } from '../../../functions/field/beam-exponent.ts';
import { benchField, landingShare, ppfdAt } from '../../../functions/field/kernel.ts';
import { faces, type Layout } from '../../../functions/field/layout.ts';
import { runs } from '../../cases.ts';
import { imageAt, mirrorSum } from './mirror-sum.ts';
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

/** Even from 0 to 1: `fc.double` draws nearly all of its values next to zero. */
const share = fc.integer({ min: 0, max: 1e6 }).map((n) => n / 1e6);
/** Even in the logarithm, so that low heights are met as often as great ones. */
const between = (low: number, high: number) => share.map((x) => Math.min(high, Math.max(low, low * (high / low) ** x)));

const size = fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 4, arbitrary: between(0.001, 3) });

const cases: fc.Arbitrary<Case> = fc.record({
  length: size,
  width: size,
  beam: between(10, 170),
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
    runs(2000, 20260),
  );
  console.info(`kernel against quadrature, 2,000 cases: worst relative error ${worst.toExponential(2)}`);
});

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

/** PPFD at a point of the bench by quadrature over the one face and each of its mirror images. */
function betweenMirrors(layout: Layout, h: number, x: number, y: number): number {
  const { bench, sides } = layout;
  const [face] = faces(layout);
  const fixture = layout.groups[0]?.fixture as Layout['groups'][number]['fixture'];
  if (!face) throw new Error('no face');
  const m = beamExponent(fixture.beam);
  const emitter = { ppf: fixture.ppf, length: face.length, width: face.width, m };
  const from = (i: number, j: number): number =>
    ppfdByQuadrature(emitter, h, x - imageAt(face.x, i, bench.length), y - imageAt(face.y, j, bench.width), 1e-8, 1e-9);
  const most = (d: number): number => ppfdByQuadrature({ ...emitter, length: 0, width: 0 }, h, d, 0);
  return mirrorSum(bench, sides, from, most);
}

/** Name, layout, height, point. */
const mirrored: readonly (readonly [string, Layout, number, number, number])[] = [
  ['a point source', one(0, 0, 120, { length: 1.5, width: 0.8 }, 0.4, 0.3, 0.95), 0.4, 1.1, 0.7],
  ['a point source, narrow beam', one(0, 0, 60, { length: 1.5, width: 0.8 }, 0.4, 0.3, 0.95), 0.4, 1.1, 0.7],
  ['a point source, wide beam', one(0, 0, 160, { length: 1.5, width: 0.8 }, 0.4, 0.3, 0.95), 0.4, 1.1, 0.7],
  ['a bar', one(0.6, 0.06, 110, { length: 1.2, width: 0.6 }, 0.6, 0.2, 0.95), 0.3, 0.1, 0.5],
  ['a bar as long as the bench', one(1.15, 0.06, 120, { length: 1.15, width: 0.45 }, 0.575, 0.1, 0.95), 0.25, 0.025, 0.425],
  ['a line, its end at the mirror', one(0.5, 0, 90, { length: 1.2, width: 0.6 }, 0.25, 0.3, 0.95), 0.2, 1.19, 0.01],
  ['a face over the whole bench', one(0.6, 0.4, 120, { length: 0.6, width: 0.4 }, 0.3, 0.2, 0.95), 0.15, 0.01, 0.01],
  ['a face in the corner, seen from the other one', one(0.3, 0.2, 60, { length: 1, width: 0.7 }, 0.15, 0.1, 0.95), 0.3, 0.99, 0.69],
  ['twice as high as the bench is long', one(0.3, 0.1, 120, { length: 0.6, width: 0.4 }, 0.2, 0.15, 0.95), 1.2, 0.5, 0.05],
  ['a narrow beam, high over a small bench', one(0.1, 0.1, 15, { length: 0.6, width: 0.4 }, 0.2, 0.15, 0.95), 1.2, 0.55, 0.35],
  ['a wide beam, low over a long bench', one(1, 0.06, 165, { length: 4, width: 0.6 }, 0.6, 0.3, 0.95), 0.1, 3.9, 0.02],
  ['a bar between sides of 0.5', one(0.6, 0.06, 110, { length: 1.2, width: 0.6 }, 0.6, 0.2, 0.5), 0.3, 0.1, 0.5],
];

test.each(mirrored)(
  'between mirrors, %s: within 1e-6 of quadrature over every image that counts',
  (_, layout, height, x, y) => {
    const error = Math.abs(ppfdAt(layout, height, x, y) / betweenMirrors(layout, height, x, y) - 1);
    expect(error).toBeLessThanOrEqual(PROMISED);
  },
  120_000,
);

test('between mirrors, 20 random benches, fixtures and points: within 1e-6', () => {
  let worst = 0;
  const drawn = fc.record({
    bench: fc.record({ length: between(0.4, 1.5), width: between(0.4, 1.5) }),
    face: fc.tuple(share, share),
    at: fc.tuple(share, share),
    to: fc.tuple(share, share),
    beam: between(20, 160),
    height: between(0.1, 1),
    sides: share.map((s) => 0.95 * s),
  });
  fc.assert(
    fc.property(drawn, ({ bench, face, at, to, beam, height, sides }) => {
      const [length, width] = [face[0] * bench.length, face[1] * bench.width];
      const place = (share: number, size: number, room: number): number => size / 2 + share * (room - size);
      const layout = one(length, width, beam, bench, place(at[0], length, bench.length), place(at[1], width, bench.width), sides);
      const [x, y] = [to[0] * bench.length, to[1] * bench.width];
      const error = Math.abs(ppfdAt(layout, height, x, y) / betweenMirrors(layout, height, x, y) - 1);
      worst = Math.max(worst, error);
      return error <= PROMISED;
    }),
    runs(20, 95),
  );
  console.info(`kernel against quadrature between mirrors, 20 random cases: worst relative error ${worst.toExponential(2)}`);
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
});
