import { calc, define } from '../define.ts';

/** Heat that a cubic metre of air takes up for each kelvin, J/(m³·K): 1.2 kg/m³ times 1005 J/(kg·K), dry air near 20 °C. */
export const AIR_HEAT = 1206;

export const AIR_FLOW = define({
  name: 'AIR.FLOW',
  family: 'Heat',
  summary: 'Air flow that carries heat away at a temperature rise.',
  use: 'For sensible heat only, with dry air near 20 °C at sea level. Water that plants give off takes part of the heat along and asks for air of its own.',
  formula: '3600 · heat / (1206 · rise)',
  params: [
    { name: 'heat', quantity: 'heat', unit: 'W', meaning: 'to be carried away', atLeast: 0, atMost: 1e9 },
    { name: 'rise', quantity: 'temperature difference', unit: 'K', meaning: 'of the air that leaves over the air that comes in', atLeast: 0.1, atMost: 100 },
  ],
  returns: { quantity: 'air flow', unit: 'm³/h' },
  source: 'Closed form with air of 1.2 kg/m³ and 1005 J/(kg·K): ASHRAE Handbook Fundamentals, 2017, chapter 1, moist air near 20 °C (from memory)',
  examples: [{ formula: 'AIR.FLOW(266.6666667,5)', gives: 159.2, within: 1e-3 }],
  work: ([heat, rise], show) => {
    const value = (3600 * heat) / (AIR_HEAT * rise);
    show?.expression('air that takes up the heat', calc`3600 * ${heat} / (1206 * ${rise})`, value, 'm³/h');
    return value;
  },
});
