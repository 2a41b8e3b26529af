import { calc, define, refuse } from '../define.ts';
import { MONEY_LIMIT, TARIFF } from './params.ts';

export const RUN_COST = define({
  name: 'RUN.COST',
  family: 'Cost',
  summary: 'Money a year for the energy, and for the demand charge where there is one.',
  use: 'One price for every kilowatt-hour. For prices that change over the day use RUN.COST.BANDS. A demand charge is billed on the highest load of each month.',
  formula: 'kWh a year · tariff + demand · demand price · 12',
  params: [
    { name: 'energy', quantity: 'energy per year', unit: 'kWh/year', meaning: 'as ENERGY.USE gives it', atLeast: 0, atMost: 1e12 },
    TARIFF,
    {
      name: 'demand',
      quantity: 'power',
      unit: 'kW',
      meaning: 'what the lamps add to the month’s highest load',
      optional: true,
      fallback: 0,
      atLeast: 0,
      atMost: 1e6,
    },
    {
      name: 'demand price',
      quantity: 'price of demand',
      unit: 'money/kW/month',
      meaning: 'for a kilowatt and month',
      optional: true,
      fallback: 0,
      atLeast: 0,
      atMost: 1e6,
    },
  ],
  returns: { quantity: 'money per year', unit: 'money/year' },
  source: 'Closed form: amount times price',
  examples: [
    { formula: 'RUN.COST(2816,0.25)', gives: 704 },
    { formula: 'RUN.COST(2816,0.25,0.5,10)', gives: 764 },
  ],
  work: ([energy, tariff, demand, demandPrice], show) => {
    const value = energy * tariff + demand * demandPrice * 12;
    if (value > MONEY_LIMIT) return refuse('RUN.COST: that is more money than can be calculated here. Check the units of energy and tariff.');
    show?.expression('energy, and demand over twelve months', calc`${energy} * ${tariff} + ${demand} * ${demandPrice} * 12`, value, 'money/year');
    return value;
  },
});
