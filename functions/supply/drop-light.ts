import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { CODES, VOLTS } from './params.ts';

/** Light of a string fed through a resistor, as a share of its light at the rated voltage. */
export const dropLight = (volts: number, rated: number, string: number): number => (volts - string) / (rated - string);

export const DROP_LIGHT = define({
  name: 'DROP.LIGHT',
  family: 'Supply, cable, breaker, support',
  summary: 'Light that is left when a resistor-fed fixture gets less than its voltage.',
  use: 'For strips and bars whose strings are limited by resistors. A fixture with a regulator keeps its light (its share is 1) as long as it has enough to regulate. Taken as straight: the string’s voltage does not change with current.',
  formula: '(volts − string volts) / (rated − string volts)',
  params: [
    { ...VOLTS, name: 'volts', meaning: 'at the fixture' },
    { ...VOLTS, name: 'rated', meaning: 'for which the fixture is made' },
    { ...VOLTS, name: 'string volts', meaning: 'of the diodes in series, at work' },
  ],
  returns: { quantity: 'share of the light', unit: '1' },
  source: 'Closed form: Ohm’s law on the series resistor, light in proportion to current',
  caution: CODES,
  examples: [{ formula: 'DROP.LIGHT(23.28,24,19.2)', gives: 0.85 }],
  work: ([volts, rated, string], show) => {
    if (string >= rated) return refuse(`DROP.LIGHT: string volts is ${say(string)} V; it must be below the rated ${say(rated)} V.`);
    if (volts <= string) return refuse(`DROP.LIGHT: at ${say(volts)} V the string of ${say(string)} V does not light.`);
    const value = dropLight(volts, rated, string);
    show?.expression('voltage left for the resistor, over what it is made for', calc`(${volts} - ${string}) / (${rated} - ${string})`, value, '1');
    if (volts > rated * 1.05) show?.note('More than 5 % above its rated voltage: the fixture may be damaged.');
    return value;
  },
});
