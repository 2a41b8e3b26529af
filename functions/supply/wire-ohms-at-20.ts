import { calc, define } from '../define.ts';
import { CODES, OHMS_PER_KM } from './params.ts';

export const WIRE_OHMS_AT_20 = define({
  name: 'WIRE.OHMS.AT.20',
  family: 'Supply, cable, breaker, support',
  summary: 'A measured resistance of copper brought to 20 °C, to hold against the table.',
  use: 'To see whether a drum of cable is what it says: WIRE.OHMS at 20 °C is the most that the size may have.',
  formula: 'measured · 250 / (230 + temperature)',
  params: [
    { ...OHMS_PER_KM, name: 'measured', meaning: 'of one conductor, by the kilometre' },
    { name: 'temperature', quantity: 'temperature of the conductor', unit: '°C', meaning: 'while it was measured', atLeast: -40, atMost: 120 },
  ],
  returns: { quantity: 'resistance per length', unit: 'Ω/km' },
  source: 'IEC 60228:2004, annex B: factor for copper, 250/(230 + t) (formula from memory; the values at 30 and 75 °C agree with it)',
  caution: CODES,
  examples: [{ formula: 'WIRE.OHMS.AT.20(13.832,30)', gives: 13.3 }],
  work: ([measured, temperature], show) => {
    const value = (measured * 250) / (230 + temperature);
    show?.expression('brought to 20 °C', calc`${measured} * 250 / (230 + ${temperature})`, value, 'Ω/km');
    return value;
  },
});
