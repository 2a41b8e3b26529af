import { define, isRefusal } from '../define.ts';
import { hoursOf, NIGHT_PARAMS, NIGHT_SOURCE, NIGHT_USE, nights, tellNight } from './night.ts';

export const NIGHT_LONGEST = define({
  name: 'NIGHT.LONGEST',
  family: 'Sun and greenhouse',
  summary: 'The longest unbroken night of all months that are grown in.',
  use: `${NIGHT_USE} For crops that flower in long days: CHECK.DAY.LENGTH takes 24 h/d less it. For those of short days it is NIGHT.SHORTEST that decides.`,
  formula: 'greatest over the months of the longest piece of the day with neither sun, twilight nor lamps',
  params: NIGHT_PARAMS,
  returns: { quantity: 'length of the night', unit: 'h/d' },
  source: NIGHT_SOURCE,
  examples: [
    { formula: 'NIGHT.LONGEST(52,,4,20)', gives: 8, within: 1e-9 },
    { formula: 'NIGHT.LONGEST(52,,12,12)', gives: 14.85, within: 2e-2 },
  ],
  work: (args, show) => {
    const all = nights('NIGHT.LONGEST', args);
    if (isRefusal(all)) return all;
    return tellNight(
      show,
      all,
      all.reduce((a, b) => (hoursOf(b) > hoursOf(a) ? b : a)),
      'longest',
    );
  },
});
