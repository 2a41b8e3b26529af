import { calc, define } from '../define.ts';
import { CODES, VOLTS, WATTS } from './params.ts';

export const supplyAmps = (watts: number, volts: number): number => watts / volts;

export const SUPPLY_AMPS = define({
  name: 'SUPPLY.AMPS',
  family: 'Supply, cable, breaker, support',
  summary: 'Current on the low-voltage side of a supply.',
  use: 'For direct current. On the mains side use MAINS.AMPS, which knows efficiency and power factor.',
  formula: 'watts / volts',
  params: [WATTS, VOLTS],
  returns: { quantity: 'current', unit: 'A' },
  source: 'Closed form: power is voltage times current',
  caution: CODES,
  examples: [{ formula: 'SUPPLY.AMPS(300,24)', gives: 12.5 }],
  work: ([watts, volts], show) => {
    const value = supplyAmps(watts, volts);
    show?.expression('power over voltage', calc`${watts} / ${volts}`, value, 'A');
    return value;
  },
});
