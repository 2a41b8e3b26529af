/** Supplies, wires, fuses, breakers, hangers, heat and money. */
import { maybe, n, type Work } from './arguments.ts';
import { atMost, down, near, refuse, up } from './values.ts';

// Two loaded cores. 0.5 to 1 mm²: IEC 60335-1, table 11 (read in a transcription); 1.25 mm²: BS 7671, table 4F3A (read second-hand); others: lists of cords in
// common use, the lower of two figures, no standard named.
const METRIC: readonly (readonly [number, number])[] = [
  [0.5, 3],
  [0.75, 6],
  [1, 10],
  [1.25, 13],
  [1.5, 15],
  [2.5, 20],
  [4, 25],
];
// NFPA 70, National Electrical Code, table 400.5(A)(1): two and three loaded cores of thermoplastic cords (read second-hand, 17 AWG from memory).
const GAUGES: Readonly<Record<number, readonly [number, number]>> = {
  18: [10, 7],
  17: [12, 9],
  16: [13, 10],
  14: [18, 15],
  12: [25, 20],
  10: [30, 25],
  8: [40, 35],
  6: [55, 45],
};

/** Warmer air: NFPA 70, table 310.15(B)(1) and its equation, √((Tc − Ta)/(Tc − 30)). */
function inAir(amps: number, air: number, most: number): number {
  if (air >= most) refuse('air leaves nothing to the cable');
  return amps * Math.min(1, Math.sqrt((most - air) / (most - 30)));
}

const metricAmps: Work = (area, cores, air, most) => {
  // An area that is a gauge's is that gauge.
  const gauge = Array.from({ length: 41 }, (_, i) => i).find((i) => maybe(area) !== undefined && Math.abs(areaOf(i) - n(area)) < 1e-6 * areaOf(i));
  if (gauge !== undefined) return gaugeAmps(gauge, cores, air, most);
  const row = METRIC.find(([size]) => maybe(area) !== undefined && near(size, n(area)));
  if (!row || maybe(cores) !== 2 || maybe(air) === undefined) return 'unknown';
  return inAir(row[1], n(air), maybe(most) ?? 60);
};

const gaugeAmps: Work = (gauge, cores, air, most) => {
  const row = maybe(gauge) === undefined ? undefined : GAUGES[n(gauge)];
  const count = maybe(cores);
  if (!row || count === undefined || count < 2 || count > 20 || maybe(air) === undefined) return 'unknown';
  // More cores, NFPA 70, table 400.5(A)(3): 4 to 6 80 %, 7 to 9 70 %, 10 to 20 50 % of three.
  const amps = count === 2 ? row[0] : row[1] * (count === 3 ? 1 : count <= 6 ? 0.8 : count <= 9 ? 0.7 : 0.5);
  return inAir(amps, n(air), maybe(most) ?? 60);
};

const areaOf = (gauge: number): number => (Math.PI / 4) * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2;

/** Ω/km at 20 °C of flexible copper, class 5: IEC 60228:2004, table 3 (in part from memory). */
const CLASS5: readonly (readonly [number, number])[] = [
  [0.5, 39],
  [0.75, 26],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
  [25, 0.78],
  [35, 0.554],
  [50, 0.386],
  [70, 0.272],
  [95, 0.206],
];

const ohms: Work = (area, kind, temperature) => {
  if (n(kind) !== 5) throw new Error('The second evaluator knows flexible wires alone.');
  const row = CLASS5.find(([size]) => near(size, n(area)));
  // Of a gauge: ASTM B258, 2018, with copper of 0.017241 Ω·mm²/m (IEC 60028:1925).
  const gauge = Array.from({ length: 41 }, (_, i) => areaOf(i)).find((size) => Math.abs(size - n(area)) < 1e-6 * size);
  const at20 = row?.[1] ?? (gauge === undefined ? refuse('no standard size') : 17.241 / gauge);
  return at20 * (1 + 0.00393 * (n(temperature) - 20));
};

const supplies: Work = (lights, each, rating, share, ports, portWatts) => {
  const byWatts = down((n(rating) * n(share)) / n(each));
  const byPort = down(n(portWatts) / n(each));
  if (byWatts < 1 || byPort < 1) refuse('one light is too much');
  return up(n(lights) / Math.min(byWatts, n(ports) * byPort));
};

/** Years that are as good as never. */
const LONGEST = 1000;

/** Never is refused; nothing to pay back is paid back at once. */
const payback: Work = (extra, saving) => {
  if (n(extra) === 0) return 0;
  return n(saving) > 0 && n(extra) / n(saving) <= LONGEST ? n(extra) / n(saving) : refuse('never pays back');
};

const paybackWithInterest: Work = (extra, saving, rate) => {
  if (n(extra) === 0) return 0;
  if (n(saving) <= n(extra) * n(rate) || n(saving) <= 0) return refuse('never pays back');
  let owed = n(extra);
  for (let year = 0; year <= LONGEST; year++) {
    // What is owed at the end of the year in money of today, and the straight line within it.
    const worth = n(saving) / (1 + n(rate)) ** (year + 1);
    if (owed <= worth) return year + owed / worth;
    owed -= worth;
  }
  return refuse('never pays back');
};

