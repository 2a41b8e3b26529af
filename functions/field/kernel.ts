/**
 * The light over a bench.
 *
 * Every element of a face sends out dΦ(m+1)/2π·cosᵐθ; on a horizontal plane at depth h this lands as
 *
 *   E(x, y) = Φ(m+1)h^(m+1)/2π · mean over the face of r^(−2k),   k = (m+3)/2,  r² = h² + u² + v²
 *
 * with u, v the horizontal distances to the element. From the Gamma integral r^(−2k) is a sum of Gaussians in r (gaussian-terms.ts, with
 * the error terms), and each Gaussian is a product: e^(−τh²)·e^(−τu²)·e^(−τv²). So the mean over a rectangle is a product of two means
 * over its sides (axis-table.ts, error functions), the sum over a regular grid of fixtures is a product of two sums, mirrors at the
 * ends of the bench are two more sums, and the field on a grid of points is
 *
 *   E(xᵢ, yⱼ) = Σₜ wₜ Xₜ(xᵢ) Yₜ(yⱼ)
 *
 * Cost on a regular layout: terms·(fixtures along·columns + fixtures across·rows) for the tables, terms·points for the product. Fixtures put
 * freely are each a grid of one: fixtures·points·terms. This is also what makes it the method for them: with the tables shared
 * between all points of a row it needs fewer steps for a fixture and a point than the closed form's four arctangents, and any beam goes the same way.
 *
 * Errors, as a share of the value: 1e-7 each for aliasing, high and low end; 1e-7 for reflections not followed; measured together in
 * tests/functions/field. Where a value has fallen below 1e-12 of the peak the error is absolute.
 * Mirrors follow a square of images (|i| ≤ n and |j| ≤ n), weighted ρ^(|i|+|j|).
 *
 * Source: the Gamma integral and the trapezoid rule for it, G. Beylkin and L. Monzón, Approximation by exponential sums revisited,
 * Applied and Computational Harmonic Analysis 28, 2010, pp. 131–149; all else follows from it as above.
 */
import { type AxisTable, axisTable } from './axis-table.ts';
import { type Crossing, crossings } from './crossings.ts';
import { axisFactor, ROOM } from './face-means.ts';
import { ruleFor, type Terms, termsFor, weightsAt } from './gaussian-terms.ts';
import { imageCount } from './images.ts';
import type { Layout } from './layout.ts';
import { keptMemory, newField, newMemory, SLOT } from './memory.ts';

export { landingShare } from './landing.ts';
export { defaultGrid, faces } from './layout.ts';

/**
 * Farthest horizontal distance between an element of a face, images included, and a point of the bench or of the rows given: the
 * same for every grid on the bench, so that a single point and a grid use the same terms and agree to the last digits.
 */
function farthest({ bench, sides }: Layout, c: Crossing, xs: readonly number[], ys: readonly number[]): number {
  const n = imageCount(sides);
  const axis = (points: readonly number[], at: readonly number[], face: number, size: number): number => {
    const least = Math.min(0, points[0] as number, at[0] as number);
    const most = Math.max(size, points[points.length - 1] as number, at[at.length - 1] as number);
    return most - least + face / 2 + n * size;
  };
  return Math.hypot(axis(xs, c.xs, c.length, bench.length), axis(ys, c.ys, c.width, bench.width));
}

/** The two tables of one crossing, good for every height in a range. */
export interface CrossingTables {
  readonly crossing: Crossing;
  readonly terms: Terms;
  readonly x: AxisTable;
  readonly y: AxisTable;
}

