import { calc, define } from '../define.ts';
import { CLOCK } from './params.ts';

/** Length of the stretch from one hour of the clock to another; to the same hour is nothing, from 0 to 24 the whole day. */
const stretch = (from: number, to: number): number => (to < from ? to - from + 24 : to - from);

/** Hours of [from, from + length) that fall into the day's piece [a, b), 0 ≤ a ≤ b ≤ 24. */
const within = (from: number, length: number, a: number, b: number): number => Math.max(0, Math.min(from + length, b) - Math.max(from, a));

/** Hours of a 24 h day with neither lamps nor sun. Hours of the clock; stretches may pass midnight. */
export function darkHours(on: number, off: number, rise: number, set: number): { dark: number; lamps: number; sun: number; both: number } {
  const lamps = stretch(on, off);
  const sun = stretch(rise, set);
  // Each stretch, cut at midnight, then overlapped piece by piece.
  const pieces = (from: number, length: number): [number, number][] => {
    const start = from % 24;
    return start + length <= 24
      ? [[start, start + length]]
      : [
          [start, 24],
          [0, start + length - 24],
        ];
  };
  let both = 0;
  for (const [a, b] of pieces(rise, sun)) for (const [c, d] of pieces(on, lamps)) both += within(c, d - c, a, b);
  // What rounding leaves below nothing is nothing.
  return { dark: Math.max(0, 24 - (lamps + sun - both)), lamps, sun, both };
}

export const DARK_HOURS = define({
  name: 'DARK.HOURS',
  family: 'Daily light',
  summary: 'Hours of a day with neither lamps nor sun.',
  use: 'To see how long the night stays for crops that count it. Dawn and dusk count as dark; light from elsewhere does not count. The same hour for on and off means not at all; 0 to 24 means all day.',
  formula: '24 − hours with lamps or sun',
  params: [
    { ...CLOCK, name: 'on', quantity: 'clock time', meaning: 'hour of the clock when the lamps come on: 6:30 is 6.5 h' },
    { ...CLOCK, name: 'off', quantity: 'clock time', meaning: 'hour when they go off; before “on” it is past midnight' },
    { ...CLOCK, name: 'rise', quantity: 'clock time', meaning: 'sunrise, on the same clock' },
    { ...CLOCK, name: 'set', quantity: 'clock time', meaning: 'sunset' },
  ],
  returns: { quantity: 'hours without light', unit: 'h/d' },
  source: 'By definition: 24 h less the union of two stretches of the clock',
  examples: [
    { formula: 'DARK.HOURS(6,20,7.516667,16.483333)', gives: 10 },
    { formula: 'DARK.HOURS(20,6,7.5,16.5)', gives: 5 },
  ],
  work: ([on, off, rise, set], show) => {
    const { dark, lamps, sun, both } = darkHours(on, off, rise, set);
    if (show) {
      show.expression('hours with lamps', off < on ? calc`${off} - ${on} + 24` : calc`${off} - ${on}`, lamps, 'h/d');
      show.expression('hours with sun', set < rise ? calc`${set} - ${rise} + 24` : calc`${set} - ${rise}`, sun, 'h/d');
      show.note(`hours with both: ${Number(both.toPrecision(6))}`);
      show.expression('the rest of the day', calc`24 - (${lamps} + ${sun} - ${both})`, dark, 'h/d');
    }
    return dark;
  },
});
