import { dli } from '../day/dli.ts';
import { hoursForDli } from '../day/hours-for-dli.ts';
import { HOURS, PPFD } from '../day/params.ts';
import { calc, define } from '../define.ts';
import { normalBelow } from '../numeric/normal.ts';

/** What the sun lacks of some light, mean over days whose sun is normally spread: ∫ max(0, light − s) f(s) ds, by parts. */
function missing(light: number, sun: number, spread: number): number {
  if (spread === 0) return Math.max(0, light - sun);
  const z = (light - sun) / spread;
  return (light - sun) * normalBelow(z) + (spread * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}

const LIGHT = { unit: 'mol/m²/d', atLeast: 0, atMost: 1000 } as const;

export const LAMP_HOURS_MEAN = define({
  name: 'LAMP.HOURS.MEAN',
  family: 'Sun and greenhouse',
  summary: 'Hours a day that lamps are on to fill what each day’s sun leaves open, mean over bright days and dull ones.',
  use: 'For lamps that follow the day: off when the sun has done, on for all the hours allowed when it is dull. In a month whose mean day has no gap they are on all the same, on its dull days. Takes the sun of single days as normally spread, and less than none as none; times the days of the month gives its hours.',
  formula:
    '(m(target) − m(dull)) · 10⁶ / (ppfd · 3600), m(x) = (x − sun) Φ(z) + spread · φ(z), z = (x − sun)/spread, dull = target − what the lamps give at most',
  params: [
    { ...LIGHT, name: 'sun', quantity: 'light per day from the sun', meaning: 'on the bench, mean over the days' },
    { ...LIGHT, name: 'spread', quantity: 'spread of it from day to day', meaning: 'standard deviation: the sun times the spread of clearness over its mean' },
    { ...PPFD, atLeast: 0.001, meaning: 'of the lamps, maintained, on the crop' },
    { ...LIGHT, name: 'target', quantity: 'light per day wanted', meaning: 'the crop’s daily light' },
    { ...HOURS, name: 'hours limit', meaning: 'most hours a day that the lamps may be on' },
  ],
  returns: { quantity: 'hours a day, mean', unit: 'h/d' },
  source:
    'Closed form, by parts, of the mean of min(max(0, target − sun) / lamps an hour, limit); normal spread of the daily sun: our own simplification, no published source',
  examples: [
    { formula: 'LAMP.HOURS.MEAN(12,5,200,11,14)', gives: 2.09878885, within: 1e-8 },
    { formula: 'LAMP.HOURS.MEAN(8,0,200,11,14)', gives: 4.1666666667 },
  ],
  work: ([sun, spread, ppfd, target, limit], show) => {
    const longest = Math.min(limit, hoursForDli(target, ppfd));
    const dull = target - dli(ppfd, longest);
    const [open, left] = [missing(target, sun, spread), missing(dull, sun, spread)];
    // Far out in the tail the table of the normal distribution may leave a little less than nothing.
    const value = hoursForDli(Math.max(0, open - left), ppfd);
    if (show) {
      show.note('The sun of single days is taken as normally spread about its mean.');
      show.expression('hours on a day without sun', calc`min(${limit}, ${target} * 1e6 / (${ppfd} * 3600))`, longest, 'h/d');
      show.expression('sun up to which they are on as long', calc`${target} - ${ppfd} * ${longest} * 3600 / 1e6`, dull, 'mol/m²/d');
      const step = (label: string, light: number, is: number): void => {
        const z = calc`((${light} - ${sun}) / ${spread})`;
        const bell = calc`(${light} - ${sun}) * (1 + erf(${z} / sqrt(2))) / 2 + ${spread} * exp(-${z}^2 / 2) / sqrt(2 * pi)`;
        show.expression(label, spread === 0 ? calc`max(0, ${light} - ${sun})` : bell, is, 'mol/m²/d');
      };
      step('what the sun leaves open, mean over the days', target, open);
      step('of it beyond the lamps', dull, left);
      show.expression('hours that fill the rest', calc`max(0, ${open} - ${left}) * 1e6 / (${ppfd} * 3600)`, value, 'h/d');
    }
    return value;
  },
});
