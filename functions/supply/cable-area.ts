import { say, sayMost } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { cableDrop } from './cable-drop.ts';
import { classFault, copperFactor, standardSizes } from './conductor.ts';
import { AMPS, CODES, CONDUCTOR_CLASS, CONDUCTOR_TEMPERATURE, DROP_SHARE, ONE_WAY, VOLTS } from './params.ts';

export const CABLE_AREA = define({
  name: 'CABLE.AREA',
  family: 'Supply, cable, breaker, support',
  summary: 'The smallest standard size of cable that keeps the voltage loss within a share.',
  use: 'For the voltage alone: what current a cable may carry, bundled, hot or in a wall, is a separate check by the local code.',
  formula: 'least area with 2 · length · amps · Ω/km / 1000 ≤ share · volts',
  params: [ONE_WAY, AMPS, VOLTS, DROP_SHARE, CONDUCTOR_CLASS, CONDUCTOR_TEMPERATURE],
  returns: { quantity: 'cross-section', unit: 'mm²' },
  source: 'Ohm’s law with the sizes of IEC 60228:2004, tables 1 to 3 (in part from memory); temperature: IEC 60028:1925',
  caution: CODES,
  examples: [
    { formula: 'CABLE.AREA(10,2.5,24,0.03)', gives: 1.5 },
    { formula: 'CABLE.AREA(10,2.5,24,0.03,5,60)', gives: 2.5 },
  ],
  work: ([length, amps, volts, share, conductorClass, temperature], show) => {
    const fault = classFault('CABLE.AREA', conductorClass);
    if (fault) return fault;
    const most = (share * volts * 1000) / (2 * length * amps);
    const sizes = standardSizes(conductorClass).map(([area, ohms]) => [area, ohms * copperFactor(temperature)] as const);
    const fit = sizes.find(([, ohms]) => ohms <= most * (1 + 1e-12));
    const thickest = sizes.at(-1);
    if (!fit) {
      const [area, ohms] = thickest ?? [0, 1];
      const reach = (share * volts * 1000) / (2 * amps * ohms);
      return refuse(
        `CABLE.AREA: no size up to ${say(area)} mm² keeps the loss within ${say(share * volts)} V over ${say(length)} m; ${say(area)} mm² reaches ${sayMost(reach)} m.`,
      );
    }
    const [area, ohms] = fit;
    if (show) {
      show.expression('most resistance allowed', calc`${share} * ${volts} * 1000 / (2 * ${length} * ${amps})`, most, 'Ω/km');
      show.note(`first standard size at or below it: ${say(area)} mm² with ${say(ohms)} Ω/km at ${say(temperature)} °C`);
      show.expression('its share of the voltage lost', calc`2 * ${length} * ${amps} * ${ohms} / 1000 / ${volts}`, cableDrop(amps, length, ohms) / volts, '1');
      show.expression('size taken from the table', calc`${area}`, area, 'mm²');
      show.note('What current the cable may carry is a separate check.');
    }
    return area;
  },
});
