/**
 * The mean of e^(−τt²) over faces on one axis, for each term: what the separable sum is made of.
 *
 * Over a face of size s at distance d: √π/(2√τ s)·[erf(√τ(d + s/2)) − erf(√τ(d − s/2))], taken as a difference of erfc where the
 * point is beside the face, so that the far tail keeps its digits. Where √τ·s is below THIN that difference would lose digits the
 * other way, and the middle of the face with its second-order term, e^(−τd²)(1 + τs²/12·(2τd² − 1)), is good to 1e-9 even at the edge of what counts.
 */
import { CELLS_AT_MOST, CELLS_PER_UNIT, erfcInCell } from '../numeric/error-function.ts';
import type { Terms } from './gaussian-terms.ts';
import type { Images } from './images.ts';

const THIN = 0.001;

/** From which term on the face is no longer thin, of the terms from `from` on. */
function thickFrom({ rootTau, count }: Terms, size: number, from = 0): number {
  let t = from;
  while (t < count && (rootTau[t] as number) * size < THIN) t++;
  return t;
}

/** Terms of one point that there is room for: some eight times what the lowest of lamps over the longest of benches needs. */
export const ROOM = 1024;

/** The √τ of the terms and the sums of one point: of a fixed size and kept, so that the compiler knows their addresses. */
const ROOTS = new Float64Array(ROOM);
const SUMS = new Float64Array(ROOM);

/**
 * What a face adds to the sum of a term, distances in cells: erfc(√τ near) − erfc(√τ far) where the point is beside it; with −1 as `sign`, where it is under
 * it: the 2 before that is added with the sum. Each of these is a function made by another one: what it reads is then a constant, as in
 * error-function.ts. How many results are on their way in the processor at once is what holds the loop up, so three things keep them few:
 *  - Nothing is stored without an `if`. Only where no store stands between does the compiler multiply and add straight from memory; else each
 *    number of a look-up is a result of its own. The sum is left alone where nothing is added, which is rare.
 *  - What lies in the table is written before what it is multiplied by: the compiler does that with the second only.
 *  - What is left of a cell is taken from `Math.floor`, which is a step shorter than the way from the cell's number back.
 */
function pairAdder() {
  const [roots, sums, erfc] = [ROOTS, SUMS, erfcInCell];
  return (t: number, near: number, far: number, sign: number): void => {
    const a = (roots[t] as number) * near;
    const b = (roots[t] as number) * far;
    const nearCell = a | 0;
    const farCell = b | 0;
    const part = sign * erfc(nearCell, a - Math.floor(a)) - erfc(farCell, b - Math.floor(b));
    if (part !== 0) sums[t] = (sums[t] as number) + part;
  };
}
const ADD_PAIR = pairAdder();

/** By a face whose far edge lies beyond the table, where erfc is nothing. */
function nearAdder() {
  const [roots, sums, erfc, last] = [ROOTS, SUMS, erfcInCell, CELLS_AT_MOST];
  return (t: number, near: number, sign: number): void => {
    const whole = (roots[t] as number) * near;
    // biome-ignore lint/complexity/useMathMinMax: as in error-function.ts
    const a = whole < last ? whole : last;
    const cell = a | 0;
    const part = sign * erfc(cell, a - Math.floor(a));
    if (part !== 0) sums[t] = (sums[t] as number) + part;
  };
}
const ADD_NEAR = nearAdder();

/** The sum of a term; the next one begins. */
function sumTaker() {
  const sums = SUMS;
  return (t: number): number => {
    const sum = sums[t] as number;
    sums[t] = 0;
    return sum;
  };
}
const TAKE_SUM = sumTaker();

/**
 * Adds the faces' parts of the terms from `from` to `to` to the rows of `values`, one a point; gives for each point the end of the terms that count
 * there. Nearly all the time of a field goes in the loop of the pairs.
 */
export function addFaces(
  terms: Terms,
  from: number,
  to: number,
  points: readonly number[],
  images: readonly Images[],
  size: number,
  values: Float64Array,
): number[] {
  const { tau, rootTau, rule, lowest, highest, count } = terms;
  if (count >= ROOM) throw new Error(`${count} terms; there is room for ${ROOM - 1}`);
  const [roots, takeSum, addPair, addNear] = [ROOTS, TAKE_SUM, ADD_PAIR, ADD_NEAR];
  for (let t = from; t < to; t++) roots[t] = rootTau[t] as number;
  const half = size / 2;
  const thick = thickFrom(terms, size, from);
  const lowest2 = lowest * lowest;
  const nothing2 = highest * highest * (rule.reach - 1);
  const high = rule.high;
  const filled: number[] = [];
  let reach = to;
  for (let i = 0; i < points.length; i++) {
    const x = points[i] as number;
    const row = i * count;
    let most = from;
    for (let n = 0; n < images.length; n++) {
      const { at, share } = images[n] as Images;
      let end = from;
      // erf b − erf a is erfc a − erfc b where both are on one side, 2 − erfc(−a) − erfc b where the point is under the face.
      let under = 0;
      for (let c = 0; c < at.length; c++) {
        const distance = Math.abs(x - (at[c] as number));
        const gap = distance - half;
        let r2 = lowest2;
        if (gap < 0) {
          under += 2;
        } else {
          if (gap * gap > nothing2) continue;
          r2 += gap * gap;
        }
        // The terms that count at r² and beyond: from one face to the next their end moves by a few, which costs less than a logarithm.
        const limit = high / r2;
        while (reach > from && (tau[reach - 1] as number) > limit) reach--;
        while (reach < to && (tau[reach] as number) <= limit) reach++;
        if (reach > end) end = reach;
        if (thick > from) addThin(tau, from, Math.min(thick, reach), distance, size, share, values, row);
        if (reach <= thick) continue;
        const nearCells = Math.abs(gap) * CELLS_PER_UNIT;
        const farCells = (distance + half) * CELLS_PER_UNIT;
        let both = reach;
        while (both > thick && (roots[both - 1] as number) * farCells > CELLS_AT_MOST) both--;
        const sign = gap < 0 ? -1 : 1;
        for (let t = thick; t < both; t++) addPair(t, nearCells, farCells, sign);
        for (let t = both; t < reach; t++) addNear(t, nearCells, sign);
      }
      // No gap is less than none: where the point is under a face, all the terms that count anywhere count there.
      for (let t = thick; t < end; t++) {
        values[row + t] = (values[row + t] as number) + share * (takeSum(t) + under);
      }
      if (end > most) most = end;
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
