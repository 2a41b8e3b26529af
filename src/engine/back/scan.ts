/**
 * A given's whole range looked through. Places are taken evenly, closer and closer towards the lower end and about the present value, since a range is often
 * far wider than what anybody would choose; then closer wherever the function bends so much that it might reach nothing in between.
 */
import { type Difference, isWorked, type Sample } from './sample.ts';

const EVENLY = 96;
const TOWARDS_LOW = 40;
const ABOUT_NOW = 20;
/** Places added where the function bends, and how often one stretch is halved. */
const MOST_ADDED = 240;
const DEEPEST = 7;

/** Places in order, both ends among them. */
export function places(low: number, high: number, now: number | undefined): readonly number[] {
  const width = high - low;
  const found: number[] = [low, high];
  for (let i = 1; i < EVENLY; i++) found.push(low + (width * i) / EVENLY);
  for (let i = 0; i < TOWARDS_LOW; i++) found.push(low + width * 10 ** (-6 * (1 - i / TOWARDS_LOW)));
  if (now !== undefined && now >= low && now <= high) {
    found.push(now);
    const reach = Math.max(Math.abs(now), width * 1e-6);
    for (let i = 0; i < ABOUT_NOW; i++) {
      const off = reach * 10 ** (-4 * (1 - i / ABOUT_NOW));
      found.push(now - off, now + off);
    }
  }
  const inside = found.filter((x) => x >= low && x <= high).sort((a, b) => a - b);
  return inside.filter((x, i) => i === 0 || x > (inside[i - 1] as number));
}

/** The samples at these places and at those added, in order. Yields what share is done. */
export function* scan(f: Difference, at: readonly number[]): Generator<number, Sample[]> {
  let samples: Sample[] = [];
  for (const [i, x] of at.entries()) {
    samples.push(f(x));
    yield (0.6 * i) / at.length;
  }
  let left = MOST_ADDED;
  for (let depth = 0; depth < DEEPEST && left > 0; depth++) {
    const closer: Sample[] = [];
    const before = left;
    for (const [i, sample] of samples.entries()) {
      closer.push(sample);
      const next = samples[i + 1];
      if (!next || left === 0 || !mayReach(samples, i)) continue;
      const x = (sample.x + next.x) / 2;
      if (x <= sample.x || x >= next.x) continue;
      closer.push(f(x));
      left--;
      yield 0.6 + (0.2 * (MOST_ADDED - left)) / MOST_ADDED;
    }
    samples = closer;
    if (left === before) break;
  }
  return samples;
}

/** Whether the function, bending as it does about there, might come to nothing between a place and the next, or once more than its signs show. */
function mayReach(samples: readonly Sample[], i: number): boolean {
  const [from, to] = [samples[i], samples[i + 1]];
  if (!isWorked(from) || !isWorked(to) || (from.f === 0 && to.f === 0)) return false;
  const bend = Math.max(bendAt(samples, i), bendAt(samples, i + 1));
  const [a, b] = [Math.abs(from.f), Math.abs(to.f)];
  return Math.sign(from.f) === Math.sign(to.f) ? bend > Math.min(a, b) : bend > a + b;
}

function bendAt(samples: readonly Sample[], i: number): number {
  const [a, b, c] = [samples[i - 1], samples[i], samples[i + 1]];
  return isWorked(a) && isWorked(b) && isWorked(c) ? bend(a, b, c) : 0;
}

/** How far a sample lies off the straight line between those beside it. */
export const bend = (a: Sample, b: Sample, c: Sample): number => Math.abs(a.f + ((c.f - a.f) * (b.x - a.x)) / (c.x - a.x) - b.f);
