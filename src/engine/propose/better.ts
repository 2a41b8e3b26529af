/** Which of two arrangements is the better answer. Ties: the cheaper, then the one with fewer lights, then the first in the listed order; so the answer is one, however the space was cut up. */
import type { Aim, Layout } from './types.ts';

type Rated = Pick<Layout, 'annual' | 'evenness' | 'count' | 'place' | 'metres'>;

const less = (a: number, b: number): number => (a === b || (Number.isNaN(a) && Number.isNaN(b)) ? 0 : Number.isNaN(a) ? 1 : Number.isNaN(b) || a < b ? -1 : 1);

const RATED: Readonly<Record<Aim, readonly ((a: Rated, b: Rated) => number)[]>> = {
  cheapest: [(a, b) => less(a.annual, b.annual)],
  'most even': [(a, b) => (Number.isNaN(a.evenness) || Number.isNaN(b.evenness) ? less(a.evenness, b.evenness) : less(b.evenness, a.evenness))],
  'fewest lights': [(a, b) => less(a.count, b.count)],
};

/** Less than 0 where a is the better answer. */
export function compare(aim: Aim, a: Rated, b: Rated): number {
  for (const by of RATED[aim]) {
    const found = by(a, b);
    if (found !== 0) return found;
  }
  return less(a.annual, b.annual) || less(a.count, b.count) || a.place - b.place || less(a.metres, b.metres);
}

export const better = <T extends Rated>(aim: Aim, a: T | undefined, b: T | undefined): T | undefined => (!a ? b : !b || compare(aim, a, b) <= 0 ? a : b);
