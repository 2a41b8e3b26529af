import { define, isRefusal, refuse } from '../define.ts';
import { checkAtLeast } from './check-at-least.ts';
import { checkAtMost } from './check-at-most.ts';
import { CHECK_SOURCE, checkedValue, LIMIT, limitOf, NO_LIMIT, showMargin, VALUE } from './margin.ts';

const fails = (text: string): boolean => text.startsWith('fails');

/** "holds" or "fails" against a band, with the margin to the nearer end; "unknown" where an end is not known and the known one is kept. */
export function checkWithin(value: number, low: number | undefined, high: number | undefined): string {
  const atLow = low === undefined ? undefined : checkAtLeast(value, low, 0).replace('the least', 'the low end').replace('a least', 'a low end');
  const atHigh =
    high === undefined
      ? undefined
      : checkAtMost(value, high, 0)
          .replace(/(over|under)$/, '$1 the high end')
          .replace('at the limit', 'at the high end');
  if (atLow !== undefined && fails(atLow)) return atLow;
  if (atHigh !== undefined && fails(atHigh)) return atHigh;
  if (low === undefined && high === undefined) return NO_LIMIT;
  if (low === undefined) return 'unknown, no low limit given';
  if (high === undefined) return 'unknown, no high limit given';
  if (low === high) return 'holds, as asked';
  return value - low < high - value ? `${atLow}` : `${atHigh}`;
}

export const CHECK_WITHIN = define({
  name: 'CHECK.WITHIN',
  family: 'Check',
  summary: 'Holds or fails: a value against a band.',
  use: 'The first word is the verdict, then the margin to the nearer end. A blank end is unknown, unless the other already fails.',
  formula: 'low ≤ value ≤ high',
  params: [VALUE, { ...LIMIT, name: 'low', quantity: 'low end' }, { ...LIMIT, name: 'high', quantity: 'high end' }],
  returns: { quantity: 'verdict', unit: 'text' },
  source: CHECK_SOURCE,
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.WITHIN(13,12,18)', gives: 'holds, 8.3 % above the low end' },
    { formula: 'CHECK.WITHIN(20,12,18)', gives: 'fails, 11 % over the high end' },
    { formula: 'CHECK.WITHIN(24,24,24)', gives: 'holds, as asked' },
  ],
  work: ([given, givenLow, givenHigh], show) => {
    const value = checkedValue('CHECK.WITHIN', given);
    if (isRefusal(value)) return value;
    const low = limitOf('CHECK.WITHIN', 'low', givenLow);
    if (isRefusal(low)) return low;
    const high = limitOf('CHECK.WITHIN', 'high', givenHigh);
    if (isRefusal(high)) return high;
    if (low !== undefined && high !== undefined && low > high) return refuse('CHECK.WITHIN: the low end is above the high end; change them round.');
    if (show) {
      if (low !== undefined) showMargin(show, 'margin above the low end', low, value, low);
      if (high !== undefined) showMargin(show, 'margin below the high end', value, high, high);
      show.note(low === undefined || high === undefined ? 'an end of the band is not known' : 'the nearer end is said');
    }
    return checkWithin(value, low, high);
  },
});
