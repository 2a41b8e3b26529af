import { calc, define } from '../define.ts';
import { DLI_SOURCE, HOURS, PPFD } from './params.ts';

/** Light per day (mol/m²/d) from a steady PPFD (µmol/m²/s) over a number of hours a day. */
export const dli = (ppfd: number, hours: number): number => (ppfd * hours * 3600) / 1e6;

export const DLI = define({
  name: 'DLI',
  family: 'Daily light',
  summary: 'Light per day from a steady PPFD and the hours it is on.',
  use: 'For lamps that are on at one level. For several levels in a day use DLI.SCHEDULE; for the sun SUN.DLI.',
  formula: 'ppfd · hours · 3600 / 10⁶',
  params: [PPFD, HOURS],
  returns: { quantity: 'light per day (DLI)', unit: 'mol/m²/d' },
  source: DLI_SOURCE,
  examples: [{ formula: 'DLI(200,16)', gives: 11.52 }],
  work: ([ppfd, hours], show) => {
    const value = dli(ppfd, hours);
    show?.expression('µmol a second over the hours, in mol', calc`${ppfd} * ${hours} * 3600 / 1e6`, value, 'mol/m²/d');
    return value;
  },
});
