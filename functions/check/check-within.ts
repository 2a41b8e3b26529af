import { define, isRefusal } from '../define.ts';
import { atHighEnd, atLowEnd, type Ends, endsOf, worded } from './ends.ts';
import { ASSUMED_LIMIT, CHECK_SOURCE, checkedValue, LIMIT, NO_LIMIT, showMargin, VALUE, WHAT_IS_ASSUMED } from './margin.ts';

const fails = (text: string): boolean => text.startsWith('fails');

/** "holds" or "fails" against a band, with the margin to the nearer end; "unknown" where an end is not known and the known one is kept. */
export function checkWithin(value: number, { low, high }: Ends): string {
  const atLow = low.limit === undefined ? undefined : atLowEnd(value, low.limit);
  const atHigh = high.limit === undefined ? undefined : atHighEnd(value, high.limit);
  if (atLow !== undefined && fails(atLow)) return atLow;
  if (atHigh !== undefined && fails(atHigh)) return atHigh;
  if (low.limit === undefined && high.limit === undefined) return NO_LIMIT;
  if (low.limit === undefined) return 'unknown, no low limit given';
  if (high.limit === undefined) return 'unknown, no high limit given';
  if (low.limit === high.limit) return 'holds, as asked';
  return value - low.limit < high.limit - value ? `${atLow}` : `${atHigh}`;
}

export const CHECK_WITHIN = define({
  name: 'CHECK.WITHIN',
  family: 'Check',
  summary: 'Holds or fails: a value against a band.',
  use: 'The first word is the verdict, then the margin to the nearer end. A blank end is unknown, unless the other already fails; where one is assumed in its place, the check says assumed instead of holds.',
  formula: 'low ≤ value ≤ high',
  params: [
    VALUE,
    { ...LIMIT, name: 'low', quantity: 'low end' },
    { ...LIMIT, name: 'high', quantity: 'high end' },
    { ...ASSUMED_LIMIT, name: 'assumed low', quantity: 'low end that is assumed' },
    { ...ASSUMED_LIMIT, name: 'assumed high', quantity: 'high end that is assumed' },
    WHAT_IS_ASSUMED,
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: CHECK_SOURCE,
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.WITHIN(13,12,18)', gives: 'holds, 8.3 % above the low end' },
    { formula: 'CHECK.WITHIN(20,12,18)', gives: 'fails, 11 % over the high end' },
    { formula: 'CHECK.WITHIN(24,24,24)', gives: 'holds, as asked' },
  ],
  work: ([given, givenLow, givenHigh, assumedLow, assumedHigh, what], show) => {
    const value = checkedValue('CHECK.WITHIN', given);
    if (isRefusal(value)) return value;
    const ends = endsOf('CHECK.WITHIN', givenLow, givenHigh, assumedLow, assumedHigh);
    if (isRefusal(ends)) return ends;
    const { low, high } = ends;
    if (show) {
      if (low.limit !== undefined) showMargin(show, 'margin above the low end', low.limit, value, low.limit);
      if (high.limit !== undefined) showMargin(show, 'margin below the high end', value, high.limit, high.limit);
      show.note(low.limit === undefined || high.limit === undefined ? 'an end of the band is not known' : 'the nearer end is said');
    }
    return worded(checkWithin(value, ends), ends, what ?? undefined);
  },
});
