import { calc, define } from '../define.ts';

/** Over ice and over water: ln p = a/T + b + c·T + d·T² + e·T³ + f·T⁴ + g·ln T, p in Pa, T in K. */
const ICE = [-5674.5359, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019] as const;
const WATER = [-5800.2206, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0, 6.5459673] as const;

export const HUMIDITY_RATIO = define({
  name: 'HUMIDITY.RATIO',
  family: 'Heat',
  summary: 'Water vapour in air, by mass of its dry air.',
  use: 'At sea level, as ideal gases: some 0.5 % below tables of moist air.',
  formula: '0.621945 · p / (101325 − p), p = humidity · saturation(temperature)',
  params: [
    { name: 'temperature', quantity: 'air temperature', unit: '°C', meaning: 'of the air', atLeast: -40, atMost: 60 },
    { name: 'humidity', quantity: 'relative humidity', unit: '1', meaning: 'vapour over that at saturation', atLeast: 0, atMost: 1 },
  ],
  returns: { quantity: 'vapour over dry air', unit: '1' },
  source: 'ASHRAE Handbook Fundamentals, 2017, chapter 1, equations 5, 6 (Hyland and Wexler, 1983) and 20',
  examples: [{ formula: 'HUMIDITY.RATIO(25,1)', gives: 0.020173, within: 6e-3 }],
  work: ([temperature, humidity], show) => {
    const kelvin = temperature + 273.15;
    const [a, b, c, d, e, f, g] = temperature < 0 ? ICE : WATER;
    const full = Math.exp(a / kelvin + b + kelvin * (c + kelvin * (d + kelvin * (e + kelvin * f))) + g * Math.log(kelvin));
    const vapour = humidity * full;
    const value = (0.621945 * vapour) / (101325 - vapour);
    if (show) {
      const k = calc`${kelvin}`;
      const sum = calc`${a} / ${k} + ${b} + ${k} * (${c} + ${k} * (${d} + ${k} * (${e} + ${k} * ${f}))) + ${g} * log(${k})`;
      show.expression('vapour at saturation', `exp(${sum})`, full, 'N/m²');
      show.expression('vapour over dry air', calc`0.621945 * ${vapour} / (101325 - ${vapour})`, value, '1');
    }
    return value;
  },
});