/** `whole`: the crossing whose terms to take, where `c` is a part of it. */
export function crossingTables(
  layout: Layout,
  c: Crossing,
  lowest: number,
  highest: number,
  xs: readonly number[],
  ys: readonly number[],
  whole = c,
  memory = newMemory,
): CrossingTables {
  const { bench, sides } = layout;
  const terms = termsFor(ruleFor(c.m), lowest, highest, farthest(layout, whole, xs, ys), memory);
  return {
    crossing: c,
    terms,
    x: axisTable(terms, xs, { centres: c.xs, size: c.length, bench: bench.length, sides }, memory(SLOT.x, xs.length * terms.count)),
    y: axisTable(terms, ys, { centres: c.ys, size: c.width, bench: bench.width, sides }, memory(SLOT.y, ys.length * terms.count)),
  };
}

/** Weights of the terms at one height, with the factors of both axes in them. */
export function crossingWeights({ crossing: c, terms }: Pick<CrossingTables, 'crossing' | 'terms'>, height: number, memory = newMemory): Float64Array {
  const weights = weightsAt(terms, c.ppf, c.m, height, memory);
  axisFactor(terms, c.length, weights);
  axisFactor(terms, c.width, weights);
  return weights;
}

/** Columns and rows of points that are summed side by side: each number that is read then serves several products. */
const COLUMNS = 4;
const ROWS = 2;

/** wₜ Yₜ of a pair of rows: kept, and of a fixed size, so that the compiler knows their addresses. */
const UPPER = new Float64Array(ROOM);
const LOWER = new Float64Array(ROOM);

/**
 * Adds Σₜ wₜ Xₜ Yₜ to a grid of nx by ny points, which is the first corner of one with rows of `width` points. Terms beyond `filled` are
 * zero in both tables.
 */
export function addProduct(weights: Float64Array, x: AxisTable, y: AxisTable, nx: number, ny: number, into: Float64Array, width = nx): void {
  const { count } = x;
  let used = count;
  while (used > 0 && weights[used - 1] === 0) used--;
  const [weighRows, addBlock] = [WEIGH_ROWS, ADD_BLOCK];
  for (let j = 0; j < ny; j += ROWS) {
    const rows = Math.min(ROWS, ny - j);
    let reachY = 0;
    for (let r = 0; r < rows; r++) reachY = Math.max(reachY, Math.min(used, y.filled[j + r] as number));
    // A row without a second one stands for both.
    weighRows(weights, y.values, j * count, (j + rows - 1) * count, reachY);
    let i = 0;
    for (; rows === ROWS && i + COLUMNS <= nx; i += COLUMNS) {
      const most = Math.max(x.filled[i] as number, x.filled[i + 1] as number, x.filled[i + 2] as number, x.filled[i + 3] as number);
      addBlock(x.values, i * count, count, Math.min(most, reachY), into, j * width + i, width);
    }
    for (; i < nx; i++) {
      const reach = Math.min(reachY, x.filled[i] as number);
      for (let r = 0; r < rows; r++) {
        const p = (j + r) * width + i;
        into[p] = (into[p] as number) + dot(r === 0 ? UPPER : LOWER, x.values, i * count, reach);
      }
    }
  }
}

/** wₜ Yₜ of a pair of rows, which begin at `a` and `b`. */
function rowWeigher() {
  const [upper, lower] = [UPPER, LOWER];
  return (weights: Float64Array, values: Float64Array, a: number, b: number, reach: number): void => {
    for (let t = 0; t < reach; t++) {
      const weight = weights[t] as number;
      upper[t] = weight * (values[a + t] as number);
      lower[t] = weight * (values[b + t] as number);
    }
  };
}
const WEIGH_ROWS = rowWeigher();

