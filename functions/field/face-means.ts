/**
 * The mean of e^(−τt²) over faces on one axis, for each term: what the separable sum is made of.
 *
 * Over a face of size s at distance d: √π/(2√τ s)·[erf(√τ(d + s/2)) − erf(√τ(d − s/2))], taken as a difference of erfc where the
 * point is beside the face, so that the far tail keeps its digits. Where √τ·s is below THIN that difference would lose digits the
 * other way, and the middle of the face with its second-order term, e^(−τd²)(1 + τs²/12·(2τd² − 1)), is good to 1e-9 even at the edge of what counts.
 */
import { CELL_MASK, CELLS_AT_MOST, CELLS_PER_UNIT, erfcInCell } from '../numeric/error-function.ts';
import type { Terms } from './gaussian-terms.ts';
import type { Images } from './images.ts';

const THIN = 0.001;

/** From which term on the face is no longer thin. */
function thickFrom({ rootTau, count }: Terms, size: number): number {
  let t = 0;
  while (t < count && (rootTau[t] as number) * size < THIN) t++;
  return t;
}

/** Terms of one point that there is room for: some eight times what the lowest of lamps over the longest of benches needs. */
const ROOM = 1024;

/** The √τ of the terms and the sums of one point: of a fixed size and kept, so that the compiler knows their addresses. */
const ROOTS = new Float64Array(ROOM);
const SUMS = new Float64Array(ROOM);

/** √τ of a term times the distance of an edge, in cells of the table of erfc. (A function made by another one: what it reads is then a constant, as in error-function.ts.) */
function cellsReader(): (t: number, edge: number) => number {
  const [roots, last] = [ROOTS, CELLS_AT_MOST];
  return (t, edge) => {
    const x = (roots[t] as number) * edge;
    // biome-ignore lint/complexity/useMathMinMax: Math.min tests for what is no number and takes longer
    return x < last ? x : last;
  };
}
const CELLS_OF = cellsReader();

/** Adds c + p·erfc(√τ near) − q·erfc(√τ far) to the sum of a term, each edge given by its cell and its place in it. */
function pairAdder() {
  const [sums, erfc] = [SUMS, erfcInCell];
  return (t: number, i: number, a: number, j: number, b: number, p: number, q: number, c: number): void => {
    sums[t] = (sums[t] as number) + c + (p * erfc(i, a) - q * erfc(j, b));
  };
}
const ADD_PAIR = pairAdder();

/**
 * Adds the faces' parts of the terms from `from` to `to` to the rows of `values`, one a point; gives for each point the end of the terms that count
 * there. Nearly all the time of a field goes in the inner loop. There the cells of the next term are sought while the polynomials of this one
 * are worked out: neither waits for the other.
 */
export function addFaces(
  terms: Terms,
  from: number,
  to: number,
  points: readonly number[],
  { at, share }: Images,
  size: number,
  values: Float64Array,
): number[] {
  const { tau, rootTau, rule, lowest, highest, count } = terms;
  if (count >= ROOM) throw new Error(`${count} terms; there is room for ${ROOM - 1}`);
  const [roots, sums, cells, add, mask] = [ROOTS, SUMS, CELLS_OF, ADD_PAIR, CELL_MASK];
  const perUnit = CELLS_PER_UNIT;
  for (let t = from; t < to; t++) roots[t] = rootTau[t] as number;
  const half = size / 2;
  const thick = Math.max(from, thickFrom(terms, size));
  const lowest2 = lowest * lowest;
  const nothing2 = highest * highest * (rule.reach - 1);
  const high = rule.high;
  const filled: number[] = [];
  let reach = to;
  for (let i = 0; i < points.length; i++) {
    const x = points[i] as number;
    const row = i * count;
    let most = from;
    for (let c = 0; c < at.length; c++) {
      const distance = Math.abs(x - (at[c] as number));
      const weight = share[c] as number;
      const far = distance + half;
      const gap = distance - half;
      // erf b − erf a is erfc a − erfc b where both are on one side, 2 − erfc(−a) − erfc b where the point is under the face.
      let near = gap;
      let nearWeight = weight;
      let constant = 0;
      let r2 = lowest2;
      if (gap < 0) {
        near = -gap;
        nearWeight = -weight;
        constant = 2 * weight;
      } else {
        if (gap * gap > nothing2) continue;
        r2 += gap * gap;
      }
      // The terms that count at r² and beyond: from one face to the next their end moves by a few, which costs less than a logarithm.
      const limit = high / r2;
      while (reach > from && (tau[reach - 1] as number) > limit) reach--;
      while (reach < to && (tau[reach] as number) <= limit) reach++;
      if (reach > most) most = reach;
      if (thick > from) addThin(tau, from, Math.min(thick, reach), distance, size, weight, values, row);
      const nearCells = near * perUnit;
      const farCells = far * perUnit;
      let a = cells(thick, nearCells);
      let b = cells(thick, farCells);
      let nearCell = a & mask;
      let farCell = b & mask;
      for (let t = thick; t < reach; t++) {
        const nextA = cells(t + 1, nearCells);
        const nextB = cells(t + 1, farCells);
        const nextNearCell = nextA & mask;
        const nextFarCell = nextB & mask;
        add(t, nearCell, a - nearCell, farCell, b - farCell, nearWeight, weight, constant);
        a = nextA;
        b = nextB;
        nearCell = nextNearCell;
        farCell = nextFarCell;
      }
    }
    for (let t = thick; t < most; t++) {
      values[row + t] = (values[row + t] as number) + (sums[t] as number);
      sums[t] = 0;
    }
    filled.push(most);
  }
  return filled;
}

function addThin(tau: Float64Array, from: number, to: number, distance: number, size: number, share: number, values: Float64Array, row: number): void {
  for (let t = from; t < to; t++) {
    const q = (tau[t] as number) * distance * distance;
    const bent = (tau[t] as number) * size * size;
    values[row + t] = (values[row + t] as number) + share * Math.exp(-q) * (1 + (bent / 12) * (2 * q - 1));
  }
}

/** √π/(2√τ s) for the terms that were taken as differences of erfc, 1 for the others: multiplied into the weights, once for all points. */
export function axisFactor(terms: Terms, size: number, weights: Float64Array): void {
  for (let t = thickFrom(terms, size); t < terms.count; t++) {
    weights[t] = ((weights[t] as number) * Math.sqrt(Math.PI)) / (2 * (terms.rootTau[t] as number) * size);
  }
}
