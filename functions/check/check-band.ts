import { define, isRefusal, refuse } from '../define.ts';
import { atHighEnd, atLowEnd, type Ends, endsOf, worded } from './ends.ts';
import { ASSUMED_LIMIT, CHECK_SOURCE, checkedValue, LIMIT, NO_LIMIT, same, showMargin, VALUE, WHAT_IS_ASSUMED } from './margin.ts';

/** Where there is no band to lie in the middle of, how near the one end counts as close. */
const CLOSE_WITHIN = 0.05;

const TRIED = 'the crop is known only from trials';

const fails = (text: string | undefined): text is string => text?.startsWith('fails') === true;

/**
 * A band over the years of a plan: aged light must reach the low end, new light must not pass the high one. Says the nearer end, and both
 * where both are missed.
 */
export function checkBand(kept: number, dayOne: number, { low, high }: Ends): string {
  const atLow = low.limit === undefined ? undefined : `${atLowEnd(kept, low.limit)}, maintained`;
  const atHigh = high.limit === undefined ? undefined : `${atHighEnd(dayOne, high.limit)}, day one`;
  if (fails(atLow) && fails(atHigh)) return `${atLow}; ${atHigh.replace(/^fails, /, '')}`;
  if (fails(atLow)) return atLow;
  if (fails(atHigh)) return atHigh;
  if (atLow === undefined && atHigh === undefined) return NO_LIMIT;
  if (low.limit === undefined || atLow === undefined) return 'unknown, no low limit given';
  if (high.open) return `${atLowEnd(kept, low.limit, CLOSE_WITHIN)}, maintained; no high end is named`;
  if (high.limit === undefined || atHigh === undefined) return 'unknown, no high limit given';
  return kept - low.limit < high.limit - dayOne ? atLow : atHigh;
}

export const CHECK_BAND = define({
  name: 'CHECK.BAND',
  family: 'Check',
  summary: 'Holds or fails: light over the years of a plan against the band that a crop wants.',
  use: 'The low end is held against maintained light, when lamps have aged, the high end against day-one light, when they are new. A blank end is unknown, unless the other already fails; where CROP.DLI gives “no high end”, the low end alone decides, and is close within 5 %. Where an end is assumed, or the crop is known only from trials, the check says assumed instead of holds.',
  formula: 'low ≤ maintained and day one ≤ high',
  params: [
    { ...VALUE, name: 'maintained', quantity: 'maintained light', meaning: 'when the years of the plan are over' },
    { ...VALUE, name: 'day one', quantity: 'day-one light', meaning: 'of the same kind, when all is new' },
    { ...LIMIT, name: 'low', quantity: 'low end' },
    { ...LIMIT, name: 'high', quantity: 'high end' },
    { ...ASSUMED_LIMIT, name: 'assumed low', quantity: 'low end that is assumed' },
    { ...ASSUMED_LIMIT, name: 'assumed high', quantity: 'high end that is assumed' },
    WHAT_IS_ASSUMED,
    {
      name: 'only tried',
      quantity: 'whether the band is only a range from trials',
      unit: 'yes or no',
      meaning: 'as CROP.TRIED gives it: nobody recommends such a band',
      optional: true,
      fallback: false,
    },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: CHECK_SOURCE,
  unchecked: 'It words two comparisons; the wording is our own.',
  examples: [
    { formula: 'CHECK.BAND(13,14,12,18)', gives: 'holds, 8.3 % above the low end, maintained' },
    { formula: 'CHECK.BAND(28,30.8,20,30)', gives: 'fails, 2.7 % over the high end, day one' },
    { formula: 'CHECK.BAND(15,17,13,"no high end")', gives: 'holds, 15 % above the low end, maintained; no high end is named' },
  ],
  work: ([givenKept, givenDayOne, givenLow, givenHigh, assumedLow, assumedHigh, what, tried], show) => {
    const kept = checkedValue('CHECK.BAND', givenKept);
    if (isRefusal(kept)) return kept;
    const dayOne = checkedValue('CHECK.BAND', givenDayOne);
    if (isRefusal(dayOne)) return dayOne;
    if (kept > dayOne && !same(kept, dayOne)) return refuse('CHECK.BAND: maintained light is more than day-one light; swap them.');
    const ends = endsOf('CHECK.BAND', givenLow, givenHigh, assumedLow, assumedHigh);
    if (isRefusal(ends)) return ends;
    const { low, high } = ends;
    if (low.limit !== undefined) showMargin(show, 'margin of maintained light above the low end', low.limit, kept, low.limit);
    if (high.limit !== undefined) showMargin(show, 'margin of day-one light below the high end', dayOne, high.limit, high.limit);
    if (tried) show?.note(TRIED);
    const text = worded(checkBand(kept, dayOne, ends), ends, what ?? undefined);
    return tried ? `${text.replace(/^holds\b/, 'assumed')}; ${TRIED}` : text;
  },
});
