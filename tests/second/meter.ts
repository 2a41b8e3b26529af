/** Readings of a meter, by themselves and against a layout. */
import { type Argument, cells, grid, n, s, type Work } from './arguments.ts';
import { gauss } from './field.ts';
import { heightFor, modelAt, partsAt } from './light.ts';
import { atMost, isOpen, refuse, sound } from './values.ts';

/** Readings that are there. More than one in five left blank is refused. */
function read(argument: Argument): number[] {
  const all = cells(argument).flat();
  const there = all.filter((cell) => !isOpen(cell)).map((cell) => sound(cell));
  if (all.length - there.length > 0.2 * all.length) refuse('more than one reading in five is blank');
  return there.map((cell) => (cell.kind === 'number' && cell.n >= 0 ? cell.n : refuse('a reading is no number, or less than nothing')));
}

const mean = (xs: readonly number[]): number => xs.reduce((sum, x) => sum + x, 0) / xs.length;
const positive = (x: number): number => (x > 0 ? x : refuse('the mean is 0'));

/** Readings, each with what the model has there. */
function pairs(readings: Argument, layout: Argument, h: number): (readonly [number, number])[] {
  const rows = grid(readings, 'µmol/m²/s');
  const columns = rows[0]?.length ?? 0;
  const model = modelAt(layout, h, columns, rows.length);
  read(readings);
  return rows.flatMap((row, j) => row.flatMap((r, i) => (r === undefined ? [] : [[r, model[j * columns + i] as number] as const])));
}

const fitted = (readings: Argument, layout: Argument, h: number): number => {
  const all = pairs(readings, layout, h);
  positive(mean(all.map(([r]) => r)));
  return all.reduce((sum, [r, m]) => sum + m * r, 0) / all.reduce((sum, [, m]) => sum + m * m, 0);
};

/** Correlation of two lists. */
function correlation(xs: readonly number[], ys: readonly number[]): number {
  const [a, b] = [mean(xs), mean(ys)];
  const dot = (f: (i: number) => number): number => xs.reduce((sum, _, i) => sum + f(i), 0);
  const [x, y] = [(i: number) => (xs[i] as number) - a, (i: number) => (ys[i] as number) - b];
  return dot((i) => x(i) * y(i)) / Math.sqrt(dot((i) => x(i) ** 2) * dot((i) => y(i) ** 2));
}

/**
 * The one light whose share of the plan goes along best with what readings lack. A correlation r of n points that have none has a density of (1 − r²)^((n − 4)/2):
 * R. A. Fisher, Frequency distribution of the values of the correlation coefficient …, Biometrika 10, 1915 (from memory). Under 1 in 100, for as many lights as there
 * are, and under four fifths of the others.
 */
function weak(readings: Argument, layout: Argument, h: number): { fixture: number; share: number; miss: number } {
  const there = pairs(readings, layout, h);
  const rows = grid(readings, 'µmol/m²/s');
  const columns = rows[0]?.length ?? 0;
  const counted = rows.flat().flatMap((r, i) => (r === undefined ? [] : [i]));
  if (there.length < 4) refuse('fewer than four readings');
  positive(mean(there.map(([r]) => r)));
  const ratios = there.map(([r, m]) => r / m);
  const lights = partsAt(layout, h, columns, rows.length).map((of, k) => {
    const shares = counted.map((i, j) => (of[i] as number) / (there[j] as readonly [number, number])[1]);
    return { fixture: k + 1, shares, r: correlation(shares, ratios) };
  });
  const [best] = lights.filter(({ r }) => r < 0).sort((a, b) => a.r - b.r);
  const none = { fixture: 0, share: Number.NaN, miss: Number.NaN };
  if (!best) return none;
  const tail = (low: number): number =>
    gauss(18).reduce((sum, [x, w]) => sum + (w * (1 - low) * (1 - ((1 + low + (1 - low) * x) / 2) ** 2) ** (there.length / 2 - 2)) / 2, 0);
  if ((lights.length * tail(-best.r)) / (2 * tail(0)) >= 0.01) return none;
  // Normal equations of ratio = s + b·share.
  const [sx, sy] = [mean(best.shares), mean(ratios)];
  const slope = (mean(best.shares.map((x, i) => x * (ratios[i] as number))) - sx * sy) / (mean(best.shares.map((x) => x * x)) - sx * sx);
  const others = sy - slope * sx;
  const share = Math.max(0, (others + slope) / others);
  if (share >= 0.8) return none;
  const off = there.map(([r, m], i) => r - others * m * (1 - (1 - share) * (best.shares[i] as number)));
  return { fixture: best.fixture, share, miss: Math.sqrt(mean(off.map((x) => x * x))) / mean(there.map(([r]) => r)) };
}

