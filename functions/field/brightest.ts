/**
 * The brightest point of a bench itself, not only of its sample grid, as a function of the height.
 *
 * Between the points of a grid the field cannot hide much. Along any line the kernel f = (h² + u²)^(−k) has f″ ≥ −2k/h²·f, and so has every sum of
 * it. At the peak the slope is zero (along the edge, for a peak on the edge, and the grid has points on the edges), so that at a distance δ from it
 * E ≥ E(peak)·cos(√(2k)·δ/h): no peak is higher than the grid's best over that cosine. The search is left out where even that is below what is asked for.
 */
import { type Crossing, crossings } from './crossings.ts';
import { cellCentres, crossingTables, crossingWeights, fieldAt } from './kernel.ts';
import { faces, type Layout } from './layout.ts';
import { addProduct } from './product.ts';
import { pointOf, type SampleField } from './sample-field.ts';

export interface Brightest {
  readonly x: number;
  readonly y: number;
  readonly ppfd: number;
}

/** Best points of the grid from which the peak is sought: with fewer, the grid may have missed the higher of two. */
const STARTS = 3;
/** The search ends when its step is this small beside the height: what the last parabola leaves of the value is the fourth power of it. */
const FINEST = 0.02;
const NARROWER = 4;
/** Points of the small grid around one, in steps. */
const ACROSS = [-2, -1, 0, 1, 2];
/** Points times kinds of places (a regular grid of fixtures is one) that a grid may have: about 15 ms for one height. A coarser one is taken above it. */
const WORK = 400_000;

const unique = (values: Iterable<number>): number[] => [...new Set(values)].sort((a, b) => a - b);
const clamp = (x: number, most: number): number => Math.min(most, Math.max(0, x));
const widestGap = (at: readonly number[]): number => at.reduce((most, x, i) => (i === 0 ? 0 : Math.max(most, x - (at[i - 1] as number))), 0);

/** Points of the grid, the edges and, where that is not too many, those under the centres of the faces, where peaks stand. */
function gridOf(layout: Layout, kinds: number, nx: number, ny: number): [number[], number[]] {
  const { length, width } = layout.bench;
  const all = faces(layout);
  const withEdges = (cells: number, size: number): number[] => unique([0, ...cellCentres(cells, size), size]);
  const under: [number[], number[]] = [
    unique([...withEdges(nx, length), ...all.map((f) => clamp(f.x, length))]),
    unique([...withEdges(ny, width), ...all.map((f) => clamp(f.y, width))]),
  ];
  if (kinds * under[0].length * under[1].length <= WORK) return under;
  const fewer = Math.min(1, Math.sqrt(WORK / (kinds * (nx + 2) * (ny + 2))));
  return [withEdges(Math.max(1, Math.floor(nx * fewer)), length), withEdges(Math.max(1, Math.floor(ny * fewer)), width)];
}

/** Good for heights from `lowest` to `highest`. The point is the grid's and not refined where even the peak is surely below `asked`. */
export function brightestByHeight(layout: Layout, lowest: number, highest: number, nx: number, ny: number): (height: number, asked: number) => Brightest {
  const all = crossings(layout);
  const [xs, ys] = gridOf(layout, all.length, nx, ny);
  const half = Math.hypot(widestGap(xs), widestGap(ys)) / 2;
  const steepest = Math.max(...all.map((c) => (c.m + 3) / 2));
  const tables = all.map((c) => crossingTables(layout, c, lowest, highest, xs, ys));
  const overFaces = all.length > 1 ? faces(layout).map((f) => [clamp(f.x, layout.bench.length), clamp(f.y, layout.bench.width)] as const) : [];
  return (height, asked) => {
    const field = new Float64Array(xs.length * ys.length);
    for (const t of tables) addProduct(crossingWeights(t, height), t.x, t.y, xs.length, ys.length, field);
    const start = (i: number): Brightest => ({ x: xs[i % xs.length] as number, y: ys[Math.floor(i / xs.length)] as number, ppfd: field[i] as number });
    const starts = best(field, STARTS).map(start);
    const angle = (Math.sqrt(2 * steepest) * half) / height;
    const top = starts[0] as Brightest;
    if (angle < Math.PI / 2 && top.ppfd < asked * Math.cos(angle)) return top;
    const local = localField(layout, all, height);
    // The face with the brightest surroundings: on a grid made coarser its own peak may stand between the points.
    const nearest = (at: readonly number[], x: number): number =>
      at.reduce((found, u, i) => (Math.abs(u - x) < Math.abs((at[found] as number) - x) ? i : found), 0);
    const around = Float64Array.from(overFaces, ([x, y]) => field[nearest(ys, y) * xs.length + nearest(xs, x)] as number);
    for (const i of best(around, 1)) {
      const [x, y] = overFaces[i] as readonly [number, number];
      starts.push({ x, y, ppfd: local([x], [y])[0] as number });
    }
    const step = Math.max(widestGap(xs), widestGap(ys));
    let most = top;
    for (const from of starts) {
      // No peak near this point is higher than what the cosine allows.
      if (from !== top && angle < Math.PI / 2 && from.ppfd < most.ppfd * Math.cos(angle)) continue;
      const peak = climb(layout, local, height, from, step);
      if (peak.ppfd > most.ppfd) most = peak;
    }
    return most;
  };
}

