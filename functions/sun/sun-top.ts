import { calc, define } from '../define.ts';
import { DAY, FAO, LATITUDE } from './params.ts';
import { SOLAR_CONSTANT, sunDay } from './sun-geometry.ts';

/** Radiation of a day on a level plane above the air, MJ/m²/d. */
export function sunTop(latitude: number, day: number): number {
  const { distance, declination, sunset } = sunDay(latitude, day);
  const phi = (latitude * Math.PI) / 180;
  const path = sunset * Math.sin(phi) * Math.sin(declination) + Math.cos(phi) * Math.cos(declination) * Math.sin(sunset);
  // In the polar night the exact sum is 0; binary dust must not make it a little less.
  return Math.max(0, ((24 * 60) / Math.PI) * SOLAR_CONSTANT * distance * path);
}

export const SUN_TOP = define({
  name: 'SUN.TOP',
  family: 'Sun and greenhouse',
  summary: 'Radiation of a day above the air, on a level plane.',
  use: 'The most that could arrive: times the clearness gives what does. Differs from an almanac by up to 2.7 % near an equinox, beyond 66° of latitude by up to 2.1 MJ/m²/d.',
  formula: '24·60/π · 0.0820 · d · (ω sin φ sin δ + cos φ cos δ sin ω)',
  params: [LATITUDE, DAY],
  returns: { quantity: 'daily radiation', unit: 'MJ/m²/d' },
  source: `${FAO}, eq. 21 to 25`,
  examples: [{ formula: 'SUN.TOP(-20,246)', gives: 32.2, within: 2e-3 }],
  work: ([latitude, day], show) => {
    const { distance, declination, sunset, polar } = sunDay(latitude, day);
    const value = sunTop(latitude, day);
    if (show) {
      const phi = (latitude * Math.PI) / 180;
      show.expression('inverse relative distance', calc`1 + 0.033 * cos(2 * pi * ${day} / 365)`, distance, '1');
      show.expression('declination', calc`0.409 * sin(2 * pi * ${day} / 365 - 1.39)`, declination, 'rad');
      show.expression('latitude', calc`${latitude} * pi / 180`, phi, 'rad');
      show.expression('hour angle at sunset', calc`acos(min(1, max(-1, -tan(${phi}) * tan(${declination}))))`, sunset, 'rad');
      show.expression(
        'radiation above the air',
        calc`max(0, 24 * 60 / pi * 0.082 * ${distance} * (${sunset} * sin(${phi}) * sin(${declination}) + cos(${phi}) * cos(${declination}) * sin(${sunset})))`,
        value,
        'MJ/m²/d',
      );
      if (polar) show.note(polar === 'day' ? 'The sun does not set on this day.' : 'The sun does not rise on this day.');
    }
    return value;
  },
});
