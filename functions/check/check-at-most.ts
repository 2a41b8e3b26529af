import { define, isRefusal } from '../define.ts';
import {
  ASSUMED_LIMIT,
  CHECK_SOURCE,
  CLOSE,
  checkedValue,
  heldTo,
  LIMIT,
  LOOK_WITHIN,
  NO_LIMIT,
  onAssumption,
  percent,
  same,
  showMargin,
  VALUE,
  WHAT_IS_ASSUMED,
} from './margin.ts';

/** Of a limit of which the source says that it names none. */
const NONE_NAMED = 'assumed, no high end is named';

/** "holds", "look" or "fails" with the margin under or over a limit. */
export function checkAtMost(value: number, limit: number, lookWithin: number): string {
  if (same(value, limit)) return lookWithin > 0 ? `${CLOSE}, at the limit` : 'holds, at the limit';
  if (limit === 0) return value < 0 ? 'holds, below a limit of zero' : 'fails, above a limit of zero';
  const margin = (limit - value) / Math.abs(limit);
  if (margin < 0) return `fails, ${percent(margin)} over`;
  return `${margin < lookWithin ? CLOSE : 'holds'}, ${percent(margin)} under`;
}

export const CHECK_AT_MOST = define({
  name: 'CHECK.AT.MOST',
  family: 'Check',
  summary: 'Holds, close to limit or fails: a value against a limit that it must not pass.',
  use: 'The first word is the verdict, then the margin. A blank limit is unknown, which never counts as holding; where one is assumed in its place, or CROP.DLI gives “no high end”, the check says assumed instead of holds.',
  formula: '(limit − value) / |limit| against 0 and the share that counts as close',
  params: [VALUE, LIMIT, LOOK_WITHIN, ASSUMED_LIMIT, WHAT_IS_ASSUMED],
  returns: { quantity: 'verdict', unit: 'text' },
  source: CHECK_SOURCE,
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.AT.MOST(95.6,100)', gives: 'close to limit, 4.4 % under' },
    { formula: 'CHECK.AT.MOST(80,100)', gives: 'holds, 20 % under' },
    { formula: 'CHECK.AT.MOST(112,100)', gives: 'fails, 12 % over' },
    { formula: 'CHECK.AT.MOST(325,"unknown",0.05,500,"500 on a leaf")', gives: 'assumed, 35 % under; limit assumed: 500 on a leaf' },
  ],
  work: ([given, givenLimit, lookWithin, assumed, what], show) => {
    const value = checkedValue('CHECK.AT.MOST', given);
    if (isRefusal(value)) return value;
    const held = heldTo('CHECK.AT.MOST', 'limit', givenLimit, assumed);
    if (isRefusal(held)) return held;
    const { limit } = held;
    if (held.open) {
      show?.note('the source names no high end: that there is none is taken for granted');
      return NONE_NAMED;
    }
    if (limit === undefined) {
      show?.note('no limit is known, so nothing can be said');
      return NO_LIMIT;
    }
    showMargin(show, 'margin', value, limit, limit);
    if (held.assumed) show?.note('no limit is known: the one that is assumed is taken');
    show?.note(`“${CLOSE}” below a margin of ${lookWithin}`);
    const text = checkAtMost(value, limit, lookWithin);
    return held.assumed ? onAssumption(text, 'limit', what ?? undefined) : text;
  },
});
