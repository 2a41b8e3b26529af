import { calc, define } from '../define.ts';
import { DAY, FAO, LATITUDE } from './params.ts';
import { sunDay } from './sun-geometry.ts';

/** Hours from sunrise to sunset, h/d. */
export const sunHours = (latitude: number, day: number): number => (24 / Math.PI) * sunDay(latitude, day).sunset;

export const SUN_HOURS = define({
  name: 'SUN.HOURS',
  family: 'Sun and greenhouse',
  summary: 'Hours from sunrise to sunset.',
  use: 'For a flat horizon. An almanac gives some minutes more, for it counts the sun’s upper edge and refraction; twilight that a crop may still sense is longer yet.',
  formula: '24/π · acos(−tan φ · tan δ), δ = 0.409 sin(2π day/365 − 1.39)',
  params: [LATITUDE, DAY],
  returns: { quantity: 'hours of daylight', unit: 'h/d' },
  source: `${FAO}, eq. 24, 25 and 34`,
  examples: [
    { formula: 'SUN.HOURS(45,15)', gives: 8.96, within: 1e-3 },
    { formula: 'SUN.HOURS(-20,246)', gives: 11.66559, within: 1e-4 },
  ],
  work: ([latitude, day], show) => {
    const sun = sunDay(latitude, day);
    const value = (24 / Math.PI) * sun.sunset;
    if (show) {
      show.expression('declination', calc`0.409 * sin(2 * pi * ${day} / 365 - 1.39)`, sun.declination, 'rad');
      show.expression('hour angle at sunset', calc`acos(min(1, max(-1, -tan(${latitude} * pi / 180) * tan(${sun.declination}))))`, sun.sunset, 'rad');
      show.expression('hours of daylight', calc`24 / pi * ${sun.sunset}`, value, 'h/d');
      if (sun.polar) show.note(sun.polar === 'day' ? 'The sun does not set on this day.' : 'The sun does not rise on this day.');
    }
    return value;
  },
});
