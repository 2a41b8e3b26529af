import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { endlessLinePpfd, lowToMean, rowSum } from '../../../functions/mount/endless-rows.ts';
import { runs } from '../../cases.ts';
import { evaluate, stepsOf } from '../evaluate.ts';
import { ppfdByQuadrature } from '../field/quadrature.ts';

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

const BENCH = 'LAYOUT(156,1.2,0,120,2,4,2.4,1.2)';

test('at the mount height the bench mean is the target', () => {
  fc.assert(
    fc.property(fc.integer({ min: 20, max: 450 }), fc.integer({ min: 20, max: 160 }), (target, beam) => {
      const layout = `LAYOUT(156,1.1,0.06,${beam},2,4,2.4,1.2)`;
      const value = evaluate(`MOUNT.HEIGHT(${layout},${target})`);
      return isRefusal(value) || Math.abs(number(`BENCH.MEAN(${layout},${value})`) / target - 1) < 1e-6;
    }),
    runs(60, 5),
  );
});

test('where two heights do, the higher one is given and the working says so', () => {
  // All the light comes from beside the bench: low down it passes over, high up it thins out.
  const layout = 'LAYOUT.AT(900,0.3,0.3,120,1,1,{2.2,0.5})';
  const high = number(`MOUNT.HEIGHT(${layout},20)`);
  expect(number(`BENCH.MEAN(${layout},${high})`)).toBeCloseTo(20, 4);
  expect(number(`BENCH.MEAN(${layout},${high + 0.1})`)).toBeLessThan(20);
  const notes = stepsOf(`MOUNT.HEIGHT(${layout},20)`).steps.map((s) => s.label);
  const said = notes.find((label) => label.includes('too'));
  const low = Number(/target at ([\d.]+) m too/.exec(said ?? '')?.[1]);
  expect(low).toBeLessThan(high);
  expect(number(`BENCH.MEAN(${layout},${low})`)).toBeCloseTo(20, 2);
});

test('a target that only heights around the best one reach is found', () => {
  // A point of 60° beside the bench, by its closed form over the default grid of 10 × 10: the mean is greatest between two of the heights looked at.
  const m = Math.log(0.5) / Math.log(Math.cos(Math.PI / 6));
  const mean = (h: number): number => {
    let sum = 0;
    for (let i = 0; i < 10; i++)
      for (let j = 0; j < 10; j++) sum += h ** (m + 1) / (h * h + (1.8 - (i + 0.5) / 10) ** 2 + (0.5 - (j + 0.5) / 10) ** 2) ** ((m + 3) / 2);
    return ((200 * (m + 1)) / (2 * Math.PI) / 100) * sum;
  };
  const heights = Array.from({ length: 3000 }, (_, i) => 0.05 + i / 1000);
  const best = heights.reduce((at, h) => (mean(h) > mean(at) ? h : at));
  const layout = 'LAYOUT.AT(200,0,0,60,1,1,{1.8,0.5})';
  const h = number(`MOUNT.HEIGHT(${layout},${mean(best) * 0.9999})`);
  expect(mean(h) / mean(best)).toBeCloseTo(0.9999, 6);
  expect(h).toBeGreaterThan(best);
  const most = Number(/at most it is ([\d.]+)/.exec(message(`MOUNT.HEIGHT(${layout},${mean(best) * 1.0001})`))?.[1]);
  expect(most / mean(best)).toBeCloseTo(1, 5);
});

test('a target out of reach is refused with the limit that binds and the nearest that works', () => {
  expect(message(`MOUNT.HEIGHT(${BENCH},200,0.1,0.5)`)).toMatch(/highest limit binds, at 0.5 m it is still 247\.\d+ µmol\/m²\/s\. Dim to 0\.80/);
  expect(message(`MOUNT.HEIGHT(${BENCH},400,0.4,2)`)).toMatch(/between 0\.4 m and 2 m .* at most it is 276\.8\d* µmol\/m²\/s, at 0\.4 m/);
  expect(message(`MOUNT.HEIGHT(${BENCH},200,2,1)`)).toMatch(/must be below/);
  expect(message('MOUNT.HEIGHT.UNDER(96,0.3,0.3,120,2000)')).toMatch(/at most/);
  // A point of 10⁶ µmol/s: 10⁶/(π·50²) is 127.32 at 50 m.
  expect(message('MOUNT.HEIGHT.UNDER(1000000,0,0,120,10)')).toBe(
    'MOUNT.HEIGHT.UNDER: at 50 m the centre still gets 127.324 µmol/m²/s; dim to 0.0785398 of it there.',
  );
  expect(message('MOUNT.HEIGHT("no layout",200)')).toMatch(/^MOUNT\.HEIGHT: “no layout” says no layout/);
  expect(message('BENCH.MEAN(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,1000,1000)')).toMatch(/^BENCH\.MEAN: the sample grid/);
});

test('under one fixture the height gives the target', () => {
  for (const [length, width, beam, target] of [
    [1.2, 0, 120, 194],
    [0.45, 0.45, 110, 120],
    [0, 0, 60, 300],
  ] as const) {
    const h = number(`MOUNT.HEIGHT.UNDER(96,${length},${width},${beam},${target})`);
    const m = Math.log(0.5) / Math.log(Math.cos((beam * Math.PI) / 360));
    expect(ppfdByQuadrature({ ppf: 96, length, width, m }, h, 0, 0) / target).toBeCloseTo(1, 6);
  }
});

