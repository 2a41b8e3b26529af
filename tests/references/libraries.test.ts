/** Whole families held against libraries of other makes, on grids of inputs: which functions, and how far apart at most. */
import { IRR, NPV, PMT, PV } from '@formulajs/formulajs';
import { Body, Observer, SearchRiseSet } from 'astronomy-engine';
import { mean as meanOf, min as minOf, standardDeviation } from 'simple-statistics';
import { getTimes } from 'suncalc';
import { expect, test } from 'vitest';
import { annualCapital } from '../../functions/cost/annual-capital.ts';
import { discountedPayback } from '../../functions/cost/payback-years.ts';
import { presentCost } from '../../functions/cost/present-cost.ts';
import { darkHours } from '../../functions/day/dark-hours.ts';
import { sunHours } from '../../functions/sun/sun-hours.ts';
import { sunTop } from '../../functions/sun/sun-top.ts';
import { evaluate } from '../functions/evaluate.ts';

const worst = (pairs: readonly (readonly [number, number])[]): number => Math.max(...pairs.map(([a, b]) => Math.abs(a - b) / Math.max(Math.abs(b), 1e-9)));

test('level payments and present worth agree with formulajs to 1e-12', () => {
  const payments: [number, number][] = [];
  const worths: [number, number][] = [];
  for (const buy of [1, 930, 1e6]) {
    for (const rate of [0.0025, 0.06, 0.3]) {
      for (const years of [1, 8, 40]) {
        payments.push([annualCapital(buy, rate, years), -(PMT(rate, years, buy) as number)]);
        worths.push([presentCost(buy, 704, rate, years), buy - (PV(rate, years, 704) as number)]);
      }
    }
  }
  expect(worst(payments)).toBeLessThan(1e-12);
  expect(worst(worths)).toBeLessThan(1e-12);
});

test('at the end of a whole number of years of payback, the worth of the savings by formulajs is the extra price', () => {
  for (const [extra, saving, rate] of [
    [1200, 300, 0.08],
    [500, 180, 0.05],
    [900, 100, 0.02],
  ] as const) {
    const years = discountedPayback(extra, saving, rate) as number;
    const whole = Math.floor(years);
    const worth = (n: number): number => NPV(rate, ...Array(n).fill(saving)) as number;
    const rest = years - whole;
    expect(worth(whole) + rest * (worth(whole + 1) - worth(whole))).toBeCloseTo(extra, 8);
  }
});

test('the interest at which a purchase costs nothing in the end is the rate of return by formulajs', () => {
  const rate = IRR([-930, ...Array(8).fill(170)]) as number;
  expect(presentCost(930, -170, rate, 8)).toBeCloseTo(0, 6);
});

test('readings agree with simple-statistics to 1e-12', () => {
  const grid = [118, 142, 150, 121, 150, 188, 196, 155, 116, 140, 147, 119];
  const cells = '{118,142,150,121;150,188,196,155;116,140,147,119}';
  expect(evaluate(`READINGS.MEAN(${cells})`)).toBeCloseTo(meanOf(grid), 12);
  expect(evaluate(`READINGS.SPREAD(${cells})`)).toBeCloseTo(standardDeviation(grid) / meanOf(grid), 12);
  expect(evaluate(`READINGS.LOW.TO.MEAN(${cells})`)).toBeCloseTo(minOf(grid) / meanOf(grid), 12);
});

const YEAR = 2025;
const noon = (day: number): Date => new Date(Date.UTC(YEAR, 0, day, 12));
const DAYS = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349] as const;
const HOUR = 3_600_000;

test('daylight agrees with an almanac where the sun’s upper edge and refraction count, and falls short of it where they do not', () => {
  const short: number[] = [];
  const off: number[] = [];
  for (const latitude of [-34, 0, 25, 40, 52]) {
    for (const day of DAYS) {
      const observer = new Observer(latitude, 0, 0);
      const rise = SearchRiseSet(Body.Sun, observer, 1, new Date(noon(day).getTime() - 12 * HOUR), 1);
      if (!rise) throw new Error('no sunrise');
      const set = SearchRiseSet(Body.Sun, observer, -1, rise, 1);
      if (!set) throw new Error('no sunset');
      const minutes = (set.date.getTime() - rise.date.getTime()) / 60_000;
      short.push(minutes - 60 * sunHours(latitude, day));
      off.push(minutes - 60 * sunHours(latitude, day, -0.833));
    }
  }
  const range = (all: readonly number[]): string => `${Math.min(...all).toFixed(1)} to ${Math.max(...all).toFixed(1)} min`;
  console.log(`almanac less SUN.HOURS: ${range(short)}; less that from −0.833°: ${range(off)}`);
  expect(Math.min(...short)).toBeGreaterThan(0);
  expect(Math.max(...short)).toBeLessThan(25);
  // What is left is the short formula's declination, up to half a degree near an equinox.
  expect(Math.max(...off.map(Math.abs))).toBeLessThan(15);
});

test('without lamps the dark hours are what suncalc leaves between sunset and sunrise', () => {
  for (const day of DAYS) {
    const { sunrise, sunset } = getTimes(noon(day), 45, 0);
    if (!sunrise || !sunset) throw new Error('no sunrise');
    const clock = (t: Date): number => t.getUTCHours() + t.getUTCMinutes() / 60 + t.getUTCSeconds() / 3600;
    const dark = darkHours(6, 6, clock(sunrise), clock(sunset)).dark;
    expect(dark).toBeCloseTo(24 - (sunset.getTime() - sunrise.getTime()) / HOUR, 2);
    expect(Math.abs(dark - (24 - sunHours(45, day)))).toBeLessThan(0.5);
  }
});

test('radiation above the air agrees with the sun’s height by astronomy-engine, summed over the day, to 3 %', async () => {
  const { Equator, Horizon } = await import('astronomy-engine');
  const off: number[] = [];
  for (const latitude of [-34, 0, 40, 52]) {
    for (const day of [15, 105, 166, 258, 349]) {
      const observer = new Observer(latitude, 0, 0);
      let sum = 0;
      for (let minute = 0; minute < 1440; minute += 10) {
        const at = new Date(noon(day).getTime() + (minute - 720) * 60_000);
        const sun = Equator(Body.Sun, at, observer, true, true);
        const { altitude } = Horizon(at, observer, sun.ra, sun.dec);
        // 1367 W/m² at one astronomical unit: the constant of FAO 56, 0.0820 MJ/m²/min.
        sum += Math.max(0, Math.sin((altitude * Math.PI) / 180)) * (0.082 / sun.dist ** 2) * 10;
      }
      off.push(sunTop(latitude, day) / sum - 1);
    }
  }
  console.log(`SUN.TOP against astronomy-engine: ${(Math.min(...off) * 100).toFixed(2)} to ${(Math.max(...off) * 100).toFixed(2)} %`);
  expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.03);
});
