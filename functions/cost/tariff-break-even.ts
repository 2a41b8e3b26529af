import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { YEARS } from './params.ts';
import { EXTRA } from './payback-years.ts';

export const TARIFF_BREAK_EVEN = define({
  name: 'TARIFF.BREAK.EVEN',
  family: 'Cost',
  summary: 'The price of energy above which the more efficient lamp is worth its extra price.',
  use: 'Without interest. Below this tariff the cheaper lamp is cheaper over those years.',
  formula: 'extra / (kW saved · hours a year · years)',
  params: [
    EXTRA,
    { name: 'saved', quantity: 'power saved', unit: 'kW', meaning: 'from the mains', above: 0, atMost: 1e6 },
    { name: 'hours', quantity: 'hours a year', unit: 'h/year', meaning: 'with the lamps on', above: 0, atMost: 8784 },
    YEARS,
  ],
  returns: { quantity: 'price of energy', unit: 'money/kWh' },
  source: 'Closed form: extra price over the energy saved in the years',
  examples: [{ formula: 'TARIFF.BREAK.EVEN(1200,0.5,5280,5)', gives: 0.0909090909091 }],
  work: ([extra, saved, hours, years], show) => {
    const energy = saved * hours * years;
    if (energy < 1e-6) return refuse(`TARIFF.BREAK.EVEN: only ${say(energy)} kWh is saved over the years; no tariff makes that worth while.`);
    const value = extra / energy;
    if (show) {
      show.expression('energy saved over the years', calc`${saved} * ${hours} * ${years}`, energy, 'kWh');
      show.expression('extra price over energy saved', calc`${extra} / (${saved} * ${hours} * ${years})`, value, 'money/kWh');
    }
    return value;
  },
});