/** Adds the products of the pair of rows with COLUMNS columns, from `a` on. A function of its own: with so few numbers about, the compiler keeps the sums in the processor. */
function blockAdder() {
  const [upper, lower] = [UPPER, LOWER];
  return (columns: Float64Array, a: number, count: number, reach: number, into: Float64Array, p: number, width: number): void => {
    const b = a + count;
    const c = b + count;
    const d = c + count;
    let upperA = 0;
    let upperB = 0;
    let upperC = 0;
    let upperD = 0;
    let lowerA = 0;
    let lowerB = 0;
    let lowerC = 0;
    let lowerD = 0;
    for (let t = 0; t < reach; t++) {
      const u = upper[t] as number;
      const l = lower[t] as number;
      const va = columns[a + t] as number;
      const vb = columns[b + t] as number;
      const vc = columns[c + t] as number;
      const vd = columns[d + t] as number;
      upperA += u * va;
      upperB += u * vb;
      upperC += u * vc;
      upperD += u * vd;
      lowerA += l * va;
      lowerB += l * vb;
      lowerC += l * vc;
      lowerD += l * vd;
    }
    const q = p + width;
    into[p] = (into[p] as number) + upperA;
    into[p + 1] = (into[p + 1] as number) + upperB;
    into[p + 2] = (into[p + 2] as number) + upperC;
    into[p + 3] = (into[p + 3] as number) + upperD;
    into[q] = (into[q] as number) + lowerA;
    into[q + 1] = (into[q + 1] as number) + lowerB;
    into[q + 2] = (into[q + 2] as number) + lowerC;
    into[q + 3] = (into[q + 3] as number) + lowerD;
  };
}
const ADD_BLOCK = blockAdder();

function dot(row: Float64Array, columns: Float64Array, at: number, reach: number): number {
  let sum = 0;
  for (let t = 0; t < reach; t++) sum += (row[t] as number) * (columns[at + t] as number);
  return sum;
}

/** The first so many of the cell centres along one side. */
export function cellCentres(cells: number, size: number, count = cells): number[] {
  const centres: number[] = [];
  for (let i = 0; i < count; i++) centres.push(((i + 0.5) * size) / cells);
  return centres;
}

/** PPFD at the crossings of any rows of points, x and y each in rising order, µmol/m²/s, x fastest. */
export function fieldAt(layout: Layout, height: number, xs: readonly number[], ys: readonly number[]): Float64Array {
  const field = newField(xs.length * ys.length);
  addField(layout, crossings(layout), height, xs, ys, field, xs.length);
  return field;
}

function addField(
  layout: Layout,
  all: readonly Crossing[],
  height: number,
  xs: readonly number[],
  ys: readonly number[],
  field: Float64Array,
  width: number,
): void {
  for (const c of all) {
    const tables = crossingTables(layout, c, height, height, xs, ys, c, keptMemory);
    addProduct(crossingWeights(tables, height, keptMemory), tables.x, tables.y, xs.length, ys.length, field, width);
  }
}

/** PPFD at one point, µmol/m²/s. */
export const ppfdAt = (layout: Layout, height: number, x: number, y: number): number => fieldAt(layout, height, [x], [y])[0] as number;

/** PPFD at the cell centres of the bench, µmol/m²/s, row by row from the origin, x fastest. */
export function benchField(layout: Layout, height: number, nx: number, ny: number): Float64Array {
  const { length, width } = layout.bench;
  const all = crossings(layout);
  if (!all.every((c) => c.centred)) return fieldAt(layout, height, cellCentres(nx, length), cellCentres(ny, width));
  // Grid and fixtures are both centred: a quarter says it all.
  const [left, front] = [cellCentres(nx, length, (nx + 1) >> 1), cellCentres(ny, width, (ny + 1) >> 1)];
  const field = newField(nx * ny);
  addField(layout, all, height, left, front, field, nx);
  unfold(field, nx, ny);
  return field;
}

/** The first quarter of a grid, its middle row and column included, mirrored to the three others. */
function unfold(field: Float64Array, nx: number, ny: number): void {
  const [halfX, halfY] = [(nx + 1) >> 1, (ny + 1) >> 1];
  for (let j = 0; j < halfY; j++) {
    for (let i = 0; i < halfX; i++) {
      const e = field[j * nx + i] as number;
      field[j * nx + nx - 1 - i] = e;
      field[(ny - 1 - j) * nx + i] = e;
      field[(ny - 1 - j) * nx + nx - 1 - i] = e;
    }
  }
}