export const METER: Readonly<Record<string, Work>> = {
  'READINGS.MEAN': (readings) => mean(read(readings)),
  'READINGS.LOW.TO.MEAN': (readings) => Math.min(...read(readings)) / positive(mean(read(readings))),
  'READINGS.SPREAD': (readings) => {
    const [all, middle] = [read(readings), positive(mean(read(readings)))];
    return Math.sqrt(mean(all.map((x) => (x - middle) ** 2))) / middle;
  },
  'METER.FIT': (readings, layout, h, way) => {
    if (way === undefined || s(way) === 'squares') return fitted(readings, layout, n(h));
    const ratios = pairs(readings, layout, n(h)).map(([r, m]) => r / m);
    positive(mean(ratios));
    ratios.sort((a, b) => a - b);
    return mean([Math.floor((ratios.length - 1) / 2), Math.floor(ratios.length / 2)].map((i) => ratios[i] as number));
  },
  'METER.MISS': (readings, layout, h) => {
    const [all, factor] = [pairs(readings, layout, n(h)), fitted(readings, layout, n(h))];
    return Math.sqrt(mean(all.map(([r, m]) => (r - factor * m) ** 2))) / positive(mean(all.map(([r]) => r)));
  },
  'METER.FIT.HEIGHT': (readings, layout, low, high) => {
    if (read(readings).length < 5) refuse('fewer than five readings');
    return heightFor((h) => fitted(readings, layout, h), n(low), n(high));
  },
  'METER.WEAK': (readings, layout, h, what) => {
    const found = weak(readings, layout, n(h));
    if (what === undefined || s(what) === 'fixture') return found.fixture;
    return found.fixture > 0 ? found[s(what) === 'share' ? 'share' : 'miss'] : refuse('no light stands out');
  },
  'METER.VERDICT': (measured, target, tolerance) => {
    if (tolerance === undefined) return 'unknown';
    return atMost(Math.abs(n(measured) / n(target) - 1), n(tolerance)) ? 'holds' : 'fails';
  },
  // R. W. Thimijan and R. D. Heins, Photometric, radiometric, and quantum light units of measure, HortScience 18(6), 1983, table 3 (from memory); white LEDs:
  // common practice, no published source.
  // Low and high: CIE 015:2018, Colorimetry, illuminants LED-B1 to LED-V2, FL3 to FL12 and HP1; common practice; or from memory.
  'LAMP.LUX': (lamp, end) => {
    const table: Readonly<Record<string, readonly [low: number, usual: number, high: number]>> = {
      sunlight: [51, 54, 58],
      'high-pressure sodium': [77, 82, 88],
      'metal halide': [59, 71, 75],
      'cool white fluorescent': [60, 74, 81],
      'warm white fluorescent': [77, 79, 82],
      'plant-growth fluorescent': [25, 33, 45],
      'low-pressure sodium': [104, 106, 108],
      incandescent: [46, 50, 52],
      'warm white led': [53, 65, 75],
      'neutral white led': [56, 68, 75],
      'cool white led': [60, 72, 75],
    };
    const which = ['low', 'usual', 'high'].indexOf(end === undefined ? 'usual' : s(end).toLowerCase());
    return table[s(lamp).toLowerCase()]?.[which] ?? refuse('no such lamp');
  },
  'LUX.TO.PPFD': (lux, factor) => n(lux) / n(factor),
};
