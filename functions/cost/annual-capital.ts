import { calc, define } from '../define.ts';
import { annuity, BUY, INTEREST_SOURCE, noInterest, RATE, YEARS } from './params.ts';

/** The level payment at the end of each year that pays back a price with interest. */
export const annualCapital = (buy: number, rate: number, years: number): number => buy / annuity(rate, years);

export const ANNUAL_CAPITAL = define({
  name: 'ANNUAL.CAPITAL',
  family: 'Cost',
  summary: 'What a purchase costs by the year, with interest.',
  use: 'To compare buying with running cost. Without interest it is the price shared evenly over the years. Nothing is counted for resale.',
  formula: 'buy · rate / (1 − (1 + rate)^−years)',
  params: [BUY, RATE, YEARS],
  returns: { quantity: 'money per year', unit: 'money/year' },
  source: INTEREST_SOURCE,
  examples: [
    { formula: 'ANNUAL.CAPITAL(930,0.06,8)', gives: 149.76, within: 1e-4 },
    { formula: 'ANNUAL.CAPITAL(930,0,8)', gives: 116.25 },
  ],
  work: ([buy, rate, years], show) => {
    const value = annualCapital(buy, rate, years);
    if (noInterest(rate)) show?.expression('shared evenly over the years', calc`${buy} / ${years}`, value, 'money/year');
    else show?.expression('level yearly payment', calc`${buy} * ${rate} / (1 - (1 + ${rate})^(-${years}))`, value, 'money/year');
    return value;
  },
});
