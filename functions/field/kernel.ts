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
import { axisFactor } from './face-means.ts';
import { ruleFor, type Terms, termsFor, weightsAt } from './gaussian-terms.ts';
import { imageCount } from './images.ts';
import type { Layout } from './layout.ts';
import { keptMemory, newField, newMemory, SLOT } from './memory.ts';
import { addProduct } from './product.ts';

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
