/**
 * All values of a given, between two limits, for which a cell comes to what is wanted.
 *
 * Promised: each crossing that shows itself at the places looked at, to the last digits that numbers have; each step over what is wanted, told as a step; each
 * stretch on which it is just that, with its ends; a place at which the function only touches it, where it bends there as the places about it say.
 * Not promised: what happens wholly between two neighbouring places where the function runs straight as far as these show. There are some 180 places, more
 * where it bends (scan.ts); formulas of a plan are smooth or go by steps of a size that anybody would plan with.
 */
import { rootBetween } from './root.ts';
import { type Difference, furthest, isWorked, type Sample } from './sample.ts';
import { bend, places, scan } from './scan.ts';

export type Finding =
  | { readonly kind: 'exact'; readonly x: number }
  | { readonly kind: 'stretch'; readonly from: number; readonly to: number }
  /** Beside each other; what comes of one is below what is wanted, of the other above. */
  | { readonly kind: 'step'; readonly from: number; readonly to: number };

export interface Searched {
  readonly findings: readonly Finding[];
  /** What lies lowest and highest of all that was looked at; none where nothing could be worked out. */
  readonly lowest: Sample | undefined;
  readonly highest: Sample | undefined;
}

/** Places at which the function comes closest to what is wanted without reaching it that are looked at. */
const MOST_NEAR = 12;
/** A function that bends by less than this share of its distance does not reach what is wanted between two places. */
const LEAST_BEND = 0.1;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const GOLDEN_STEPS = 60;
const HALVINGS = 60;
/** A difference of this share of the values is none where a step is looked for: what the working of a function leaves. */
const NOISE = 1e-9;
/** A step rises so many times as steeply as the function about it. */
const STEEPER = 1e4;

export function* search(f: Difference, low: number, high: number, now: number | undefined): Generator<number, Searched> {
  const samples = yield* scan(f, places(low, high, now));
  const seeker = new Seeker(f, high - low);
  for (let i = 0; i < samples.length; i++) {
    i = seeker.from(samples, i);
    yield 0.8 + (0.1 * i) / samples.length;
  }
  const [lowest, highest] = [furthest(samples, -1), furthest(samples, 1)];
  const findings = apart(seeker.findings, high - low);
  if (findings.length > 0) return { findings, lowest, highest };
  yield 0.9;
  const least = lowest && beyond(f, samples, lowest, -1);
  yield 0.95;
  return { findings, lowest: least, highest: highest && beyond(f, samples, highest, 1) };
}

/** The highest or lowest about a sample. */
function beyond(f: Difference, samples: readonly Sample[], about: Sample, sign: 1 | -1): Sample {
  const i = samples.indexOf(about);
  const [left, right] = [samples[i - 1] ?? about, samples[i + 1] ?? about];
  if (left.f === about.f || right.f === about.f) return about;
  return golden(
    (x) => f(x),
    left.x,
    right.x,
    (a, b) => (isWorked(a) ? (isWorked(b) ? sign * a.f > sign * b.f : true) : false),
    about,
  );
}

function golden(
  f: Difference,
  left: number,
  right: number,
  better: (a: Sample, b: Sample) => boolean,
  about: Sample,
  enough?: (one: Sample) => boolean,
): Sample {
  let [a, b] = [left, right];
  let best = about;
  let [p, q] = [f(b - GOLDEN * (b - a)), f(a + GOLDEN * (b - a))];
  for (let n = 0; n < GOLDEN_STEPS; n++) {
    for (const one of [p, q]) if (better(one, best)) best = one;
    if (enough?.(best) || p.x >= q.x) break;
    if (better(p, q)) {
      b = q.x;
      q = p;
      p = f(b - GOLDEN * (b - a));
    } else {
      a = p.x;
      p = q;
      q = f(a + GOLDEN * (b - a));
    }
  }
  return best;
}

class Seeker {
  readonly findings: Finding[] = [];
  readonly #f: Difference;
  readonly #width: number;
  #near = MOST_NEAR;

  constructor(f: Difference, width: number) {
    this.#f = f;
    this.#width = width;
  }

  /** Looks from one sample to the next; gives the place of the last sample that is done with. */
  from(samples: readonly Sample[], i: number): number {
    const [a, b, c] = [samples[i] as Sample, samples[i + 1], samples[i + 2]];
    if (a.f === 0) return this.#stretch(samples, i);
    if (!b) return i;
    if (isWorked(a) !== isWorked(b)) this.#border(a, b);
    else if (isWorked(a) && b.f !== 0) {
      if (a.f * b.f < 0) this.#crossing(a, b, 0);
      else if (isWorked(c) && c.f * b.f > 0) this.#touching(a, b, c);
    }
    return i;
  }

