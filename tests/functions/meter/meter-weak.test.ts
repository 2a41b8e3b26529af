/** One fixture that gives too little is found in readings that have nothing of the product's field: quadrature over each face, and noise of the test's own. */
import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { cases } from '../../cases.ts';
import { evaluate, record } from '../evaluate.ts';
import { ppfdByQuadrature } from '../field/quadrature.ts';

/** D. H. Lehmer's multiplier in the form of S. K. Park and K. W. Miller, Communications of the ACM 31(10), 1988: 16807, modulo 2³¹ − 1. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

interface Bench {
  readonly text: string;
  readonly height: number;
  readonly count: number;
  readonly along: number;
  readonly across: number;
  /** At each point that is read, what each fixture gives there. */
  readonly shares: readonly (readonly number[])[];
  readonly columns: number;
}

/** Fixtures at least a mount height apart from centre to centre, and two readings for each. */
function benchOf(next: () => number): Bench {
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  let [along, across] = [1, 1];
  while (along * across < 2) [along, across] = [whole(1, 5), whole(1, 4)];
  const height = 0.2 + 0.6 * next();
  const [apartX, apartY] = [height * (1 + 0.8 * next()), height * (1 + 0.8 * next())];
  const beam = 60 + Math.round(70 * next());
  const bar = next() < 0.5 ? 0.9 * apartX : 0;
  const twoAlong = next() < 0.5;
  const [columns, rows] = twoAlong ? [2 * along, across] : [along, 2 * across];
  const [length, width] = [along * apartX, across * apartY];
  const face = { ppf: 100, length: bar, width: 0, m: Math.log(0.5) / Math.log(Math.cos((beam * Math.PI) / 360)) };
  const shares = Array.from({ length: columns * rows }, (_, i) => {
    const [x, y] = [(((i % columns) + 0.5) * length) / columns, ((Math.floor(i / columns) + 0.5) * width) / rows];
    return Array.from({ length: along * across }, (_f, k) =>
      ppfdByQuadrature(face, height, x - ((k % along) + 0.5) * apartX, y - (Math.floor(k / along) + 0.5) * apartY, 1e-6, 1e-8),
    );
  });
  const text = String(evaluate(`LAYOUT(100,${bar},0,${beam},${along},${across},${length},${width})`));
  return { text, height, count: along * across, along, across, shares, columns };
}

/** What a meter shows of these outputs: 5 % of noise at each point (a sum of twelve even draws, near enough normal), and a factor that is the same for all. */
function read({ shares, columns }: Bench, outputs: readonly number[], next: () => number): number[][] {
  const factor = 0.7 + 0.4 * next();
  const seen = shares.map((of) => {
    const noise = Array.from({ length: 12 }, next).reduce((sum, x) => sum + x, -6);
    return factor * of.reduce((sum, e, k) => sum + e * (outputs[k] as number), 0) * (1 + 0.05 * noise);
  });
  return Array.from({ length: seen.length / columns }, (_, r) => seen.slice(r * columns, (r + 1) * columns));
}

const ask = (readings: number[][], { text, height }: Bench, what: string): unknown =>
  record('METER.WEAK').work([readings, text, height, what] as never, undefined);
const N = cases(200);

test('one fixture at half its output or less is named in 95 of 100 benches, and its share is near what it gives', () => {
  const next = random(90_210);
  let [named, near] = [0, 0];
  const missed: string[] = [];
  for (let n = 0; n < N; n++) {
    const bench = benchOf(next);
    const weak = Math.floor(next() * bench.count);
    const output = 0.5 * next();
    const readings = read(
      bench,
      Array.from({ length: bench.count }, (_, k) => (k === weak ? output : 1)),
      next,
    );
    const found = ask(readings, bench, 'fixture');
    if (found === weak + 1) {
      named++;
      if (Math.abs((ask(readings, bench, 'share') as number) - output) < 0.2) near++;
    } else missed.push(`${bench.along}×${bench.across} ${bench.height.toFixed(2)} ${output.toFixed(2)} ${weak + 1} ${found}`);
  }
  expect(named / N, missed.join('; ')).toBeGreaterThanOrEqual(0.95);
  expect(near / named).toBeGreaterThanOrEqual(0.95);
});

test('no fixture is named in 95 of 100 benches that are sound, with 5 % of noise', () => {
  const next = random(8_675_309);
  let none = 0;
  for (let n = 0; n < N; n++) {
    const bench = benchOf(next);
    if (
      ask(
        read(
          bench,
          Array.from({ length: bench.count }, () => 1),
          next,
        ),
        bench,
        'fixture',
      ) === 0
    )
      none++;
  }
  expect(none / N).toBeGreaterThanOrEqual(0.95);
});

/** Four pucks in a row, read right under each and half-way: by the law of a point source, E = I cosᵐ⁺³θ / h² with m = 1. */
const ROW = 'LAYOUT(100,0,0,120,4,1,4,0.4)';
const readAlong = (outputs: readonly number[]): number[][] => [
  Array.from({ length: 8 }, (_, i) => outputs.reduce((sum, f, k) => sum + (100 * f * 0.5 ** 2) / Math.PI / ((i / 2 + 0.25 - (k + 0.5)) ** 2 + 0.25) ** 2, 0)),
];
const given = (readings: (number | null)[][], what: string): unknown =>
  record('METER.WEAK').work([readings, String(evaluate(ROW)), 0.5, what] as never, undefined);

test('without noise its share of what the others give is the one that was drawn, and nothing is left of the miss', () => {
  const readings = readAlong([0.9, 0.9, 0.27, 0.9]);
  expect(given(readings, 'fixture')).toBe(3);
  expect(given(readings, 'share')).toBeCloseTo(0.3, 6);
  expect(given(readings, 'miss')).toBeCloseTo(0, 6);
  const [row = []] = readings;
  expect(given([row.map((r, i) => (i === 4 ? null : r))], 'share'), 'a point that was not read').toBeCloseTo(0.3, 6);
});

test('a fixture that gives nine tenths of the others is within what fixtures of one make differ by', () => {
  expect(given(readAlong([1, 0.9, 1, 1]), 'fixture')).toBe(0);
  const none = given(readAlong([1, 0.9, 1, 1]), 'share');
  expect(isRefusal(none) && none.message).toContain('no fixture stands out');
});

test('one that gives more than the others is not taken for a weak one', () => expect(given(readAlong([1, 1, 1, 2]), 'fixture')).toBe(0));

test('a fixture alone can’t be told from a factor for all', () => {
  const text = String(evaluate('LAYOUT(100,0,0,120,1,1,1,1)'));
  expect(
    record('METER.WEAK').work(
      [
        [
          [60, 31],
          [29, 30],
        ],
        text,
        0.5,
        'fixture',
      ] as never,
      undefined,
    ),
  ).toBe(0);
});