/**
 * The brightest point at the height of one field: sought from the best point of its sample grid, and from the best of those right under the faces, where a
 * coarse grid has missed a narrow peak.
 */
export function brightestOf({ layout, height, nx, ny, field, highAt }: SampleField): Brightest {
  const [one, another] = crossings(layout);
  if (!one || another) return brightestByHeight(layout, height, height, nx, ny)(height, 0);
  const { length, width } = layout.bench;
  const [x, y] = pointOf({ layout, nx, ny }, highAt);
  const top = { x, y, ppfd: field[highAt] as number };
  const under = brightestOn(layout, height, unique(one.xs.map((u) => clamp(u, length))), unique(one.ys.map((v) => clamp(v, width))));
  const cell = Math.min(height / 2, Math.max(length / nx, width / ny));
  const peak = closeUp(layout, one, height, top.ppfd > under.ppfd ? top : under, cell);
  // From the worse of two that are apart only where its hump may yet be the higher one.
  if (Math.hypot(top.x - under.x, top.y - under.y) < cell) return peak;
  const other = closeUp(layout, one, height, top.ppfd > under.ppfd ? under : top, cell);
  return other.ppfd > peak.ppfd ? other : peak;
}

function brightestOn(layout: Layout, height: number, xs: readonly number[], ys: readonly number[]): Brightest {
  const field = fieldAt(layout, height, xs, ys);
  const [i = 0] = best(field, 1);
  return { x: xs[i % xs.length] as number, y: ys[Math.floor(i / xs.length)] as number, ppfd: field[i] as number };
}

/** A small grid around a point, laid about its best again and again, and finer once that is inside. */
function closeUp(layout: Layout, { m }: Crossing, height: number, from: Brightest, cell: number): Brightest {
  const { length, width } = layout.bench;
  const around = (at: number, step: number, most: number): number[] => unique(ACROSS.map((i) => clamp(at + i * step, most)));
  // What is left of the peak is the square of it: one part in ten thousand, of a narrow beam too.
  const finest = (FINEST / 2) * height * Math.min(1, 2 / Math.sqrt(m + 3));
  let peak = from;
  for (let step = cell / 2; step > finest; ) {
    const next = brightestOn(layout, height, around(peak.x, step, length), around(peak.y, step, width));
    // At the rim of what was seen: it may go on beyond.
    const far = next.ppfd > peak.ppfd && Math.max(Math.abs(next.x - peak.x), Math.abs(next.y - peak.y)) > 1.5 * step;
    if (next.ppfd > peak.ppfd) peak = next;
    if (!far) step /= 4;
  }
  return peak;
}

/** Where the greatest few stand, from the greatest on. */
function best(values: Float64Array, count: number): number[] {
  const found: number[] = [];
  for (let n = 0; n < count && n < values.length; n++) {
    let at = -1;
    for (let i = 0; i < values.length; i++) if (!found.includes(i) && (at < 0 || (values[i] as number) > (values[at] as number))) at = i;
    found.push(at);
  }
  return found;
}

type LocalField = (xs: readonly number[], ys: readonly number[]) => Float64Array;

/** The field at a few points of one height. */
function localField(layout: Layout, all: readonly Crossing[], height: number): LocalField {
  return (xs, ys) => {
    const field = new Float64Array(xs.length * ys.length);
    for (const c of all) {
      const tables = crossingTables(layout, c, height, height, xs, ys);
      addProduct(crossingWeights(tables, height), tables.x, tables.y, xs.length, ys.length, field);
    }
    return field;
  };
}

/** Steps to the best of the eight neighbours; where none is better, to the top of the parabolas through them, and looks nearer around. The nine points are one small grid. */
function climb(layout: Layout, local: LocalField, height: number, from: Brightest, widest: number): Brightest {
  const { length, width } = layout.bench;
  let peak = from;
  for (let step = widest; step > FINEST * height; ) {
    const around = (at: number, most: number): number[] => [clamp(at - step, most), at, clamp(at + step, most)];
    const [xs, ys] = [around(peak.x, length), around(peak.y, width)];
    const field = local(xs, ys);
    const middle = field[4] as number;
    const best = field.reduce((found, e, i) => (e > (field[found] as number) ? i : found), 4);
    if (best !== 4) {
      peak = { x: xs[best % 3] as number, y: ys[Math.floor(best / 3)] as number, ppfd: field[best] as number };
      continue;
    }
    const x = clamp(peak.x + step * vertex(field[3] as number, middle, field[5] as number), length);
    const y = clamp(peak.y + step * vertex(field[1] as number, middle, field[7] as number), width);
    const there = local([x], [y])[0] as number;
    peak = there > middle ? { x, y, ppfd: there } : { ...peak, ppfd: middle };
    step /= NARROWER;
  }
  return peak;
}

/** Where the parabola through three values one step apart, the middle one the greatest, has its top, in steps from the middle. */
function vertex(before: number, middle: number, after: number): number {
  const bend = before - 2 * middle + after;
  return bend < 0 ? (before - after) / (2 * bend) : 0;
}
