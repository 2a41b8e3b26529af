import fc from 'fast-check';
import { expect, test } from 'vitest';
import { benchField, defaultGrid, landingShare, ppfdAt } from '../../../functions/field/kernel.ts';
import { type Layout, layoutPpf } from '../../../functions/field/layout.ts';
import { meanByHeight } from '../../../functions/field/mean-by-height.ts';
import { runs } from '../../cases.ts';
import { evaluate } from '../evaluate.ts';

/** The kernel's own promise; most of these laws hold far better. */
const PROMISED = 1e-6;

interface Drawn {
  readonly layout: Layout;
  readonly height: number;
}

/** Faces that hang over the bench and touch nothing. */
const drawn: fc.Arbitrary<Drawn> = fc
  .record({
    length: fc.double({ min: 0.5, max: 8, noNaN: true }),
    width: fc.double({ min: 0.3, max: 3, noNaN: true }),
    along: fc.integer({ min: 1, max: 5 }),
    across: fc.integer({ min: 1, max: 5 }),
    fill: fc.tuple(fc.double({ min: 0, max: 0.9, noNaN: true }), fc.double({ min: 0, max: 0.9, noNaN: true })),
    beam: fc.double({ min: 10, max: 170, noNaN: true }),
    height: fc.double({ min: 0.1, max: 2, noNaN: true }),
    sides: fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 0.8, noNaN: true })),
  })
  .map(({ length, width, along, across, fill, beam, height, sides }) => ({
    layout: {
      bench: { length, width },
      sides,
      groups: [
        {
          kind: 'regular',
          fixture: { ppf: 100, length: (fill[0] * length) / along, width: (fill[1] * width) / across, beam },
          along,
          across,
          turned: false,
          spreadAlong: 1,
          spreadAcross: 1,
        },
      ],
    },
    height,
  }));

const RUNS = runs(100, 4);
const close = (a: number, b: number, within: number): boolean => Math.abs(a - b) <= within * Math.max(Math.abs(a), Math.abs(b));

const scaled = ({ bench, sides, groups }: Layout, c: number): Layout => ({
  bench: { length: c * bench.length, width: c * bench.width },
  sides,
  groups: groups.map((g) => ({ ...g, fixture: { ...g.fixture, length: c * g.fixture.length, width: c * g.fixture.width } })),
});

test('every length times c gives the light over c²', () => {
  fc.assert(
    fc.property(drawn, fc.double({ min: 0.2, max: 5, noNaN: true }), ({ layout, height }, c) => {
      const [before, after] = [benchField(layout, height, 6, 5), benchField(scaled(layout, c), c * height, 6, 5)];
      return before.every((e, i) => close(e, (after[i] as number) * c * c, PROMISED) || e < 1e-10);
    }),
    RUNS,
  );
});

test('the field of a regular layout is symmetric along and across, point by point', () => {
  fc.assert(
    fc.property(drawn, fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), ({ layout, height }, u, v) => {
      const { length, width } = layout.bench;
      const e = ppfdAt(layout, height, u * length, v * width);
      return close(e, ppfdAt(layout, height, length - u * length, v * width), 1e-9) && close(e, ppfdAt(layout, height, u * length, width - v * width), 1e-9);
    }),
    RUNS,
  );
});

test('the folded quarter of a grid says the same as its points one by one', () => {
  fc.assert(
    fc.property(drawn, fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }), ({ layout, height }, nx, ny) => {
      const { length, width } = layout.bench;
      return benchField(layout, height, nx, ny).every((e, i) =>
        close(e, ppfdAt(layout, height, (((i % nx) + 0.5) * length) / nx, ((Math.floor(i / nx) + 0.5) * width) / ny), 1e-9),
      );
    }),
    RUNS,
  );
});

test('light is linear in output, and a join is the sum of its parts', () => {
  fc.assert(
    fc.property(drawn, drawn, fc.double({ min: 0.1, max: 10, noNaN: true }), (a, b, factor) => {
      const other: Layout = { ...b.layout, bench: a.layout.bench, sides: a.layout.sides };
      const joined: Layout = {
        ...a.layout,
        groups: [...a.layout.groups, ...other.groups.map((g) => ({ ...g, fixture: { ...g.fixture, ppf: factor * 100 } }))],
      };
      const [x, y] = [a.layout.bench.length / 3, a.layout.bench.width / 4];
      return close(ppfdAt(joined, a.height, x, y), ppfdAt(a.layout, a.height, x, y) + factor * ppfdAt(other, a.height, x, y), 1e-12);
    }),
    RUNS,
  );
});

