import { calc, define } from '../define.ts';
import { DAY, FAO, LATITUDE } from './params.ts';
import { sunDay } from './sun-geometry.ts';
import { sunHours } from './sun-hours.ts';

/** Height of the sun, in degrees, at which civil twilight begins and ends. */
const TWILIGHT = -6;

/** Hours of a day that count as light for a crop that counts them, h/d: twilight is light. */
export const dayLength = (latitude: number, day: number, altitude = TWILIGHT): number => sunHours(latitude, day, altitude);

export const DAY_LENGTH = define({
  name: 'DAY.LENGTH',
  family: 'Sun and greenhouse',
  summary: 'Length of a day for a crop that counts it: with twilight.',
  use: 'Crops that flower by day length take dim light for day: from dawn to dusk with civil twilight, sun 6° below. For a flat horizon; up to ten minutes shorter than an almanac’s near the equinoxes, up to 52° of latitude, up to an hour and a half off beyond 66°; for the hours that light the bench take SUN.HOURS.',
  formula: '24/π · acos((sin h − sin φ · sin δ)/(cos φ · cos δ)), δ = 0.409 sin(2π day/365 − 1.39)',
  params: [
    LATITUDE,
    DAY,
    {
      name: 'sun altitude',
      quantity: 'height of the sun',
      unit: '°',
      meaning: 'of its centre, where the day begins and ends: −6 with civil twilight unless said',
      optional: true,
      fallback: TWILIGHT,
      atLeast: -18,
      atMost: 30,
    },
  ],
  returns: { quantity: 'length of the day', unit: 'h/d' },
  source: `${FAO}, eq. 24 for the declination; the spherical triangle of sunset solved for another height; −6°: civil twilight, Nautical Almanac Office definition (from memory)`,
  examples: [
    { formula: 'DAY.LENGTH(52,172)', gives: 18.37, within: 1e-3 },
    { formula: 'DAY.LENGTH(52,172,0)', gives: 16.5, within: 1e-3 },
    { formula: 'DAY.LENGTH(70,172)', gives: 24 },
  ],
  work: ([latitude, day, altitude], show) => {
    const sun = sunDay(latitude, day, altitude);
    const value = dayLength(latitude, day, altitude);
    if (show) {
      const [phi, delta] = [calc`${latitude} * pi / 180`, sun.declination];
      show.expression('declination', calc`0.409 * sin(2 * pi * ${day} / 365 - 1.39)`, delta, 'rad');
      show.expression(
        'half the day, as an angle',
        calc`acos(min(1, max(-1, (sin(${altitude} * pi / 180) - sin(${phi}) * sin(${delta})) / (cos(${phi}) * cos(${delta})))))`,
        sun.sunset,
        'rad',
      );
      show.expression('length of the day', calc`24 / pi * ${sun.sunset}`, value, 'h/d');
      if (sun.polar) show.note(`The sun does not ${sun.polar === 'day' ? 'sink below' : 'rise above'} ${altitude}° on this day.`);
    }
    return value;
  },
});
