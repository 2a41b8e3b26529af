import { calc, define } from '../define.ts';
import { AMPS, CODES, DROP_SHARE, OHMS_PER_KM, VOLTS } from './params.ts';

/** The one-way length (m) at which a cable loses a share of the voltage. */
export const cableReach = (ohmsPerKm: number, amps: number, volts: number, share: number): number => (share * volts * 1000) / (2 * amps * ohmsPerKm);

export const CABLE_REACH = define({
  name: 'CABLE.REACH',
  family: 'Supply, cable, breaker, support',
  summary: 'How long a cable may be before it loses more than a share of the voltage.',
  use: 'One way, for one load at the end. For a chain of fixtures use CABLE.DROP.CHAIN.',
  formula: 'share · volts · 1000 / (2 · amps · Ω/km)',
  params: [OHMS_PER_KM, AMPS, VOLTS, DROP_SHARE],
  returns: { quantity: 'length of the cable', unit: 'm' },
  source: 'Closed form: Ohm’s law over both conductors, solved for the length',
  caution: CODES,
  examples: [{ formula: 'CABLE.REACH(13.3,2.5,24,0.03)', gives: 10.8270676692 }],
  work: ([ohms, amps, volts, share], show) => {
    const value = cableReach(ohms, amps, volts, share);
    show?.expression('length at which the allowed voltage is lost', calc`${share} * ${volts} * 1000 / (2 * ${amps} * ${ohms})`, value, 'm');
    return value;
  },
});
