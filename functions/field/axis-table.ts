/**
 * One axis of the separable sum: for each point and each term, the mean of e^(−τt²) over the face, summed over the fixtures that
 * stand along the axis and over their mirror images.
 *
 * mean over a face of size s at distance d: √π/(2√τ s)·[erf(√τ(d + s/2)) − erf(√τ(d − s/2))], taken as a difference of erfc where the
 * point is beside the face, so that the far tail keeps its digits. Where √τ·s is below THIN that difference would lose digits the
 * other way, and the middle of the face with its second-order term, e^(−τd²)(1 + τs²/12·(2τd² − 1)), is good to 2e-7 at the edge of what counts.
 */
import { erfcUp } from '../numeric/error-function.ts';
import { type Terms, termsWithin } from './gaussian-terms.ts';

const THIN = 0.01;

/** Fixtures along one axis, all of one size there. */
export interface AxisSources {
  readonly centres: readonly number[];
  readonly size: number;
  /** Length of the bench on this axis and reflectance of its two ends. */
  readonly bench: number;
  readonly sides: number;
}

export interface AxisTable {
  /** Point by point, `terms.count` values each; without the factor that `axisFactor` gives. */
  readonly values: Float64Array;
  /** How many of a point's terms are not zero. */
  readonly filled: Int32Array;
}

/** What the light left in the reflections that are not followed may be, as a share of all. */
const REFLECTION_LEFT = 1e-7;

/** Reflections followed at either end: 2ρ^(n+1)/(1+ρ) of an even field is what lies beyond the n-th; half of REFLECTION_LEFT on each axis. */
export function imageCount(sides: number): number {
  if (sides === 0) return 0;
  return Math.max(0, Math.ceil(Math.log((REFLECTION_LEFT / 4) * (1 + sides)) / Math.log(sides) - 1));
}

/** From which term on the face is no longer thin. */
function thickFrom({ rootTau, count }: Terms, size: number): number {
  let t = 0;
  while (t < count && (rootTau[t] as number) * size < THIN) t++;
  return t;
}

export function axisTable(terms: Terms, lowest: number, points: ArrayLike<number>, sources: AxisSources): AxisTable {
  const { count } = terms;
  const { centres, size, bench, sides } = sources;
  const values = new Float64Array(points.length * count);
  const filled = new Int32Array(points.length);
  const images = imageCount(sides);
  const thick = thickFrom(terms, size);
  for (let i = 0; i < points.length; i++) {
    const x = points[i] as number;
    let most = 0;
    for (let c = 0; c < centres.length; c++) {
      const u = centres[c] as number;
      most = Math.max(most, addFace(terms, lowest, Math.abs(x - u), size, 1, thick, values, i * count));
      // The n-th image at either end: shifted by whole benches, mirrored when n is odd.
      for (let n = 1, share = sides; n <= images; n++, share *= sides) {
        const image = n % 2 === 0 ? u : bench - u;
        addFace(terms, lowest, Math.abs(x - n * bench - image), size, share, thick, values, i * count);
        addFace(terms, lowest, Math.abs(x + n * bench - image), size, share, thick, values, i * count);
      }
    }
    filled[i] = images > 0 ? count : most;
  }
  return { values, filled };
}

/** Adds one face's part to a point's row; gives how many terms it reached. */
function addFace(terms: Terms, lowest: number, d: number, size: number, share: number, thick: number, values: Float64Array, row: number): number {
  const { tau, rootTau } = terms;
  const near = d - size / 2;
  const reach = termsWithin(terms, near > 0 ? lowest * lowest + near * near : lowest * lowest);
  const thin = Math.min(thick, reach);
  for (let t = 0; t < thin; t++) {
    const q = (tau[t] as number) * d * d;
    values[row + t] = (values[row + t] as number) + share * Math.exp(-q) * (1 + (((tau[t] as number) * size * size) / 12) * (2 * q - 1));
  }
  const farther = d + size / 2;
  if (near >= 0) {
    for (let t = thin; t < reach; t++) {
      const root = rootTau[t] as number;
      values[row + t] = (values[row + t] as number) + share * (erfcUp(root * near) - erfcUp(root * farther));
    }
  } else {
    for (let t = thin; t < reach; t++) {
      const root = rootTau[t] as number;
      values[row + t] = (values[row + t] as number) + share * (2 - erfcUp(-root * near) - erfcUp(root * farther));
    }
  }
  return reach;
}

/** √π/(2√τ s) for the terms that were taken as differences of erfc, 1 for the others: multiplied into the weights, once for all points. */
export function axisFactor(terms: Terms, size: number, weights: Float64Array): void {
  for (let t = thickFrom(terms, size); t < terms.count; t++) {
    weights[t] = ((weights[t] as number) * Math.sqrt(Math.PI)) / (2 * (terms.rootTau[t] as number) * size);
  }
}
