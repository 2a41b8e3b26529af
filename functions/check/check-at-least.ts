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

/** "holds", "look" or "fails" with the margin above or below the least that is allowed. */
export function checkAtLeast(value: number, least: number, lookWithin: number): string {
  if (same(value, least)) return lookWithin > 0 ? `${CLOSE}, at the least` : 'holds, at the least';
  if (least === 0) return value > 0 ? 'holds, above a least of zero' : 'fails, below a least of zero';
  const margin = (value - least) / Math.abs(least);
  if (margin < 0) return `fails, ${percent(margin)} below the least`;
  return `${margin < lookWithin ? CLOSE : 'holds'}, ${percent(margin)} above the least`;
}

export const CHECK_AT_LEAST = define({
  name: 'CHECK.AT.LEAST',
  family: 'Check',
  summary: 'Holds, close to limit or fails: a value against the least that it must reach.',
  use: 'The first word is the verdict, then the margin. A blank limit is unknown, which never counts as holding; where one is assumed in its place, the check says assumed instead of holds.',
  formula: '(value − least) / |least| against 0 and the share that counts as close',
  params: [VALUE, { ...LIMIT, name: 'least', quantity: 'least allowed' }, LOOK_WITHIN, { ...ASSUMED_LIMIT, name: 'assumed least' }, WHAT_IS_ASSUMED],
  returns: { quantity: 'verdict', unit: 'text' },
  source: CHECK_SOURCE,
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.AT.LEAST(109,100)', gives: 'holds, 9 % above the least' },
    { formula: 'CHECK.AT.LEAST(0.55,0.6)', gives: 'fails, 8.3 % below the least' },
  ],
  work: ([given, givenLeast, lookWithin, assumed, what], show) => {
    const value = checkedValue('CHECK.AT.LEAST', given);
    if (isRefusal(value)) return value;
    const held = heldTo('CHECK.AT.LEAST', 'least', givenLeast, assumed);
    if (isRefusal(held)) return held;
    const { limit: least } = held;
    if (least === undefined) {
      show?.note('no limit is known, so nothing can be said');
      return NO_LIMIT;
    }
    showMargin(show, 'margin', least, value, least);
    if (held.assumed) show?.note('no least is known: the one that is assumed is taken');
    show?.note(`“${CLOSE}” below a margin of ${lookWithin}`);
    const text = checkAtLeast(value, least, lookWithin);
    return held.assumed ? onAssumption(text, 'least', what ?? undefined) : text;
  },
});
