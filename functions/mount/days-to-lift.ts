import { calc, define, refuse } from '../define.ts';
import { LIMITS } from '../field/index.ts';
import { GROWTH_RATE } from './growth-lift.ts';

const HEIGHT = { unit: 'm', above: 0, atMost: LIMITS.heightMost } as const;

/** Days until a growing canopy comes as near as is allowed. */
export const DAYS_TO_LIFT = define({
  name: 'DAYS.TO.LIFT',
  family: 'Mount height',
  summary: 'Days until the canopy has grown up to the lowest height allowed.',
  use: 'To plan visits. Growth is taken as steady.',
  formula: '(height − lowest) / rate',
  params: [
    { ...HEIGHT, name: 'height', quantity: 'mount height today', meaning: 'from the faces down to the leaf tops' },
    { ...HEIGHT, name: 'lowest', quantity: 'lowest height allowed', meaning: 'such as MOUNT.FLOOR gives' },
    GROWTH_RATE,
  ],
  returns: { quantity: 'days', unit: 'd' },
  source: 'A quotient',
  caution: 'Switch off before lifting, take care on ladders, and see that every support holds again afterwards.',
  examples: [{ formula: 'DAYS.TO.LIFT(0.25,0.15,0.012)', gives: 8.3, within: 5e-3 }],
  work: ([height, lowest, rate], show) => {
    if (rate < 1e-9) return refuse('DAYS.TO.LIFT: without growth the fixtures never need lifting; the rate must be above 0 m/d.');
    const days = Math.max(0, (height - lowest) / rate);
    if (height < lowest) show?.note('The canopy is already nearer than allowed: lift today.');
    show?.expression('days', calc`max(0, (${height} - ${lowest}) / ${rate})`, days, 'd');
    return days;
  },
});
