import { calc, define } from '../define.ts';
import { DLI_ASKED, DLI_SOURCE, HOURS } from './params.ts';

/** The steady PPFD (µmol/m²/s) that gives a daily light (mol/m²/d) in the hours allowed. */
export const ppfdForDli = (dli: number, hours: number): number => (dli * 1e6) / (hours * 3600);

export const PPFD_FOR_DLI = define({
  name: 'PPFD.FOR.DLI',
  family: 'Daily light',
  summary: 'The PPFD that gives a wanted light per day in so many hours.',
  use: 'To turn a crop’s daily light into a level to plan for. The hours must suit the crop: see CROP.HOURS.LIMIT.',
  formula: 'dli · 10⁶ / (hours · 3600)',
  params: [DLI_ASKED, { ...HOURS, atLeast: 0.01 }],
  returns: { quantity: 'light on the leaves (PPFD)', unit: 'µmol/m²/s' },
  source: DLI_SOURCE,
  examples: [{ formula: 'PPFD.FOR.DLI(12,16)', gives: 208.3333333333 }],
  work: ([dli, hours], show) => {
    const value = ppfdForDli(dli, hours);
    show?.expression('the day’s light spread over the hours', calc`${dli} * 1e6 / (${hours} * 3600)`, value, 'µmol/m²/s');
    return value;
  },
});
