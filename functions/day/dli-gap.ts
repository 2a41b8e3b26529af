import { calc, define } from '../define.ts';

/** What the lamps must add to the sun's light: never less than nothing. */
export const dliGap = (target: number, sun: number): number => Math.max(0, target - sun);

const DLI_UNIT = { unit: 'mol/m²/d', atLeast: 0, atMost: 1000 } as const;

export const DLI_GAP = define({
  name: 'DLI.GAP',
  family: 'Daily light',
  summary: 'Light per day that lamps must add to the sun’s.',
  use: 'With the sun’s light on the bench, after cover and shade. On a mean: about half of the days fall short of it (DULL.DAYS).',
  formula: 'max(0, target − sun)',
  params: [
    { ...DLI_UNIT, name: 'target', quantity: 'light per day wanted', meaning: 'the crop’s daily light' },
    { ...DLI_UNIT, name: 'sun', quantity: 'light per day from the sun', meaning: 'on the bench' },
  ],
  returns: { quantity: 'light per day to add', unit: 'mol/m²/d' },
  source: 'By definition: the shortfall, or nothing',
  examples: [
    { formula: 'DLI.GAP(14,6.447)', gives: 7.553 },
    { formula: 'DLI.GAP(12,15)', gives: 0 },
  ],
  work: ([target, sun], show) => {
    const value = dliGap(target, sun);
    show?.expression('what is wanted less what the sun gives', calc`max(0, ${target} - ${sun})`, value, 'mol/m²/d');
    return value;
  },
});
