import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { CODES, OHMS_PER_KM, ONE_WAY, VOLTS, WATTS } from './params.ts';

/** Voltage lost there and back (V) at a current (A) over a one-way length (m) of conductor (Ω/km). */
export const cableDrop = (amps: number, length: number, ohmsPerKm: number): number => (2 * length * amps * ohmsPerKm) / 1000;

export const CABLE_DROP = define({
  name: 'CABLE.DROP',
  family: 'Supply, cable, breaker, support',
  summary: 'Voltage lost in a two-core cable.',
  use: 'For direct current and single-phase mains at a power factor near one, with the load’s nominal current. A regulated fixture draws a little more as its voltage falls. A cable that would take all of the voltage is refused.',
  formula: '2 · length · (watts / volts) · Ω/km / 1000',
  params: [WATTS, VOLTS, ONE_WAY, OHMS_PER_KM],
  returns: { quantity: 'voltage lost', unit: 'V' },
  source: 'Closed form: Ohm’s law over both conductors',
  caution: CODES,
  examples: [{ formula: 'CABLE.DROP(60,24,6,13.3)', gives: 0.399 }],
  work: ([watts, volts, length, ohms], show) => {
    const amps = watts / volts;
    const value = cableDrop(amps, length, ohms);
    if (value >= volts) {
      return refuse(
        `CABLE.DROP: the cable would take ${say(value)} V and there are ${say(volts)} V. ${say((length * volts) / value / 2)} m would still lose half of it.`,
      );
    }
    if (show) {
      show.expression('current', calc`${watts} / ${volts}`, amps, 'A');
      show.expression('heat in the cable', calc`2 * ${length} * ${ohms} / 1000 * ${amps}^2`, value * amps, 'W');
      show.expression('share of the voltage lost', calc`2 * ${length} * ${amps} * ${ohms} / 1000 / ${volts}`, value / volts, '1');
      show.expression('voltage lost, there and back', calc`2 * ${length} * ${amps} * ${ohms} / 1000`, value, 'V');
    }
    return value;
  },
});
