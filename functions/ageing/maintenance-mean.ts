import { calc, define, type Show } from '../define.ts';

const RATE = Math.log(1 / 0.9);

/** What ageing leaves on the mean over so many lives to 90 %. */
const meanOver = (lives: number): number => (lives === 0 ? 1 : -Math.expm1(-RATE * lives) / (RATE * lives));

function shown(show: Show | undefined, label: string, hours: number, l90: number): number {
  const mean = meanOver(hours / l90);
  // Over a few hours the difference is all rounding, and the mean is 1.
  if (hours / l90 > 1e-6) show?.expression(label, calc`(1 - 0.9^(${hours} / ${l90})) / (${hours} / ${l90} * log(1 / 0.9))`, mean, '1');
  return mean;
}

export const MAINTENANCE_MEAN = define({
  name: 'MAINTENANCE.MEAN',
  family: 'Ageing',
  summary: 'Share of the first light that a crop gets on the mean over all the hours, with new lights after each replacement.',
  use: 'For the light of many years and what it costs. What is left at the end is MAINTENANCE.FACTOR. Dirt as kept by cleaning.',
  formula: 'dirt · (1 − 0.9^x) / (x · ln(1 / 0.9)), x = hours until replaced / L90; after a replacement anew',
  params: [
    { name: 'hours', quantity: 'hours run', unit: 'h', meaning: 'over all the years', atLeast: 0, atMost: 1e7 },
    { name: 'L90', quantity: 'hours to 90 % of the first light', unit: 'h', meaning: 'from the sheet', atLeast: 100, atMost: 1e6 },
    { name: 'dirt', quantity: 'share that dirt lets through', unit: '1', meaning: '0.95 by common practice, no published source', above: 0, atMost: 1 },
    { name: 'replaced', quantity: 'hours until new lights hang', unit: 'h', meaning: 'left out where none are', optional: true, above: 0, atMost: 1e7 },
  ],
  returns: { quantity: 'mean share of the first light', unit: '1' },
  source: 'Mean of the curve of MAINTENANCE.FACTOR (ANSI/IES TM-21-19, 2019, eq. 1, read second-hand) over the hours: closed form',
  examples: [{ formula: 'MAINTENANCE.MEAN(36000,36000,0.95)', gives: 0.90166605, within: 1e-8 }],
  work: ([hours, l90, dirt, replaced], show) => {
    if (hours === 0) return dirt;
    const period = Math.min(hours, replaced ?? hours);
    const times = Math.floor(hours / period + 1e-9);
    const rest = Math.max(0, hours - times * period);
    const full = shown(show, times > 1 || rest > 0 ? 'ageing alone, until each replacement' : 'ageing alone', period, l90);
    const last = rest > 0 ? shown(show, 'ageing alone, after the last replacement', rest, l90) : 1;
    const value = (dirt * (times * period * full + rest * last)) / hours;
    show?.expression('ageing and dirt, over all the hours', calc`${dirt} * (${times} * ${period} * ${full} + ${rest} * ${last}) / ${hours}`, value, '1');
    return value;
  },
});
