import { calc, define } from '../define.ts';
import { DAY, FAO, LATITUDE } from './params.ts';
import { sunDay } from './sun-geometry.ts';

/** Hours from sunrise to sunset, h/d. */
export const sunHours = (latitude: number, day: number, height = 0): number => (24 / Math.PI) * sunDay(latitude, day, height).sunset;

const HEIGHT = {
  name: 'sun height',
  quantity: 'height of the sun',
  unit: '°',
  meaning: 'of its centre, where the day begins and ends: 0 unless said; −0.833 as almanacs count; −6 with the twilight that some crops sense',
  optional: true,
  fallback: 0,
  atLeast: -18,
  atMost: 30,
} as const;

export const SUN_HOURS = define({
  name: 'SUN.HOURS',
  family: 'Sun and greenhouse',
  summary: 'Hours from sunrise to sunset.',
  use: 'For a flat horizon. An almanac gives some minutes more, for it counts the sun’s upper edge and refraction (−0.833°); twilight that a crop may still sense is longer yet. Behind a hill the day is shorter: give its height.',
  formula: '24/π · acos(−tan φ · tan δ + sin h / (cos φ · cos δ)), δ = 0.409 sin(2π day/365 − 1.39)',
  params: [LATITUDE, DAY, HEIGHT],
  returns: { quantity: 'hours of daylight', unit: 'h/d' },
  source: `${FAO}, eq. 24, 25 and 34, for a height of 0; other heights: the same spherical triangle; 0.833°: 34′ of refraction and 16′ of the sun’s radius, as almanacs take them (from memory)`,
  examples: [
    { formula: 'SUN.HOURS(45,15)', gives: 8.96, within: 1e-3 },
    { formula: 'SUN.HOURS(-20,246)', gives: 11.66559, within: 1e-4 },
    { formula: 'SUN.HOURS(40,172,-0.833)', gives: 15.017, within: 1e-3 },
  ],
  work: ([latitude, day, height], show) => {
    const sun = sunDay(latitude, day, height);
    const value = (24 / Math.PI) * sun.sunset;
    if (show) {
      show.expression('declination', calc`0.409 * sin(2 * pi * ${day} / 365 - 1.39)`, sun.declination, 'rad');
      const [phi, delta] = [calc`${latitude} * pi / 180`, sun.declination];
      const raised = height === 0 ? '' : calc` + sin(${height} * pi / 180) / (cos(${phi}) * cos(${delta}))`;
      show.expression('hour angle at sunset', calc`acos(min(1, max(-1, -tan(${phi}) * tan(${delta})${raised})))`, sun.sunset, 'rad');
      show.expression('hours of daylight', calc`24 / pi * ${sun.sunset}`, value, 'h/d');
      if (sun.polar) show.note(`The sun does not ${sun.polar === 'day' ? 'set' : 'rise'}${height === 0 ? '' : `, counted from ${height}°,`} on this day.`);
    }
    return value;
  },
});
