import { say, sayLeast } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { DLI_ASKED, DLI_SOURCE, PPFD } from './params.ts';
import { ppfdForDli } from './ppfd-for-dli.ts';

/** Hours a day at a steady PPFD (µmol/m²/s) that give a daily light (mol/m²/d). More than 24 is impossible: see HOURS.FOR.DLI. */
export const hoursForDli = (dli: number, ppfd: number): number => (dli * 1e6) / (ppfd * 3600);

export const HOURS_FOR_DLI = define({
  name: 'HOURS.FOR.DLI',
  family: 'Daily light',
  summary: 'Hours a day that give a wanted light per day at a given PPFD.',
  use: 'To see whether the light you have is enough. A crop may not take so many hours: see CROP.HOURS.LIMIT.',
  formula: 'dli · 10⁶ / (ppfd · 3600)',
  params: [DLI_ASKED, { ...PPFD, atLeast: 0.001 }],
  returns: { quantity: 'photoperiod', unit: 'h/d' },
  source: DLI_SOURCE,
  examples: [{ formula: 'HOURS.FOR.DLI(12,150)', gives: 22.2222222222 }],
  work: ([dli, ppfd], show) => {
    const value = hoursForDli(dli, ppfd);
    if (value > 24) {
      const need = ppfdForDli(dli, 24);
      return refuse(
        `HOURS.FOR.DLI: ${say(dli)} mol/m²/d at ${say(ppfd)} µmol/m²/s would take ${say(value)} h/d, and a day has 24. It takes at least ${sayLeast(need)} µmol/m²/s.`,
      );
    }
    show?.expression('the day’s light at this level', calc`${dli} * 1e6 / (${ppfd} * 3600)`, value, 'h/d');
    return value;
  },
});
