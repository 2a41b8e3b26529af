/**
 * The mirror images of wide terms. Between mirrors of reflectance ρ a Gaussian that is wider than the bench sees every one of hundreds of
 * images, of every face from every point. But it is smooth over the bench, and the images stand in two rows of whole benches L: with g the
 * mean of e^(−τt²) over a face, a face at u and a point at x, the even images add up to A(x − u), the odd ones to B(x + u − L),
 *
 *   A(d) = Σ ρ^|n| g(d − nL), n even,   B(d) = Σ ρ^|n| g(d − nL), n odd,
 *
 * both even functions of one distance, −L ≤ d ≤ L. So each is taken at a few distances, whatever the number of faces and points, and is a
 * polynomial in d² between them: Σ aₚ Tₚ(2d²/L² − 1), through the Chebyshev nodes. What depends on x and u is the sum of the Tₚ alone.
 *
 * Error of the polynomial with P nodes for √τL ≤ 1: 2(1/4)^P/P! of e^(−τd²), and less from every pair of images, e^(−τn²L²)·cosh(2τnLd): 1e-9 with
 * eight. Source for the interpolation: J. C. Mason and D. C. Handscomb, Chebyshev Polynomials, 2003, chapter 6.
 */
import { addFaces } from './face-means.ts';
import type { Terms } from './gaussian-terms.ts';
import { type AxisSources, type Images, imageCount } from './images.ts';

/** Terms with √τ·L up to here are wide. */
const WIDE = 1;
const NODES = 8;

export interface WideImages {
  /** How many terms are wide, from the first on. */
  readonly count: number;
  /** How many images at either end the other terms can reach. */
  readonly imagesBeyond: number;
  /** Adds the wide terms' values for the moments of a point to its row. */
  readonly addTo: (values: Float64Array, row: number, moments: Float64Array) => void;
}

/** Tₚ summed over the faces: first for their even images, then for the odd ones. */
export function evenMoments(x: number, { centres, bench }: AxisSources): Float64Array {
  const moments = new Float64Array(2 * NODES);
  const add = (d: number, from: number): void => {
    const z = 2 * (d / bench) ** 2 - 1;
    let [before, now] = [z, 1];
    for (let p = 0; p < NODES; p++) {
      moments[from + p] = (moments[from + p] as number) + now;
      [before, now] = [now, 2 * z * now - before];
    }
  };
  for (const u of centres) {
    add(x - u, 0);
    add(x + u - bench, NODES);
  }
  return moments;
}

const known = new Map<string, WideImages>();
/** A layout of fixtures put freely asks for the same one again and again: two axes and a few kinds of fixture. */
const KEPT = 32;

export function wideImages(terms: Terms, size: number, bench: number, sides: number): WideImages {
  const key = `${terms.rule.k} ${terms.first} ${terms.count} ${terms.lowest} ${terms.highest} ${size} ${bench} ${sides}`;
  const kept = known.get(key);
  if (kept) return kept;
  const made = make(terms, size, bench, sides);
  if (known.size >= KEPT) known.delete(known.keys().next().value as string);
  known.set(key, made);
  return made;
}

function make(terms: Terms, size: number, bench: number, sides: number): WideImages {
  const { rootTau, count: all, rule } = terms;
  let count = 0;
  while (count < all && (rootTau[count] as number) * bench <= WIDE) count++;
  const most = imageCount(sides);
  // A narrow term counts to a gap of √(high/τ): one image more for the place in the bench and one for the face.
  const reach = count < all ? Math.sqrt(rule.high) / ((rootTau[count] as number) * bench) : 0;
  const even = coefficients(terms, count, size, bench, sides, 0, most);
  const odd = coefficients(terms, count, size, bench, sides, 1, most);
  return {
    count,
    imagesBeyond: Math.min(most, Math.ceil(reach) + 2),
    addTo: (values, row, moments) => {
      for (let t = 0; t < count; t++) {
        let sum = 0;
        for (let p = 0; p < NODES; p++) {
          sum += (even[t * NODES + p] as number) * (moments[p] as number) + (odd[t * NODES + p] as number) * (moments[NODES + p] as number);
        }
        values[row + t] = (values[row + t] as number) + sum;
      }
    },
  };
}

/** aₚ of every wide term, for the images of one parity. */
function coefficients(terms: Terms, count: number, size: number, bench: number, sides: number, parity: number, most: number): Float64Array {
  const images: Images[] = [];
  for (let n = parity; n <= most; n += 2) images.push({ share: sides ** n, at: n === 0 ? [0] : [-n * bench, n * bench] });
  const angles = Array.from({ length: NODES }, (_, j) => ((j + 0.5) * Math.PI) / NODES);
  const nodes = angles.map((angle) => bench * Math.sqrt((1 + Math.cos(angle)) / 2));
  const values = new Float64Array(NODES * terms.count);
  addFaces(terms, 0, count, nodes, images, size, values);
  const found = new Float64Array(count * NODES);
  for (let p = 0; p < NODES; p++) {
    for (const [j, angle] of angles.entries()) {
      const share = ((p === 0 ? 1 : 2) / NODES) * Math.cos(p * angle);
      for (let t = 0; t < count; t++) found[t * NODES + p] = (found[t * NODES + p] as number) + share * (values[j * terms.count + t] as number);
    }
  }
  return found;
}
