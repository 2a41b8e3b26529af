import { calc, define } from '../define.ts';

export const LATENT_WATTS = define({
  name: 'LATENT.WATTS',
  family: 'Heat',
  summary: 'Heat that goes into the water which plants give off.',
  use: 'It comes back where the vapour condenses.',
  formula: 'water · 2.45 MJ/kg / (3600 · hours)',
  params: [
    { name: 'water', quantity: 'water given off', unit: 'kg/d', meaning: 'in a day; a litre is a kilogram', atLeast: 0, atMost: 1e6 },
    { name: 'hours', quantity: 'hours a day', unit: 'h/d', meaning: 'in which it is given off', atLeast: 0.01, atMost: 24 },
  ],
  returns: { quantity: 'heat', unit: 'W' },
  source: '2.45 MJ/kg near 20 °C: Allen and others, FAO Irrigation and Drainage Paper 56, 1998, table 1 (from memory)',
  examples: [{ formula: 'LATENT.WATTS(10,24)', gives: 283.56, within: 1e-4 }],
  work: ([water, hours], show) => {
    const value = (water * 2.45e6) / (3600 * hours);
    show?.expression('heat in the vapour', calc`${water} * 2.45e6 / (3600 * ${hours})`, value, 'W');
    return value;
  },
});