export const WIRES: Readonly<Record<string, Work>> = {
  'WIRE.AMPACITY': metricAmps,
  'WIRE.AMPACITY.AWG': gaugeAmps,
  'WIRE.AREA': (gauge) => areaOf(n(gauge)),
  'WIRE.OHMS': ohms,
  'CABLE.DROP': (watts, volts, length, ohmsPerKm) => {
    const lost = (2 * n(length) * (n(watts) / n(volts)) * n(ohmsPerKm)) / 1000;
    return atMost(n(volts), lost) ? refuse('the cable would take all of it') : lost;
  },
  'SUPPLY.COUNT': supplies,
  'SUPPLY.LOAD': (watts, rating) => n(watts) / n(rating),
  'SUPPLY.AMPS': (watts, volts) => n(watts) / n(volts),
  'SUPPLY.DERATED': (rating, ambient, from, slope) => {
    const left = 1 - n(slope) * Math.max(0, n(ambient) - n(from));
    return left > 1e-12 ? n(rating) * left : refuse('nothing is left of the rating');
  },
  'MAINS.AMPS': (watts, efficiency, factor, volts) => n(watts) / (n(efficiency) * n(factor) * n(volts)),
  'CIRCUIT.COUNT': (breaker, each, share, maker) => {
    const byAmps = down((n(breaker) * n(share)) / n(each));
    if (byAmps < 1) refuse('one is too much for the breaker');
    return typeof maker === 'number' ? Math.min(byAmps, maker) : 'unknown';
  },
  'HANG.LOAD': (mass, points, factor) => (9.81 * n(mass) * n(factor)) / n(points),
  'AIR.FLOW': (heat, rise) => (3600 * n(heat)) / (1.2 * 1005 * n(rise)),
  // ASHRAE Handbook Fundamentals, 2017, chapter 1, equations 5, 6 and 20, term by term.
  'HUMIDITY.RATIO': (temperature, humidity) => {
    const t = n(temperature) + 273.15;
    const saturated = Math.exp(
      t < 273.15
        ? -5674.5359 / t + 6.3925247 - 0.009677843 * t + 0.62215701e-6 * t ** 2 + 0.20747825e-8 * t ** 3 - 0.9484024e-12 * t ** 4 + 4.1635019 * Math.log(t)
        : -5800.2206 / t + 1.3914993 - 0.048640239 * t + 0.41764768e-4 * t ** 2 - 0.14452093e-7 * t ** 3 + 6.5459673 * Math.log(t),
    );
    const vapour = n(humidity) * saturated;
    return 0.621945 * (vapour / (101325 - vapour));
  },
  'LATENT.WATTS': (water, hours) => (n(water) / n(hours)) * (2450000 / 3600),
  'AIR.FLOW.MOISTURE': (water, inside, outside) =>
    n(inside) > n(outside) ? n(water) / (n(inside) - n(outside)) / 1.2 : refuse('the air that comes in is no drier'),
  'HEAT.CREDIT': (watts, hours, price, boiler) => (n(watts) / 1000) * n(hours) * (n(price) / n(boiler)),
  'ENERGY.USE': (watts, efficiency, hours, days) => (n(watts) / n(efficiency) / 1000) * n(hours) * n(days),
  'RUN.COST': (energy, tariff, demand, price) => n(energy) * n(tariff) + n(demand) * n(price) * 12,
  'ANNUAL.CAPITAL': (buy, rate, years) => (n(rate) === 0 ? n(buy) / n(years) : (n(buy) * n(rate)) / (1 - (1 + n(rate)) ** -n(years))),
  'PRESENT.COST': (buy, yearly, rate, years) => n(buy) + (n(rate) === 0 ? n(yearly) * n(years) : (n(yearly) * (1 - (1 + n(rate)) ** -n(years))) / n(rate)),
  'COST.PER.MOL': (run, capital, light) => (n(run) + n(capital)) / n(light),
  'PAYBACK.YEARS': payback,
  'DISCOUNTED.PAYBACK': paybackWithInterest,
  'TARIFF.BREAK.EVEN': (extra, saved, hours, years) => n(extra) / (n(saved) * n(hours) * n(years)),
  'MAINTENANCE.MEAN': (hours, l90, dirt, replaced) => {
    // Piece by piece, from new lights to new lights; each piece by the integral of 0.9^(t / L90).
    const [whole, period] = [n(hours), replaced === undefined ? Number.POSITIVE_INFINITY : n(replaced)];
    let light = 0;
    for (let from = 0; from < whole * (1 - 1e-9); from += period) {
      const lasts = Math.min(period, whole - from);
      light += (n(l90) / Math.log(0.9)) * (0.9 ** (lasts / n(l90)) - 1);
    }
    return whole === 0 ? n(dirt) : (n(dirt) * light) / whole;
  },
  'MAINTENANCE.FACTOR': (hours, l90, dirt) => 0.9 ** (n(hours) / n(l90)) * n(dirt),
};

// Ratings of class gG: IEC 60269-1 (from memory). Others: ratings in which small fuses are sold, common practice, no published source.
export const FUSES: Readonly<Record<string, readonly number[]>> = {
  gg: [2, 4, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100],
  other: [0.5, 1, 1.6, 2, 2.5, 3, 3.15, 4, 5, 6.3, 7.5, 8, 10, 12.5, 15, 16, 20, 25, 30, 32, 35, 40, 50, 60, 63, 80, 100],
};
