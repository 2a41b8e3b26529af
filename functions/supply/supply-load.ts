import { calc, define } from '../define.ts';
import { CODES, WATTS } from './params.ts';

export const supplyLoad = (watts: number, rating: number): number => watts / rating;

export const SUPPLY_LOAD = define({
  name: 'SUPPLY.LOAD',
  family: 'Supply, cable, breaker, support',
  summary: 'How far a supply is loaded, as a share of its rating.',
  use: 'To hold against the share that is allowed, commonly 0.8 (common practice, no published source). Rating after derating for heat: SUPPLY.DERATED.',
  formula: 'watts / rating',
  params: [WATTS, { ...WATTS, name: 'rating', quantity: 'power rating', meaning: 'of the supply at its output' }],
  returns: { quantity: 'share of the rating', unit: '1' },
  source: 'By definition: load over rating',
  caution: CODES,
  examples: [{ formula: 'SUPPLY.LOAD(240,300)', gives: 0.8 }],
  work: ([watts, rating], show) => {
    const value = supplyLoad(watts, rating);
    show?.expression('load over rating', calc`${watts} / ${rating}`, value, '1');
    if (value > 1) show?.note('The supply is overloaded.');
    return value;
  },
});
