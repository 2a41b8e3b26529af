import { calc, define } from '../define.ts';
import { CODES, VOLTS, WATTS } from './params.ts';

/** Current from the mains (A) of a supply that gives so many watts. */
export const mainsAmps = (watts: number, efficiency: number, powerFactor: number, volts: number): number => watts / (efficiency * powerFactor * volts);

const SHARE = { unit: '1', atLeast: 0.05, atMost: 1 } as const;

export const MAINS_AMPS = define({
  name: 'MAINS.AMPS',
  family: 'Supply, cable, breaker, support',
  summary: 'Current that a supply draws from the mains.',
  use: 'At a steady load. What it draws in the first milliseconds is many times that and is limited by the maker’s count per breaker: CIRCUIT.COUNT.',
  formula: 'watts / (efficiency · power factor · volts)',
  params: [
    { ...WATTS, meaning: 'at the supply’s output; for a mains fixture its own watts with efficiency 1' },
    { ...SHARE, name: 'efficiency', quantity: 'efficiency of the supply', meaning: 'output over input power' },
    { ...SHARE, name: 'power factor', quantity: 'power factor', meaning: 'real over apparent power' },
    { ...VOLTS, meaning: 'of the mains, phase to neutral' },
  ],
  returns: { quantity: 'current', unit: 'A' },
  source: 'Closed form: apparent power is voltage times current; IEC 60050-131, 2002, entries 131-11-41 and 131-11-46 (cited from memory)',
  caution: CODES,
  examples: [{ formula: 'MAINS.AMPS(240,0.9,0.95,230)', gives: 1.2204424104 }],
  work: ([watts, efficiency, powerFactor, volts], show) => {
    const value = mainsAmps(watts, efficiency, powerFactor, volts);
    if (show) {
      show.expression('power from the mains', calc`${watts} / ${efficiency}`, watts / efficiency, 'W');
      show.expression('current', calc`${watts} / (${efficiency} * ${powerFactor} * ${volts})`, value, 'A');
    }
    return value;
  },
});