test('at the floor the brightest point of the bench is at the ceiling, and nowhere brighter', () => {
  // Lines stand between the grid’s points, so the grid alone would let them hang too low.
  const layout = 'LAYOUT(156,0.5,0,60,2,3,2.4,1.3)';
  const h = number(`MOUNT.FLOOR(${layout},500,9,7)`);
  let most = 0;
  for (let i = 0; i <= 240; i++) for (let j = 0; j <= 24; j++) most = Math.max(most, number(`BENCH.PPFD(${layout},${h},${(i * 2.4) / 240},${(j * 1.3) / 24})`));
  expect(most).toBeLessThanOrEqual(500 * (1 + 1e-6));
  expect(most).toBeGreaterThan(500 * 0.995);
});

test('one endless line agrees with the quadrature of a line of two kilometres', () => {
  for (const m of [0.4, 1, 4.8]) {
    const truth = ppfdByQuadrature({ ppf: 2000 * 100, length: 2000, width: 0, m }, 0.3, 0, 0.2);
    expect(endlessLinePpfd(100, m, 0.3, 0.2) / truth).toBeCloseTo(1, 5);
  }
});

test('rows without end agree with the sum over many of them', () => {
  for (const [m, gap] of [
    [1, 0.3],
    [1, 0.05],
    [4.8, 0.25],
  ] as const) {
    let sum = 0;
    for (let n = -4000; n < 4000; n++) sum += endlessLinePpfd(gap, m, 0.15, (n + 0.5) * gap);
    expect(lowToMean(m, gap, 0.15) / sum).toBeCloseTo(1, 6);
  }
});

test('both forms of the row sum agree where they meet', () => {
  expect(rowSum(Math.PI * (1 + 1e-12)) / rowSum(Math.PI)).toBeCloseTo(1, 10);
  for (const s of [0.01, 0.5, 3, 4, 30]) {
    let sum = 0;
    for (let n = -1000; n < 1000; n++) sum += Math.exp(-s * (n + 0.5) ** 2);
    expect(rowSum(s) / sum).toBeCloseTo(1, 13);
  }
});

test('row gap and height are inverses of one another', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 0.99, noNaN: true }), fc.integer({ min: 30, max: 150 }), (share, beam) => {
      const h = evaluate(`MOUNT.HEIGHT.EVEN(0.4,${beam},${share.toFixed(6)})`);
      return isRefusal(h) || Math.abs(number(`ROW.GAP.MAX(${h},${beam},${share.toFixed(6)})`) - 0.4) < 1e-6;
    }),
    runs(60, 6),
  );
});

test('lifts and errors of height are refused or clear at their edges', () => {
  expect(message('HEIGHT.ERROR(1.07,0.25,0.2)')).toBe(
    'HEIGHT.ERROR: 0.2 m is too much of 0.25 m for this rule, which holds up to about 0.025 m; FALLOFF.RATIO takes large moves.',
  );
  expect(message('HEIGHT.ERROR(1.07,0.25,-0.3)')).toMatch(/−0\.3 m is too much/);
  expect(number('DAYS.TO.LIFT(0.1,0.15,0.012)')).toBe(0);
  expect(message('DAYS.TO.LIFT(0.25,0.15,0)')).toMatch(/without growth/);
  expect(number('GROWTH.LIFT(0,30)')).toBe(0);
});

test('the best spread is better than its neighbours and keeps within the overhang', () => {
  const uniformity = (spread: number): number => number(`BENCH.UNIFORMITY(LAYOUT(156,1.2,0,120,2,4,2.4,1.2,FALSE,1,${spread}),0.4)`);
  const free = number('SPREAD.BEST(156,1.2,0,120,2,4,2.4,1.2,FALSE,0.4,0.3,"across")');
  for (const step of [-0.2, -0.05, -0.01, 0.01, 0.05, 0.2]) expect(uniformity(free)).toBeGreaterThan(uniformity(free + step));
  const bound = number('SPREAD.BEST(156,1.2,0.06,120,2,4,2.4,1.2,FALSE,0.4,0.05,"across")');
  // Outermost centre plus half a face is 5 cm past the edge: 0.6·0.75·spread + 0.03 = 0.65.
  expect(bound).toBeCloseTo((0.65 - 0.03) / (0.6 * 0.75), 6);
  expect(message('SPREAD.BEST(156,1.2,0,120,2,1,2.4,1.2,FALSE,0.4,0.3,"across")')).toMatch(/two are the least/);
  expect(message('SPREAD.BEST(156,1.2,0,120,2,4,2.4,1.2,FALSE,0.4,0,"along")')).toMatch(/no room/);
});

test('neighbours add what the same fixtures give at points a bench and an aisle away', () => {
  const two = number(`NEIGHBOUR.SPILL(${BENCH},0.4,0.6,2)`);
  const one = number(`NEIGHBOUR.SPILL(${BENCH},0.4,0.6,1)`);
  expect(two).toBeCloseTo(2 * one, 10);
  expect(number(`NEIGHBOUR.SPILL(${BENCH},0.4,0.6,0)`)).toBe(0);
  let beside = 0;
  for (let i = 0; i < 24; i++) for (let j = 0; j < 12; j++) beside += number(`BENCH.PPFD(${BENCH},0.4,${(i + 0.5) * 0.1},${(j + 0.5) * 0.1 + 1.8})`) / 288;
  expect(one).toBeCloseTo(beside / number(`BENCH.MEAN(${BENCH},0.4)`), 8);
  expect(message(`NEIGHBOUR.SPILL(LAYOUT(156,1.2,0,120,2,4,2.4,1.2,FALSE,1,1,0.5),0.4,0.6)`)).toMatch(/reflecting sides/);
});
