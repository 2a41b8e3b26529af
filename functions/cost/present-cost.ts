import { calc, define } from '../define.ts';
import { annuity, BUY, INTEREST_SOURCE, noInterest, RATE, YEARLY, YEARS } from './params.ts';

export const presentCost = (buy: number, yearly: number, rate: number, years: number): number => buy + yearly * annuity(rate, years);

export const PRESENT_COST = define({
  name: 'PRESENT.COST',
  family: 'Cost',
  summary: 'Buying and all the years of running as one sum of today’s money.',
  use: 'To compare plans of the same length of time. A saving is a negative yearly cost. Prices are taken as steady.',
  formula: 'buy + yearly · (1 − (1 + rate)^−years) / rate',
  params: [BUY, { ...YEARLY, name: 'yearly', quantity: 'yearly cost', meaning: 'paid at the end of each year' }, RATE, YEARS],
  returns: { quantity: 'money', unit: 'money' },
  source: INTEREST_SOURCE,
  examples: [{ formula: 'PRESENT.COST(930,704,0.06,8)', gives: 5301.6948, within: 1e-7 }],
  work: ([buy, yearly, rate, years], show) => {
    const value = presentCost(buy, yearly, rate, years);
    if (noInterest(rate)) show?.expression('buying and the years together', calc`${buy} + ${yearly} * ${years}`, value, 'money');
    else show?.expression('buying, and the years at their worth today', calc`${buy} + ${yearly} * (1 - (1 + ${rate})^(-${years})) / ${rate}`, value, 'money');
    return value;
  },
});