test('a regular layout and the same fixtures put one by one give the same light and land the same share of it', () => {
  fc.assert(
    fc.property(drawn, ({ layout, height }) => {
      const group = layout.groups[0];
      if (group?.kind !== 'regular') return false;
      const { along, across, fixture } = group;
      const { length, width } = layout.bench;
      const places = Array.from({ length: along * across }, (_, n) => ({
        x: (((n % along) + 0.5) * length) / along,
        y: ((Math.floor(n / along) + 0.5) * width) / across,
        turned: false,
      }));
      const free: Layout = { ...layout, groups: [{ kind: 'free', fixture, places }] };
      const [a, b] = [benchField(layout, height, 5, 4), benchField(free, height, 5, 4)];
      return a.every((e, i) => close(e, b[i] as number, PROMISED) || e < 1e-10) && close(landingShare(layout, height), landingShare(free, height), PROMISED);
    }),
    RUNS,
  );
});

test('one fixture over a plane of 50 heights each way lands all its photons, but for the tail beyond', () => {
  for (const [beam, tail] of [
    [120, 5e-4],
    [90, 1e-4],
    [40, PROMISED],
  ] as const) {
    const layout: Layout = {
      bench: { length: 50, width: 50 },
      sides: 0,
      groups: [{ kind: 'free', fixture: { ppf: 100, length: 0.2, width: 0.1, beam }, places: [{ x: 25, y: 25, turned: false }] }],
    };
    const share = landingShare(layout, 0.5);
    expect(share).toBeLessThanOrEqual(1 + PROMISED);
    expect(1 - share).toBeLessThanOrEqual(tail);
    // The same by summing a grid, four cells to a height so that it sees the peak.
    const field = benchField(layout, 2, 100, 100);
    expect((field.reduce((sum, e) => sum + e, 0) * 0.25) / 100).toBeCloseTo(landingShare(layout, 2), 5);
  }
});

test('the mean over the bench falls as height rises where every face hangs over it', () => {
  fc.assert(
    fc.property(drawn, fc.double({ min: 1.01, max: 2, noNaN: true }), ({ layout, height }, factor) => {
      return landingShare(layout, factor * height) <= landingShare(layout, height) * (1 + PROMISED);
    }),
    RUNS,
  );
});

test('the mean as a function of height is the mean of the grid', () => {
  fc.assert(
    fc.property(drawn, ({ layout, height }) => {
      const grid = defaultGrid(layout);
      const field = benchField(layout, height, ...grid);
      const mean = field.reduce((sum, e) => sum + e, 0) / field.length;
      return close(meanByHeight(layout, 0.05, 10, ...grid)(height), mean, PROMISED);
    }),
    RUNS,
  );
});

test('as the sides reflect all, everything lands: the mean tends to output over area', () => {
  const layout = (sides: number): Layout => ({
    bench: { length: 1.2, width: 0.6 },
    sides,
    groups: [{ kind: 'free', fixture: { ppf: 100, length: 0.3, width: 0.1, beam: 120 }, places: [{ x: 0.3, y: 0.2, turned: false }] }],
  });
  // What is lost is in proportion to what each reflection takes.
  for (const lost of [0.1, 0.01, 0.001]) expect(Math.abs((1 - landingShare(layout(1 - lost), 0.5)) / lost - 1.2)).toBeLessThan(0.2);
  const even = layoutPpf(layout(0.999)) / (1.2 * 0.6);
  const field = benchField(layout(0.999), 0.5, 12, 6);
  expect(field.reduce((sum, e) => sum + e, 0) / field.length / even).toBeCloseTo(1, 2);
});

test('evenness away from the edges says which length leaves no point, and the one it offers is taken', () => {
  // Cells of 0.1 m on a bench 1.2 m wide: the middle ones lie 0.55 m from an edge.
  const inside = (margin: string) => evaluate(`BENCH.UNIFORMITY.INSIDE(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.7${margin},24,12)`);
  for (const margin of [',0.7', ','])
    expect(inside(margin)).toMatchObject({ message: expect.stringMatching(/second length in the formula.* after the mount height.* of 0\.55 m or less/) });
  expect(inside(',0.55')).toBeGreaterThan(0);
});
