import { NEC_TABLE_8 } from '../data/conductors.ts';
import { calc, define, refuse } from '../define.ts';
import { CODES } from './params.ts';
import { AWG_PARAM } from './wire-area.ts';

const KFT_PER_KM = 1 / 0.3048;
/** The code’s own coefficient, of the value at 75 °C. */
const PER_KELVIN_AT_75 = 0.00323;
const SIZES = NEC_TABLE_8.map(([awg]) => awg).join(', ');

export const WIRE_OHMS_AWG = define({
  name: 'WIRE.OHMS.AWG',
  family: 'Supply, cable, breaker, support',
  summary: 'Resistance of one copper conductor by American gauge, as the code’s table has it.',
  use: 'Where the American table is the rule: bare copper, direct current, 75 °C unless said. WIRE.OHMS(WIRE.AREA(awg)) gives the ideal wire, a little lower.',
  formula: 'table value at 75 °C · (1 + 0.00323 · (temperature − 75))',
  params: [
    { ...AWG_PARAM, meaning: `one of ${SIZES}` },
    {
      name: 'make',
      quantity: 'make of the conductor',
      unit: 'text',
      meaning: '“stranded” unless said',
      optional: true,
      fallback: 'stranded',
      oneOf: ['solid', 'stranded'],
    },
    {
      name: 'temperature',
      quantity: 'temperature of the conductor',
      unit: '°C',
      meaning: '75 °C unless said',
      optional: true,
      fallback: 75,
      atLeast: -40,
      atMost: 120,
    },
  ],
  returns: { quantity: 'resistance per length', unit: 'Ω/km' },
  source:
    'NFPA 70, National Electrical Code, 2020 (edition from memory), chapter 9, table 8 (18 and 16 AWG and stranded sizes from memory); note 2: 0.00323 per kelvin at 75 °C (from memory)',
  caution: CODES,
  examples: [{ formula: 'WIRE.OHMS.AWG(14,"solid")', gives: 10.0721784777 }],
  work: ([awg, make, temperature], show) => {
    const row = NEC_TABLE_8.find(([size]) => size === awg);
    if (!row) return refuse(`WIRE.OHMS.AWG: the table has no AWG ${awg}; it has ${SIZES}.`);
    const perKft = make === 'solid' ? row[1] : row[2];
    if (perKft === undefined) return refuse(`WIRE.OHMS.AWG: the table has AWG ${awg} stranded only.`);
    const value = perKft * KFT_PER_KM * (1 + PER_KELVIN_AT_75 * (temperature - 75));
    show?.expression('from Ω per 1000 ft at 75 °C', calc`${perKft} / 0.3048 * (1 + 0.00323 * (${temperature} - 75))`, value, 'Ω/km');
    return value;
  },
});
