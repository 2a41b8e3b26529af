/**
 * One axis of the separable sum: for each point and each term, the mean of e^(−τt²) over the face, summed over the fixtures that
 * stand along the axis and over their mirror images.
 *
 * mean over a face of size s at distance d: √π/(2√τ s)·[erf(√τ(d + s/2)) − erf(√τ(d − s/2))], taken as a difference of erfc where the
 * point is beside the face, so that the far tail keeps its digits. Where √τ·s is below THIN that difference would lose digits the
 * other way, and the middle of the face with its second-order term, e^(−τd²)(1 + τs²/12·(2τd² − 1)), is good to 1e-9 even at the edge of what counts.
 */
import { erfcUp } from '../numeric/error-function.ts';
import { type Terms, termsWithin } from './gaussian-terms.ts';

const THIN = 0.001;

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
  readonly filled: readonly number[];
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

/** Centres of the faces and of their mirror images along one axis, with the share of the light that each has left. */
interface Images {
  readonly at: readonly number[];
  readonly share: readonly number[];
}

function imagesOf({ centres, bench, sides }: AxisSources): Images {
  const images = imageCount(sides);
  const at: number[] = [];
  const share: number[] = [];
  for (const u of centres) {
    // The n-th image at either end: shifted by whole benches, mirrored when n is odd.
    for (let n = -images; n <= images; n++) {
      at.push(n * bench + (n % 2 === 0 ? u : bench - u));
      share.push(sides ** Math.abs(n));
    }
  }
  return { at, share };
}

export function axisTable(terms: Terms, lowest: number, points: readonly number[], sources: AxisSources): AxisTable {
  const { count } = terms;
  const { size } = sources;
  const values = new Float64Array(points.length * count);
  const filled: number[] = [];
  const { at, share } = imagesOf(sources);
  const thick = thickFrom(terms, size);
  for (let i = 0; i < points.length; i++) {
    const x = points[i] as number;
    let most = 0;
    for (let c = 0; c < at.length; c++) {
      const distance = Math.abs(x - (at[c] as number));
      const gap = Math.max(0, distance - size / 2);
      const reach = termsWithin(terms, lowest * lowest + gap * gap);
      addFace(terms, distance, size, share[c] as number, thick, reach, values, i * count);
      if (reach > most) most = reach;
    }
    filled.push(most);
  }
  return { values, filled };
}

/** Adds one face's part of the first `reach` terms to a point's row. */
function addFace(
  { tau, rootTau }: Terms,
  distance: number,
  size: number,
  share: number,
  thick: number,
  reach: number,
  values: Float64Array,
  row: number,
): void {
  const thin = Math.min(thick, reach);
  for (let t = 0; t < thin; t++) {
    const q = (tau[t] as number) * distance * distance;
    const bent = (tau[t] as number) * size * size;
    values[row + t] = (values[row + t] as number) + share * Math.exp(-q) * (1 + (bent / 12) * (2 * q - 1));
  }
  // erf b − erf a is erfc a − erfc b where both are on one side, 2 − erfc(−a) − erfc b where the point is under the face.
  const under = distance < size / 2;
  addDifferences(rootTau, Math.abs(distance - size / 2), distance + size / 2, under ? 2 * share : 0, under ? -share : share, share, thin, reach, values, row);
}

/** The loop in which nearly all the time goes. By itself, and with erfc written in it twice only, so that the compiler takes erfc in. */
function addDifferences(
  rootTau: Float64Array,
  near: number,
  far: number,
  constant: number,
  nearShare: number,
  farShare: number,
  from: number,
  to: number,
  values: Float64Array,
  row: number,
): void {
  for (let t = from; t < to; t++) {
    const root = rootTau[t] as number;
    values[row + t] = (values[row + t] as number) + (constant + nearShare * erfcUp(root * near) - farShare * erfcUp(root * far));
  }
}

/** √π/(2√τ s) for the terms that were taken as differences of erfc, 1 for the others: multiplied into the weights, once for all points. */
export function axisFactor(terms: Terms, size: number, weights: Float64Array): void {
  for (let t = thickFrom(terms, size); t < terms.count; t++) {
    weights[t] = ((weights[t] as number) * Math.sqrt(Math.PI)) / (2 * (terms.rootTau[t] as number) * size);
  }
}
