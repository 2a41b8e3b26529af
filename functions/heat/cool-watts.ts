import { calc, define } from '../define.ts';

export const COOL_WATTS = define({
  name: 'COOL.WATTS',
  family: 'Heat',
  summary: 'Power that a cooler draws to take heat away.',
  use: 'With the coefficient of performance (COP) at the temperatures that it works at: some 2 to 4.',
  formula: 'heat / cop',
  params: [
    { name: 'heat', quantity: 'heat', unit: 'W', meaning: 'to be taken away', atLeast: 0, atMost: 1e9 },
    { name: 'cop', quantity: 'coefficient of performance', unit: '1', meaning: 'heat moved over power drawn', atLeast: 0.1, atMost: 50 },
  ],
  returns: { quantity: 'power', unit: 'W' },
  source: 'By definition of the coefficient of performance: ISO 5151:2017, energy efficiency ratio in W/W (cited from memory)',
  examples: [{ formula: 'COOL.WATTS(10000,3)', gives: 3333.3333333333 }],
  work: ([heat, cop], show) => {
    const value = heat / cop;
    show?.expression('heat over the coefficient', calc`${heat} / ${cop}`, value, 'W');
    return value;
  },
});
