/**
 * The field by brute force: adaptive Gauss–Kronrod quadrature over each face, straight from the law of the emitter. It shares nothing
 * with the kernel but the definition of a layout's faces, whose positions layout.test.ts checks by hand.
 *
 * With u = h tan θ and v = D tan φ, D = h / cos θ, the mean of r^(−2k) over a face becomes a double integral of powers of cosines, smooth
 * however near or far the point is.
 *
 * Nodes and weights of the 7/15-point pair: R. Piessens et al., QUADPACK, 1983, routine QK15.
 */
import type { Face } from '../../../functions/field/layout.ts';

const NODES = [0.9914553711208126, 0.9491079123427585, 0.8648644233597691, 0.7415311855993945, 0.5860872354676911, 0.4058451513773972, 0.20778495500789848, 0];
const KRONROD = [
  0.022935322010529224, 0.06309209262997856, 0.10479001032225019, 0.14065325971552592, 0.1690047266392679, 0.19035057806478542, 0.20443294007529889,
  0.20948214108472782,
];
const GAUSS = [0.1294849661688697, 0.27970539148927664, 0.3818300505051189, 0.4179591836734694];

function pair(f: (x: number) => number, a: number, b: number): { value: number; error: number } {
  const [middle, half] = [(a + b) / 2, (b - a) / 2];
  let [kronrod, gauss] = [0, 0];
  for (let i = 0; i < 8; i++) {
    const node = NODES[i] as number;
    const sum = i === 7 ? f(middle) : f(middle - half * node) + f(middle + half * node);
    kronrod += (KRONROD[i] as number) * sum;
    if (i % 2 === 1) gauss += (GAUSS[(i - 1) / 2] as number) * sum;
  }
  return { value: kronrod * half, error: Math.abs(kronrod - gauss) * Math.abs(half) };
}

/** ∫ f from a to b, to `relative` of its own size. */
export function integrate(f: (x: number) => number, a: number, b: number, relative: number): number {
  if (a === b) return 0;
  let pieces = [{ a, b, ...pair(f, a, b) }];
  for (let round = 0; round < 200; round++) {
    const total = pieces.reduce((sum, p) => sum + p.value, 0);
    const error = pieces.reduce((sum, p) => sum + p.error, 0);
    if (error <= relative * Math.abs(total)) return total;
    const worst = pieces.reduce((most, p) => (p.error > most.error ? p : most));
    const middle = (worst.a + worst.b) / 2;
    pieces = pieces.filter((p) => p !== worst);
    pieces.push({ a: worst.a, b: middle, ...pair(f, worst.a, middle) }, { a: middle, b: worst.b, ...pair(f, middle, worst.b) });
  }
  throw new Error('the quadrature did not come to an end');
}

export interface Emitter {
  readonly ppf: number;
  readonly length: number;
  readonly width: number;
  /** Exponent of the cosine. */
  readonly m: number;
}

/**
 * PPFD at (x, y) from the centre of the face, h below it. `inner` and `outer`: relative accuracy of the two integrals.
 * Lengths are taken in heights: h^(−2k) itself passes the range of numbers for a narrow beam.
 */
export function ppfdByQuadrature({ ppf, length, width, m }: Emitter, h: number, x: number, y: number, outer = 1e-9, inner = 1e-11): number {
  const k = (m + 3) / 2;
  const scale = (ppf * (m + 1)) / (2 * Math.PI * h * h);
  const line = (D: number, centre: number, size: number): number => {
    if (size === 0) return (D * D + centre * centre) ** -k;
    const [from, to] = [Math.atan((centre - size / 2) / D), Math.atan((centre + size / 2) / D)];
    return (D ** (1 - 2 * k) * integrate((phi) => Math.cos(phi) ** (2 * k - 2), from, to, inner)) / size;
  };
  const [a, b, u, v] = [length / h, width / h, x / h, y / h];
  if (a === 0) return scale * line(Math.hypot(1, u), v, b);
  const over = (theta: number): number => line(1 / Math.cos(theta), v, b) / Math.cos(theta) ** 2;
  return (scale * integrate(over, Math.atan(u - a / 2), Math.atan(u + a / 2), outer)) / a;
}

/** PPFD from many faces. */
export function fieldByQuadrature(all: readonly Face[], emitter: { ppf: number; m: number }, h: number, x: number, y: number): number {
  return all.reduce((sum, f) => sum + ppfdByQuadrature({ ...emitter, length: f.length, width: f.width }, h, x - f.x, y - f.y), 0);
}
