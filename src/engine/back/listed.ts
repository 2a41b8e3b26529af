/** What is looked for among whole numbers and in lists: those for which it is just what is wanted, else the two neighbours between which it steps over it. */
import { type Difference, furthest, isWorked, type Sample } from './sample.ts';
import { places } from './scan.ts';
import type { Finding, Searched } from './search.ts';

/** As many are tried one by one; of more, a part, and then those between which it lies. */
const ALL = 1_000;

/** Of the numbers 0 to `count` − 1, which stand for what is tried in order. */
export function* searchInOrder(f: Difference, count: number, now: number | undefined): Generator<number, Searched> {
  const tried =
    count <= ALL ? Array.from({ length: count }, (_, i) => i) : [...new Set(places(0, count - 1, now).map(Math.round))].filter((n) => n >= 0 && n < count);
  const samples: Sample[] = [];
  for (const [i, n] of tried.entries()) {
    const sample = f(n);
    if (isWorked(sample)) samples.push(sample);
    yield (0.9 * i) / tried.length;
  }
  const findings: Finding[] = [];
  for (const [i, sample] of samples.entries()) {
    const before = samples[i - 1];
    const last = findings.at(-1);
    if (sample.f === 0) {
      if (before?.f === 0 && last && last.kind !== 'step') findings[findings.length - 1] = { kind: 'stretch', from: startOf(last), to: sample.x };
      else findings.push({ kind: 'exact', x: sample.x });
    } else if (before && before.f * sample.f < 0) findings.push(stepIn(f, before, sample));
  }
  return { findings, lowest: furthest(samples, -1), highest: furthest(samples, 1) };
}

const startOf = (one: Exclude<Finding, { kind: 'step' }>): number => (one.kind === 'exact' ? one.x : one.from);

/** Halved until the two are beside each other, or one of them is just what is wanted. */
function stepIn(f: Difference, from: Sample, to: Sample): Finding {
  let [a, b] = [from, to];
  while (b.x - a.x > 1) {
    const middle = f(Math.floor((a.x + b.x) / 2));
    if (middle.f === 0) return { kind: 'exact', x: middle.x };
    if (!isWorked(middle)) break;
    if (middle.f * a.f > 0) a = middle;
    else b = middle;
  }
  return { kind: 'step', from: a.x, to: b.x };
}

export interface InNoOrder {
  readonly exact: readonly number[];
  /** Those that come nearest to what is wanted on either side; only where none is just that. */
  readonly below: number | undefined;
  readonly above: number | undefined;
  readonly lowest: Sample | undefined;
  readonly highest: Sample | undefined;
}

/** Of texts, which have no order. */
export function* searchInNoOrder(f: Difference, count: number): Generator<number, InNoOrder> {
  const samples: Sample[] = [];
  for (let n = 0; n < count; n++) {
    const sample = f(n);
    if (isWorked(sample)) samples.push(sample);
    yield n / count;
  }
  const exact = samples.filter(({ f: off }) => off === 0).map(({ x }) => x);
  const side = (sign: 1 | -1): number | undefined =>
    exact.length > 0
      ? undefined
      : furthest(
          samples.filter(({ f: off }) => sign * off > 0),
          sign === 1 ? -1 : 1,
        )?.x;
  return { exact, below: side(-1), above: side(1), lowest: furthest(samples, -1), highest: furthest(samples, 1) };
}
