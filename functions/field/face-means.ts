/**
 * The mean of e^(−τt²) over faces on one axis, for each term: what the separable sum is made of.
 *
 * Over a face of size s at distance d: √π/(2√τ s)·[erf(√τ(d + s/2)) − erf(√τ(d − s/2))], taken as a difference of erfc where the
 * point is beside the face, so that the far tail keeps its digits. Where √τ·s is below THIN that difference would lose digits the
 * other way, and the middle of the face with its second-order term, e^(−τd²)(1 + τs²/12·(2τd² − 1)), is good to 1e-9 even at the edge of what counts.
 */
import { erfcUp } from '../numeric/error-function.ts';
import type { Terms } from './gaussian-terms.ts';
import type { Images } from './images.ts';

const THIN = 0.001;

/** From which term on the face is no longer thin. */
function thickFrom({ rootTau, count }: Terms, size: number): number {
  let t = 0;
  while (t < count && (rootTau[t] as number) * size < THIN) t++;
  return t;
}

/**
 * Adds the faces' parts of the terms from `from` to `to` to the rows of `values`, one a point; gives for each point the end of the terms that count
 * there. Nearly all the time goes in the inner loop: it stands in one function with the reader of erfc, so that the compiler takes that in and no number is boxed.
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
  const erfc = erfcUp;
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
      for (let t = thick; t < reach; t++) {
        const root = rootTau[t] as number;
        values[row + t] = (values[row + t] as number) + constant + (nearWeight * erfc(root * near) - weight * erfc(root * far));
      }
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
