import { calc, define } from '../define.ts';

export const HEAT_CREDIT = define({
  name: 'HEAT.CREDIT',
  family: 'Heat',
  summary: 'Heating that lamps save in a year, in money.',
  use: 'For the hours in which the house is heated and the lamps’ heat is wanted. When old lamps are replaced, what they no longer heat is a cost.',
  formula: 'watts / 1000 · hours · price / boiler',
  params: [
    { name: 'watts', quantity: 'heat', unit: 'W', meaning: 'that the lamps give off', atLeast: 0, atMost: 1e9 },
    { name: 'hours', quantity: 'hours a year', unit: 'h/year', meaning: 'with lamps on and heating wanted', atLeast: 0, atMost: 8784 },
    { name: 'price', quantity: 'price of fuel', unit: 'money/kWh', meaning: 'for a kilowatt-hour of fuel', atLeast: 0, atMost: 1e6 },
    {
      name: 'boiler',
      quantity: 'efficiency of the heating',
      unit: '1',
      meaning: 'heat in the house over fuel; a heat pump’s is above 1',
      atLeast: 0.05,
      atMost: 10,
    },
  ],
  returns: { quantity: 'money per year', unit: 'money/year' },
  source: 'Closed form: heat over what the heating makes of its fuel, times the price',
  examples: [{ formula: 'HEAT.CREDIT(600,2000,0.09,0.9)', gives: 120 }],
  work: ([watts, hours, price, boiler], show) => {
    const value = ((watts / 1000) * hours * price) / boiler;
    if (show) {
      show.expression('heat in those hours', calc`${watts} / 1000 * ${hours}`, (watts / 1000) * hours, 'kWh/year');
      show.expression('fuel saved, in money', calc`${watts} / 1000 * ${hours} * ${price} / ${boiler}`, value, 'money/year');
    }
    return value;
  },
});