  /** From a sample that is just what is wanted: how far it stays so on both sides. */
  #stretch(samples: readonly Sample[], i: number): number {
    let last = i;
    while (samples[last + 1]?.f === 0) last++;
    const [first, end] = [samples[i] as Sample, samples[last] as Sample];
    this.#around(first, end, samples[i - 1], samples[last + 1]);
    return last;
  }

  /** `before` and `after` are not what is wanted, or nothing lies there. */
  #around(first: Sample, last: Sample, before: Sample | undefined, after: Sample | undefined): void {
    const beside = this.#width * 1e-7;
    const wide = first.x < last.x;
    const lower = before && this.#isStill(first.x, before.x, wide ? 0 : beside) ? this.#edge(first.x, before.x) : first.x;
    const upper = after && this.#isStill(last.x, after.x, wide ? 0 : beside) ? this.#edge(last.x, after.x) : last.x;
    this.findings.push(lower < upper ? { kind: 'stretch', from: lower, to: upper } : { kind: 'exact', x: first.x });
  }

  #isStill(x: number, towards: number, beside: number): boolean {
    if (beside === 0) return true;
    if (Math.abs(towards - x) <= beside) return false;
    return this.#f(x + Math.sign(towards - x) * beside).f === 0;
  }

  /** The last place towards another at which it is still what is wanted. */
  #edge(inside: number, outside: number): number {
    let [a, b] = [inside, outside];
    for (let n = 0; n < HALVINGS; n++) {
      const x = (a + b) / 2;
      if (x === a || x === b) break;
      if (this.#f(x).f === 0) a = x;
      else b = x;
    }
    return a;
  }

  /** Between a place with a value and one without: what comes of the last that has one. */
  #border(a: Sample, b: Sample): void {
    const [inside, outside] = isWorked(a) ? [a, b] : [b, a];
    if (inside.f === 0) return;
    const last = this.#lastWorked(inside, outside.x);
    if (last.f === 0) this.#around(last, last, inside, undefined);
    else if (last.f * inside.f < 0) this.#crossing(inside, last, 0);
  }

  #lastWorked(inside: Sample, outside: number): Sample {
    let [a, b] = [inside, outside];
    for (let n = 0; n < HALVINGS; n++) {
      const x = (a.x + b) / 2;
      if (x === a.x || x === b) break;
      const sample = this.#f(x);
      if (isWorked(sample)) a = sample;
      else b = x;
    }
    return a;
  }

  #crossing(from: Sample, to: Sample, depth: number): void {
    const found = rootBetween(this.#f, from, to, this.#width);
    if (found.gap !== undefined) {
      // No value in between: each side is looked at up to where it has none.
      if (depth > 4) return;
      for (const side of [from, to]) {
        const last = this.#lastWorked(side, found.gap);
        if (last.f === 0) this.#around(last, last, side, undefined);
        else if (last.f * side.f < 0) this.#crossing(side, last, depth + 1);
      }
      return;
    }
    const { best, other } = found;
    if (best.f === 0) {
      this.#around(best, best, from.x < to.x ? from : to, from.x < to.x ? to : from);
      return;
    }
    const jump = Math.abs(best.f - other.f);
    const slope = Math.abs((to.f - from.f) / (to.x - from.x));
    const isStep = jump > NOISE * Math.max(best.size, other.size) && jump > STEEPER * slope * Math.abs(best.x - other.x);
    if (!isStep) this.findings.push({ kind: 'exact', x: best.x });
    // A function that flees to both sides, as 1/x does, steps over nothing.
    else if (Math.abs(best.f) < 1e6 * Math.max(Math.abs(from.f), Math.abs(to.f)))
      this.findings.push({ kind: 'step', from: Math.min(best.x, other.x), to: Math.max(best.x, other.x) });
  }

  /** A place that is nearer to what is wanted than those beside it, all on one side of it. */
  #touching(a: Sample, b: Sample, c: Sample): void {
    const near = Math.abs(b.f);
    // Where it bends so little it goes on as it goes.
    if (bend(a, b, c) < LEAST_BEND * near) return;
    if (near > Math.abs(a.f) || near > Math.abs(c.f) || (near === Math.abs(a.f) && near === Math.abs(c.f)) || this.#near === 0) return;
    this.#near--;
    const nearer = (p: Sample, q: Sample): boolean => isWorked(p) && (!isWorked(q) || p.f * Math.sign(b.f) < q.f * Math.sign(b.f));
    const best = golden(this.#f, a.x, c.x, nearer, b, (one) => one.f * b.f <= 0);
    if (best.f === 0) this.#around(best, best, a, c);
    else if (best.f * b.f < 0) {
      this.#crossing(a, best, 0);
      this.#crossing(best, c, 0);
    } else if (Math.abs(best.f) <= Math.max(1e-10 * Math.min(Math.abs(a.f), Math.abs(c.f)), 1e-12 * best.size)) {
      this.findings.push({ kind: 'exact', x: best.x });
    }
  }
}

/** In order, each once. */
function apart(findings: readonly Finding[], width: number): readonly Finding[] {
  const start = (one: Finding): number => (one.kind === 'exact' ? one.x : one.from);
  const end = (one: Finding): number => (one.kind === 'exact' ? one.x : one.to);
  const sorted = [...findings].sort((a, b) => start(a) - start(b));
  return sorted.filter((one, i) => {
    const before = sorted[i - 1];
    return !before || start(one) - end(before) > 1e-12 * Math.max(Math.abs(start(one)), width * 1e-3);
  });
}
