import { say } from '../check-args.ts';
import { define } from '../define.ts';
import { onAssumption, WHAT_IS_ASSUMED } from './margin.ts';

/** Whether a photoperiod suits how a crop takes day length. */
export function checkDayLength(dayLength: string, hours: number, night: number): string {
  const dark = 24 - hours;
  if (dayLength === 'neutral') return 'holds, day-neutral';
  if (dayLength === 'short') {
    return dark >= night - 1e-9
      ? `holds, night of ${say(dark)} h`
      : `fails, night of ${say(dark)} h can keep a short-day crop from flowering; ${say(night)} h are asked`;
  }
  return dark < night ? `holds, night of ${say(dark)} h` : `assumed, leaves are wanted: a night of ${say(dark)} h keeps it from flowering`;
}

const KINDS = ['short', 'long', 'neutral', 'unknown'] as const;

export const CHECK_DAY_LENGTH = define({
  name: 'CHECK.DAY.LENGTH',
  family: 'Check',
  summary: 'Holds, assumed or fails: hours of light against a crop’s day-length response.',
  use: 'Count sun and lamps together: 24 less DARK.HOURS. In long nights a long-day crop stays in leaf: that this is wanted, as of salads, is assumed and said. Where the kind is assumed, the check says assumed instead of holds.',
  formula: 'short: 24 − hours ≥ shortest night; long: 24 − hours below it',
  params: [
    {
      name: 'day length',
      quantity: 'kind of crop by day length',
      unit: 'text',
      meaning: '“short”, “long” or “neutral”; blank means not known',
      blankAllowed: true,
      oneOf: KINDS,
    },
    { name: 'hours', quantity: 'hours of light', unit: 'h/d', meaning: 'sun and lamps together', atLeast: 0, atMost: 24 },
    {
      name: 'shortest night',
      quantity: 'night that a short-day crop needs',
      unit: 'h/d',
      meaning: '12 h/d unless said; kinds differ by an hour or two',
      optional: true,
      fallback: 12,
      atLeast: 0,
      atMost: 24,
    },
    {
      name: 'assumed day length',
      quantity: 'kind of crop that is assumed',
      unit: 'text',
      meaning: 'stands in where the kind is blank or unknown; the check then says assumed instead of holds',
      optional: true,
      blankAllowed: true,
      oneOf: KINDS,
    },
    WHAT_IS_ASSUMED,
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source:
    'W. W. Garner and H. A. Allard, Effect of the relative length of day and night, Journal of Agricultural Research 18, 1920; a night of 12 h is common practice, no published source',
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.DAY.LENGTH("neutral",16)', gives: 'holds, day-neutral' },
    { formula: 'CHECK.DAY.LENGTH("long",16)', gives: 'holds, night of 8 h' },
  ],
  work: ([dayLength, hours, night, assumed, what], show) => {
    show?.note('what counts for such crops is the unbroken night');
    if (dayLength !== null && dayLength !== 'unknown') return checkDayLength(dayLength, hours, night);
    if (assumed === null || assumed === undefined || assumed === 'unknown') return 'unknown, no day-length response is given';
    show?.note('the crop’s day-length response is not known: the assumed one is taken');
    return onAssumption(checkDayLength(assumed, hours, night), 'day length', what ?? assumed);
  },
});
