import { define, isRefusal } from '../define.ts';
import { CHECK_SOURCE, checkedValue, LIMIT, LOOK_WITHIN, limitOf, NO_LIMIT, percent, same, showMargin, VALUE } from './margin.ts';

/** "holds", "look" or "fails" with the margin under or over a limit. */
export function checkAtMost(value: number, limit: number, lookWithin: number): string {
  if (same(value, limit)) return lookWithin > 0 ? 'look, at the limit' : 'holds, at the limit';
  if (limit === 0) return value < 0 ? 'holds, below a limit of zero' : 'fails, above a limit of zero';
  const margin = (limit - value) / Math.abs(limit);
  if (margin < 0) return `fails, ${percent(margin)} over`;
  return `${margin < lookWithin ? 'look' : 'holds'}, ${percent(margin)} under`;
}

export const CHECK_AT_MOST = define({
  name: 'CHECK.AT.MOST',
  family: 'Check',
  summary: 'Holds, look or fails: a value against a limit that it must not pass.',
  use: 'The first word is the verdict, then the margin. A blank limit is unknown, which never counts as holding.',
  formula: '(limit − value) / |limit| against 0 and the share that deserves a look',
  params: [VALUE, LIMIT, LOOK_WITHIN],
  returns: { quantity: 'verdict', unit: 'text' },
  source: CHECK_SOURCE,
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.AT.MOST(95.6,100)', gives: 'look, 4.4 % under' },
    { formula: 'CHECK.AT.MOST(80,100)', gives: 'holds, 20 % under' },
    { formula: 'CHECK.AT.MOST(112,100)', gives: 'fails, 12 % over' },
  ],
  work: ([given, givenLimit, lookWithin], show) => {
    const value = checkedValue('CHECK.AT.MOST', given);
    if (isRefusal(value)) return value;
    const limit = limitOf('CHECK.AT.MOST', 'limit', givenLimit);
    if (isRefusal(limit)) return limit;
    if (limit === undefined) {
      show?.note('no limit is known, so nothing can be said');
      return NO_LIMIT;
    }
    showMargin(show, 'margin', value, limit, limit);
    show?.note(`“look” below a margin of ${lookWithin}`);
    return checkAtMost(value, limit, lookWithin);
  },
});
