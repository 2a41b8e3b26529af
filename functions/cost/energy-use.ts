import { calc, define } from '../define.ts';
import { DAYS } from './params.ts';

/** Energy from the mains in kWh a year. */
export const energyUse = (watts: number, efficiency: number, hours: number, days: number): number => ((watts / efficiency) * hours * days) / 1000;

export const ENERGY_USE = define({
  name: 'ENERGY.USE',
  family: 'Cost',
  summary: 'Energy that the lamps draw from the mains in a year.',
  use: 'With the watts at the supply’s output and its efficiency; for a mains fixture its own watts and 1. Dimmed lamps: dimmed watts.',
  formula: 'watts / efficiency · hours · days / 1000',
  params: [
    { name: 'watts', quantity: 'power', unit: 'W', meaning: 'of all fixtures together', atLeast: 0, atMost: 1e9 },
    { name: 'efficiency', quantity: 'efficiency of the supply', unit: '1', meaning: 'output over input power', atLeast: 0.05, atMost: 1 },
    { name: 'hours', quantity: 'photoperiod', unit: 'h/d', meaning: 'hours with the lamps on', atLeast: 0, atMost: 24 },
    DAYS,
  ],
  returns: { quantity: 'energy per year', unit: 'kWh/year' },
  source: 'Closed form: power times time',
  examples: [{ formula: 'ENERGY.USE(480,0.9,16,330)', gives: 2816 }],
  work: ([watts, efficiency, hours, days], show) => {
    const value = energyUse(watts, efficiency, hours, days);
    if (show) {
      show.expression('power from the mains', calc`${watts} / ${efficiency}`, watts / efficiency, 'W');
      show.expression('over the year', calc`${watts} / ${efficiency} * ${hours} * ${days} / 1000`, value, 'kWh/year');
    }
    return value;
  },
});
