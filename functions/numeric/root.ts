/** A sign change of a continuous function, bracketed. */

export interface Root {
  readonly x: number;
  readonly steps: number;
}

/** Enough for any bracket of doubles: bisection alone needs about 60 halvings, and every third step at worst is one. */
const MOST_STEPS = 200;

/**
 * Brent's method: inverse quadratic interpolation where it converges, bisection where it does not; it never leaves the bracket.
 * `fa` and `fb`, the values at the ends, must differ in sign (one may be 0). Ends when the bracket is `tolerance`·|x| or narrower.
 *
 * Source: R. P. Brent, Algorithms for Minimization Without Derivatives, 1973, chapter 4 (procedure zero).
 */
export function brent(f: (x: number) => number, left: number, right: number, fLeft: number, fRight: number, tolerance = 1e-13): Root {
  let [a, b, fa, fb] = [left, right, fLeft, fRight];
  let [c, fc] = [a, fa];
  let [d, e] = [b - a, b - a];
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    if (fb > 0 === fc > 0) {
      [c, fc] = [a, fa];
      d = b - a;
      e = d;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const small = 2 * Number.EPSILON * Math.abs(b) + tolerance * Math.abs(b);
    const half = (c - b) / 2;
    if (Math.abs(half) <= small || fb === 0) return { x: b, steps };
    if (Math.abs(e) < small || Math.abs(fa) <= Math.abs(fb)) {
      d = half;
      e = half;
    } else {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = fb / fc;
        const t = fa / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(small * q), Math.abs(e * q))) {
        e = d;
        d = p / q;
      } else {
        d = half;
        e = half;
      }
    }
    [a, fa] = [b, fb];
    b += Math.abs(d) > small ? d : half > 0 ? small : -small;
    fb = f(b);
  }
  return { x: b, steps: MOST_STEPS };
}

/** Where a decreasing or increasing function of our own making crosses zero; the ends are evaluated here. */
export const rootBetween = (f: (x: number) => number, a: number, b: number, tolerance?: number): number => brent(f, a, b, f(a), f(b), tolerance).x;
