/** Whole families held against libraries of other makes, on grids of inputs: which functions, and how far apart at most. */
import { IRR, NPV, PMT, PV } from '@formulajs/formulajs';
import { Body, Observer, SearchAltitude, SearchRiseSet } from 'astronomy-engine';
import { mean as meanOf, min as minOf, standardDeviation } from 'simple-statistics';
import { getTimes } from 'suncalc';
import { expect, test } from 'vitest';
import { annualCapital } from '../../functions/cost/annual-capital.ts';
import { discountedPayback } from '../../functions/cost/payback-years.ts';
import { presentCost } from '../../functions/cost/present-cost.ts';
import { darkHours } from '../../functions/day/dark-hours.ts';
import { dayLength } from '../../functions/sun/day-length.ts';
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

/** From where the sun's centre rises over 6° below the horizon to where it sinks under it, h. */
function civilDay(latitude: number, day: number): number {
  const observer = new Observer(latitude, 0, 0);
  const dawn = SearchAltitude(Body.Sun, observer, 1, new Date(noon(day).getTime() - 12 * HOUR), 1, -6);
  const dusk = SearchAltitude(Body.Sun, observer, -1, noon(day), 1, -6);
  if (!dawn || !dusk) throw new Error('no twilight');
  return (dusk.date.getTime() - dawn.date.getTime()) / HOUR;
}

test('a day with twilight is as long as between dawn and dusk by astronomy-engine, to eleven minutes up to 52° and thirteen up to 57°', () => {
  const off = (latitude: number): number[] => DAYS.map((day) => 60 * (civilDay(latitude, day) - dayLength(latitude, day)));
  const [south, north] = [[-34, 0, 25, 40, 52].flatMap(off), off(57)];
  const range = (all: readonly number[]): string => `${Math.min(...all).toFixed(1)} to ${Math.max(...all).toFixed(1)} min`;
  console.log(`dawn to dusk by astronomy-engine less DAY.LENGTH: ${range(south)}; at 57°: ${range(north)}`);
  // The declination of the short formula is up to half a degree off near an equinox.
  expect(Math.max(...south.map(Math.abs))).toBeLessThan(11);
  expect(Math.max(...north.map(Math.abs))).toBeLessThan(13);
});

test('the shortest and the longest night agree with suncalc’s dawn and dusk, laid beside the lamps minute by minute', () => {
  /** The longest run of dark minutes, round midnight too, h. */
  const darkRun = (isLit: (hour: number) => boolean): number => {
    let [run, best] = [0, 0];
    for (let minute = 0; minute < 2 * 1440; minute++) {
      run = isLit((minute % 1440) / 60) ? 0 : run + 1;
      best = Math.max(best, Math.min(run, 1440));
    }
    return best / 60;
  };
  const between = (hour: number, from: number, to: number): boolean => (from <= to ? hour >= from && hour < to : hour >= from || hour < to);
  const plans: readonly (readonly [on: number, off: number, from?: number, to?: number])[] = [
    [6, 18],
    [12, 12],
    [20, 2],
    [23, 1],
    [0, 24],
    [7, 17, 17, 8],
    [8, 16, 19, 8],
  ];
  for (const latitude of [-34, 25, 52]) {
    for (const months of [DAYS.map(() => true), DAYS.map((_, month) => month >= 8 || month < 2)]) {
      for (const [on, off, from, to] of plans) {
        const nights = DAYS.flatMap((day, month) => {
          if (!months[month]) return [];
          const { dawn, dusk } = getTimes(noon(day), latitude, 0);
          if (!dawn || !dusk) throw new Error('no dawn');
          const half = (dusk.getTime() - dawn.getTime()) / HOUR / 2;
          const isSun = (hour: number): boolean => between(hour, 12 - half, 12 + half) && !(from !== undefined && to !== undefined && between(hour, from, to));
          return [darkRun((hour) => (on === 0 && off === 24) || (on !== off && between(hour, on, off)) || isSun(hour))];
        });
        const given = `${latitude},{${months.map((grown) => (grown ? 'TRUE' : 'FALSE')).join(',')}},${on},${off}${from === undefined ? '' : `,${from},${to}`}`;
        // A quarter of an hour is the short formula's; a night has two ends that a minute's grid cuts.
        expect(Math.abs((evaluate(`NIGHT.SHORTEST(${given})`) as number) - Math.min(...nights)), `shortest ${given}`).toBeLessThan(0.25);
        expect(Math.abs((evaluate(`NIGHT.LONGEST(${given})`) as number) - Math.max(...nights)), `longest ${given}`).toBeLessThan(0.25);
      }
    }
  }
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

/** Heights of the sun's centre, degrees, every five minutes of a day, and how far it is: astronomy-engine, without refraction. */
async function sunThrough(latitude: number, day: number): Promise<readonly { readonly height: number; readonly distance: number }[]> {
  const { Equator, Horizon } = await import('astronomy-engine');
  const observer = new Observer(latitude, 0, 0);
  return Array.from({ length: 288 }, (_, i) => {
    const at = new Date(noon(day).getTime() + (5 * i - 717.5) * 60_000);
    const { ra, dec, dist } = Equator(Body.Sun, at, observer, true, true);
    return { height: Horizon(at, observer, ra, dec).altitude, distance: dist };
  });
}

test('beyond the polar circles days, twilight and radiation agree with astronomy-engine, polar night and polar day among them', async () => {
  const hours: number[] = [];
  const top: number[] = [];
  const polar = { day: 0, night: 0 };
  for (const latitude of [-89, -75, -66, 66, 75, 89]) {
    for (const day of DAYS) {
      const heights = await sunThrough(latitude, day);
      for (const from of [0, -6]) {
        const up = heights.filter(({ height }) => height > from).length / 12;
        const ours = from === 0 ? sunHours(latitude, day) : dayLength(latitude, day);
        hours.push(ours - up);
        if (up === 0 || up === 24) expect(ours, `${latitude}° on day ${day}, from ${from}°`).toBe(up);
      }
      if (sunHours(latitude, day) === 24) polar.day++;
      if (sunHours(latitude, day) === 0) polar.night++;
      // 1367 W/m² at one astronomical unit, as above; five minutes each.
      const sum = heights.reduce((all, { height, distance }) => all + Math.max(0, Math.sin((height * Math.PI) / 180)) * (0.082 / distance ** 2) * 5, 0);
      top.push(sunTop(latitude, day) - sum);
    }
  }
  const range = (all: readonly number[]): string => `${Math.min(...all).toFixed(2)} to ${Math.max(...all).toFixed(2)}`;
  console.log(
    `beyond 66°: SUN.HOURS and DAY.LENGTH less astronomy-engine: ${range(hours)} h; SUN.TOP less it: ${range(top)} MJ/m²/d; polar: ${JSON.stringify(polar)}`,
  );
  expect(polar.day).toBeGreaterThan(14);
  expect(polar.night).toBeGreaterThan(14);
  // The short formula's declination is up to a degree off in September: near a day that the sun only just ends it is 1.5 h, and under the pole's low sun 2 MJ/m²/d.
  expect(Math.max(...hours.map(Math.abs))).toBeLessThan(1.6);
  expect(Math.max(...top.map(Math.abs))).toBeLessThan(2.1);
});
