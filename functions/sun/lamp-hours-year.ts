import { say } from '../check-args.ts';
import { hoursForDli } from '../day/hours-for-dli.ts';
import { HOURS, PPFD } from '../day/params.ts';
import { define, isRefusal, refuse } from '../define.ts';
import { numbers } from '../ranges.ts';
import { MONTHS } from './months.ts';

export const LAMP_HOURS_YEAR = define({
  name: 'LAMP.HOURS.YEAR',
  family: 'Sun and greenhouse',
  summary: 'Hours a year that lamps are on to fill each month’s gap.',
  use: 'With the twelve monthly gaps from January, as if all days of a month were like its mean day: where they differ, LAMP.HOURS.MEAN gives more. Where the hours allowed are too few the month stays short, and the working says so.',
  formula: 'Σ days · min(gap · 10⁶ / (ppfd · 3600), hours limit)',
  params: [
    {
      name: 'gaps',
      quantity: 'light per day to add',
      unit: 'mol/m²/d',
      shape: 'range',
      meaning: 'twelve, January first, as DLI.GAP gives them',
      atLeast: 0,
      atMost: 1000,
    },
    { ...PPFD, atLeast: 0.001, meaning: 'of the lamps, maintained, on the crop' },
    { ...HOURS, name: 'hours limit', meaning: 'most hours a day that the lamps may be on' },
  ],
  returns: { quantity: 'hours a year', unit: 'h/year' },
  source: 'By counting: the days of each month of a common year times the hours that fill its gap',
  examples: [{ formula: 'LAMP.HOURS.YEAR({7.2,7.2,0,0,0,0,0,0,0,0,0,14.4},200,16)', gives: 1086, within: 1e-9 }],
  work: ([range, ppfd, limit], show) => {
    const gaps = numbers('LAMP.HOURS.YEAR', 'gaps', range);
    if (isRefusal(gaps)) return gaps;
    if (gaps.length !== 12)
      return refuse(`LAMP.HOURS.YEAR: gaps holds ${gaps.length} numbers; twelve are needed, one for each month, 0 where there is no gap.`);
    const wanted = gaps.map((gap) => hoursForDli(gap, ppfd));
    const hours = wanted.map((h, month) => Math.min(h, limit) * (MONTHS[month]?.days ?? 0));
    const value = hours.reduce((sum, h) => sum + h, 0);
    if (show) {
      show.sum(
        'month by month',
        () => hours.map((h, month) => ({ label: `${MONTHS[month]?.name}: ${say(Math.min(wanted[month] ?? 0, limit))} h/d`, value: h })),
        1,
        value,
        'h/year',
      );
      const short = MONTHS.flatMap(({ name }, month) => ((wanted[month] ?? 0) > limit ? [name] : []));
      if (short.length > 0) show.note(`The limit of ${say(limit)} h/d binds, so the gap is not filled, in ${short.join(', ')}.`);
    }
    return value;
  },
});
