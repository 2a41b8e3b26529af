import { calc, define, isRefusal } from '../define.ts';
import { classFault, conductorOf, copperFactor } from './conductor.ts';
import { CODES, CONDUCTOR_CLASS, CONDUCTOR_TEMPERATURE } from './params.ts';

export const WIRE_OHMS = define({
  name: 'WIRE.OHMS',
  family: 'Supply, cable, breaker, support',
  summary: 'Resistance of one copper conductor per kilometre, by size, class and temperature.',
  use: 'For standard metric sizes (0.5 to 95 mm²) and for areas that WIRE.AREA gives. Alternating current of mains frequency runs alike up to about 95 mm².',
  formula: 'table value at 20 °C · (1 + 0.00393 · (temperature − 20))',
  params: [
    { name: 'area', quantity: 'cross-section', unit: 'mm²', meaning: 'nominal area of the conductor', above: 0, atMost: 1000 },
    CONDUCTOR_CLASS,
    CONDUCTOR_TEMPERATURE,
  ],
  returns: { quantity: 'resistance per length', unit: 'Ω/km' },
  source: 'IEC 60228:2004, tables 1 to 3 (in part from memory); temperature: IEC 60028:1925; gauges: ASTM B258, 2018, with copper of 0.017241 Ω·mm²/m',
  caution: CODES,
  examples: [
    { formula: 'WIRE.OHMS(1.5)', gives: 13.3 },
    { formula: 'WIRE.OHMS(1.5,5,60)', gives: 15.39076 },
    { formula: 'WIRE.OHMS(WIRE.AREA(18))', gives: 20.9478, within: 1e-5 },
  ],
  work: ([area, conductorClass, temperature], show) => {
    const fault = classFault('WIRE.OHMS', conductorClass);
    if (fault) return fault;
    const conductor = conductorOf('WIRE.OHMS', area, conductorClass);
    if (isRefusal(conductor)) return conductor;
    const value = conductor.ohms20 * copperFactor(temperature);
    if (show) {
      show.note(conductor.from);
      if (conductor.area !== undefined) show.expression('at 20 °C', calc`0.017241 * 1000 / ${conductor.area}`, conductor.ohms20, 'Ω/km');
      show.expression('at its temperature', calc`${conductor.ohms20} * (1 + 0.00393 * (${temperature} - 20))`, value, 'Ω/km');
    }
    return value;
  },
});
