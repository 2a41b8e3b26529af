/**
 * The photons that land on the bench, as an exact integral of the field: the same sum of Gaussians, each axis integrated over the
 * bench as well as averaged over the face.
 *
 * With F(z) = z·erf z + e^(−z²)/√π, the integral of erf, one axis is √π/(2τs)·[F(b₁) − F(b₂) − F(a₁) + F(a₂)], its four arguments √τ times
 * the distances between the ends of bench and face. F(z) = |z| + g(|z|) with g(z) = e^(−z²)/√π − z·erfc z: the |z| add up to the length that
 * bench and face share, and the g keep their digits for a face that hangs far away.
 */
import { erfcUp } from '../numeric/error-function.ts';
import { type Crossing, crossings } from './crossings.ts';
import { axisFactor } from './face-means.ts';
import { ruleFor, type Terms, termsFor, weightsAt } from './gaussian-terms.ts';
import { type AxisSources, imageCount } from './images.ts';
import { type Layout, layoutPpf } from './layout.ts';
import { evenMoments, type WideImages, wideImages } from './wide-images.ts';

const ROOT_PI = Math.sqrt(Math.PI);

/** Below this √τ·s the second difference of F would lose digits; the middle of the face with its second-order term is good to 1e-9 there. */
const THIN = 0.01;

/** g(z) = e^(−z²)/√π − z·erfc z, z ≥ 0. */
const beyond = (z: number): number => Math.exp(-z * z) / ROOT_PI - z * erfcUp(z);

/** ∫ over the bench from a to b (distances from the face's centre) of the mean over the face of e^(−τt²). */
function landingOnAxis(tau: number, root: number, a: number, b: number, size: number): number {
  if (root * size < THIN) {
    const plain = (ROOT_PI / (2 * root)) * erfBetween(root * a, root * b);
    // The face's width spreads the Gaussian: s²/24 of its second derivative, integrated, is the difference of its first derivatives.
    const slope = (t: number): number => -2 * tau * t * Math.exp(-tau * t * t);
    return plain + ((size * size) / 24) * (slope(b) - slope(a));
  }
  const s = size / 2;
  const shared = Math.max(0, Math.min(b, s) - Math.max(a, -s));
  const tails = beyond(root * Math.abs(b + s)) - beyond(root * Math.abs(b - s)) - beyond(root * Math.abs(a + s)) + beyond(root * Math.abs(a - s));
  return (ROOT_PI / root) * (shared / size) + (ROOT_PI / (2 * tau * size)) * tails;
}

/** erf b − erf a, a < b, with its digits kept on either side of zero. */
function erfBetween(a: number, b: number): number {
  if (a >= 0) return erfcUp(a) - erfcUp(b);
  if (b <= 0) return erfcUp(-b) - erfcUp(-a);
  return 2 - erfcUp(-a) - erfcUp(b);
}

/**
 * Half of the eight nodes on −1 … 1 and their weights: exact for the polynomials in which wide-images.ts takes the wide terms. Source: M. Abramowitz and
 * I. A. Stegun, Handbook of Mathematical Functions, 1964, table 25.4.
 */
const LEGENDRE = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
] as const;

/** One axis: for each centre, the landing of every term, with its reflections. Where the centres are symmetric, the last half is the first one. */
function axisLandings(terms: Terms, { centres, size, bench, sides }: AxisSources, centred: boolean): Float64Array[] {
  const wide = sides === 0 ? undefined : wideImages(terms, size, bench, sides);
  const from = wide?.count ?? 0;
  const images = wide?.imagesBeyond ?? 0;
  const rows: Float64Array[] = [];
  for (const [i, u] of centres.entries()) {
    const twin = centres.length - 1 - i;
    if (centred && twin < i) {
      rows.push(rows[twin] as Float64Array);
      continue;
    }
    const row = new Float64Array(terms.count);
    if (wide) addWide(terms, wide, { centres: [u], size, bench, sides }, row);
    for (let t = from; t < terms.count; t++) {
      const [tau, root] = [terms.tau[t] as number, terms.rootTau[t] as number];
      let sum = landingOnAxis(tau, root, -u, bench - u, size);
      for (let n = 1, share = sides; n <= images; n++, share *= sides) {
        const image = n % 2 === 0 ? u : bench - u;
        sum += share * landingOnAxis(tau, root, -image - n * bench, bench - image - n * bench, size);
        sum += share * landingOnAxis(tau, root, -image + n * bench, bench - image + n * bench, size);
      }
      row[t] = sum;
    }
    rows.push(row);
  }
  return rows;
}

/** The wide terms, integrated over the bench. */
function addWide(terms: Terms, wide: WideImages, sources: AxisSources, row: Float64Array): void {
  const { bench, size } = sources;
  const moments = evenMoments(0, { ...sources, centres: [] });
  for (const [node, weight] of LEGENDRE) {
    for (const side of [-1, 1]) {
      for (const [p, moment] of evenMoments((bench * (1 + side * node)) / 2, sources).entries()) {
        moments[p] = (moments[p] as number) + ((bench * weight) / 2) * moment;
      }
    }
  }
  wide.addTo(row, 0, moments);
  axisFactor(terms, size, row);
}

/** Both axes of one crossing, and the weights of the terms, µmol/s·m⁻² each. */
function landingParts({ bench, sides }: Layout, c: Crossing, height: number): { x: Float64Array[]; y: Float64Array[]; weights: Float64Array } {
  const axis = (at: readonly number[], face: number, size: number): number =>
    Math.max(size, at[at.length - 1] as number) - Math.min(0, at[0] as number) + face + imageCount(sides) * size;
  const far = Math.hypot(axis(c.xs, c.length, bench.length), axis(c.ys, c.width, bench.width));
  const terms = termsFor(ruleFor(c.m), height, height, far);
  return {
    x: axisLandings(terms, { centres: c.xs, size: c.length, bench: bench.length, sides }, c.centred),
    y: axisLandings(terms, { centres: c.ys, size: c.width, bench: bench.width, sides }, c.centred),
    weights: weightsAt(terms, c.ppf, c.m, height),
  };
}

const total = (rows: readonly Float64Array[], t: number): number => rows.reduce((sum, row) => sum + (row[t] as number), 0);

/** Photons that land on the bench over photons emitted. With reflecting sides this counts what they throw back. */
export function landingShare(layout: Layout, height: number): number {
  let landed = 0;
  for (const c of crossings(layout)) {
    const { x, y, weights } = landingParts(layout, c, height);
    for (let t = 0; t < weights.length; t++) landed += (weights[t] as number) * total(x, t) * total(y, t);
  }
  return landed / layoutPpf(layout);
}

/** What each fixture lands on the bench, µmol/s, in the order of `faces`. */
export function fixtureLandings(layout: Layout, height: number): number[] {
  return crossings(layout).flatMap((c) => {
    const { x, y, weights } = landingParts(layout, c, height);
    return y.flatMap((row) => x.map((column) => weights.reduce((sum, w, t) => sum + w * (column[t] as number) * (row[t] as number), 0)));
  });
}
