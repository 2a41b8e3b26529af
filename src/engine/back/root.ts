/**
 * Where a function crosses nothing between two places at which it has different signs. Source: R. P. Brent, Algorithms for Minimization without Derivatives
 * (1973), chapter 4. The two places that are left, as near to each other as numbers get, tell a crossing from a jump.
 */
import type { Difference, Sample } from './sample.ts';

export interface Bracket {
  /** Nearest to nothing. */
  readonly best: Sample;
  /** On the other side of it; `best` itself where that is nothing. */
  readonly other: Sample;
  /** A place between the two at which the function has no value: the search ended there. */
  readonly gap?: number;
}

const MOST_STEPS = 200;
/** Two numbers beside each other differ by this share. */
const BESIDE = 2 ** -52;

/** `width`: of all that is looked at; nearer to 0 than a part in 10¹⁷ of it nothing is told apart. */
export function rootBetween(f: Difference, from: Sample, to: Sample, width: number): Bracket {
  let [a, b] = [from, to];
  let c = a;
  let step = b.x - a.x;
  let before = step;
  for (let n = 0; n < MOST_STEPS; n++) {
    if (Math.sign(b.f) === Math.sign(c.f)) {
      c = a;
      step = b.x - a.x;
      before = step;
    }
    if (Math.abs(c.f) < Math.abs(b.f)) {
      a = b;
      b = c;
      c = a;
    }
    const least = BESIDE * Math.abs(b.x) + 1e-17 * width;
    const half = (c.x - b.x) / 2;
    if (b.f === 0) return { best: b, other: b };
    if (Math.abs(half) <= least) return { best: b, other: c };
    const tried = Math.abs(before) < least || Math.abs(a.f) <= Math.abs(b.f) ? undefined : interpolated(a, b, c, half);
    const good = tried !== undefined && 2 * Math.abs(tried) < Math.min(3 * Math.abs(half) - Math.abs(least), Math.abs(before));
    before = good ? step : half;
    step = good ? tried : half;
    a = b;
    const x = b.x + (Math.abs(step) > least ? step : half > 0 ? least : -least);
    b = f(x);
    if (Number.isNaN(b.f)) return { best: a, other: c, gap: x };
  }
  return { best: b, other: c };
}

/** The step to where a parabola on its side, or a straight line, crosses; undefined where there is none. */
function interpolated(a: Sample, b: Sample, c: Sample, half: number): number | undefined {
  const s = b.f / a.f;
  let p: number;
  let q: number;
  if (a.x === c.x) {
    p = 2 * half * s;
    q = 1 - s;
  } else {
    const [t, r] = [a.f / c.f, b.f / c.f];
    p = s * (2 * half * t * (t - r) - (b.x - a.x) * (r - 1));
    q = (t - 1) * (r - 1) * (s - 1);
  }
  if (q === 0) return undefined;
  // A step away from the bracket is none.
  const step = p / -q;
  return step * half > 0 ? step : undefined;
}
