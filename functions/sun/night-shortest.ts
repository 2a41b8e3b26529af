import { define, isRefusal } from '../define.ts';
import { hoursOf, NIGHT_PARAMS, NIGHT_SOURCE, NIGHT_USE, nights, tellNight } from './night.ts';

export const NIGHT_SHORTEST = define({
  name: 'NIGHT.SHORTEST',
  family: 'Sun and greenhouse',
  summary: 'The shortest unbroken night of all months that are grown in.',
  use: `${NIGHT_USE} For crops that flower in short days: CHECK.DAY.LENGTH takes 24 h/d less it. For those of long days it is NIGHT.LONGEST that decides.`,
  formula: 'least over the months of the longest piece of the day with neither sun, twilight nor lamps',
  params: NIGHT_PARAMS,
  returns: { quantity: 'length of the night', unit: 'h/d' },
  source: NIGHT_SOURCE,
  examples: [
    { formula: 'NIGHT.SHORTEST(52,,6,18)', gives: 5.69, within: 1e-2 },
    { formula: 'NIGHT.SHORTEST(52,,8,18,18,8)', gives: 14 },
  ],
  work: (args, show) => {
    const all = nights('NIGHT.SHORTEST', args);
    if (isRefusal(all)) return all;
    return tellNight(
      show,
      all,
      all.reduce((a, b) => (hoursOf(b) < hoursOf(a) ? b : a)),
      'shortest',
    );
  },
});
