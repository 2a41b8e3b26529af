import { calc, define } from '../define.ts';

export const GROWTH_RATE = {
  name: 'rate',
  quantity: 'growth of the canopy',
  unit: 'm/d',
  meaning: 'rise of the leaf tops a day',
  atLeast: 0,
  atMost: 1,
} as const;

/** How far fixtures must be lifted to keep their height over a growing canopy. */
export const GROWTH_LIFT = define({
  name: 'GROWTH.LIFT',
  family: 'Mount height',
  summary: 'How far to lift the fixtures after some days of growth.',
  use: 'For a calendar of lifts. Growth is taken as steady over the days.',
  formula: 'rate × days',
  params: [GROWTH_RATE, { name: 'days', quantity: 'days since the last lift', unit: 'd', meaning: 'calendar days', atLeast: 0, atMost: 3650 }],
  returns: { quantity: 'lift', unit: 'm' },
  source: 'A product',
  caution: 'Switch off before lifting, take care on ladders, and see that every support holds again afterwards.',
  examples: [{ formula: 'GROWTH.LIFT(0.012,7)', gives: 0.084 }],
  work: ([rate, days], show) => {
    const lift = rate * days;
    show?.expression('rise of the canopy', calc`${rate} * ${days}`, lift, 'm');
    return lift;
  },
});
