import { calc, define, isRefusal, refuse } from '../define.ts';
import { benchField, faces, HEIGHT, LAYOUT_TEXT, type Layout } from '../field/index.ts';
import { type Measured, measured, PPFD_READINGS } from './fit.ts';
import { pointLabel } from './readings.ts';

/** How often chance alone may name a fixture. */
const CHANCE = 0.01;
/** One that gives so much of what the others do is within what fixtures of one make differ by. */
const SOUND = 0.8;
/** A straight line leaves fewer readings nothing to be told from. */
const LEAST_POINTS = 4;

interface Line {
  /** Counted as `faces` has them, from 1. */
  readonly fixture: number;
  readonly sxx: number;
  readonly sxy: number;
  readonly mean: number;
  /** Reading over plan of the others, and of this fixture as a share of theirs. */
  readonly scale: number;
  readonly share: number;
}

interface Search {
  /** The points that were read: reading, plan and reading over plan. */
  readonly at: readonly number[];
  readonly read: Float64Array;
  readonly plan: Float64Array;
  readonly ratio: Float64Array;
  readonly middle: number;
  readonly syy: number;
  /** Of each fixture, what it gives of the plan at those points. */
  readonly parts: readonly Float64Array[];
  readonly best: Line | undefined;
  readonly explained: number;
  readonly chance: number;
}

const sum = (xs: Float64Array, f: (x: number, i: number) => number): number => xs.reduce((total, x, i) => total + f(x, i), 0);

/** Each fixture by itself, in the order of `faces`. */
const alone = (layout: Layout): Layout[] =>
  layout.groups.flatMap((group) =>
    faces({ ...layout, groups: [group] }).map(({ x, y, length, width }) => ({
      ...layout,
      beside: undefined,
      groups: [{ kind: 'free', fixture: { ...group.fixture, length, width }, places: [{ x, y, turned: false }] }],
    })),
  );

/** How likely n points without any connection have a correlation beyond r, on one side: its density goes by (1 − r²)^(n/2 − 2). */
function byChance(n: number, r: number): number {
  const STEPS = 400;
  const from = (low: number): number => {
    let total = 0;
    for (let i = 0; i < STEPS; i++) total += (1 - (low + ((i + 0.5) * (1 - low)) / STEPS) ** 2) ** (n / 2 - 2);
    return (total * (1 - low)) / STEPS;
  };
  return from(r) / (2 * from(0));
}

/** Reading over plan is s − c·x where a fixture that gives too little has the share x of the plan: a straight line for each fixture in turn, and the one that leaves least. */
function search({ readings, layout }: Measured, height: number): Search {
  const { nx, ny, all } = readings;
  const at = all.flatMap((r, i) => (r === null ? [] : [i]));
  const picked = (of: Float64Array): Float64Array => Float64Array.from(at, (i) => of[i] as number);
  const parts = alone(layout).map((one) => picked(benchField(one, height, nx, ny)));
  const read = Float64Array.from(readings.values);
  const plan = read.map((_, i) => parts.reduce((total, part) => total + (part[i] as number), 0));
  const ratio = read.map((r, i) => r / (plan[i] as number));
  const middle = sum(ratio, (u) => u) / at.length;
  const syy = sum(ratio, (u) => (u - middle) ** 2);
  let best: Line | undefined;
  let explained = 0;
  for (const [k, part] of parts.entries()) {
    const x = part.map((e, i) => e / (plan[i] as number));
    const mean = sum(x, (v) => v) / at.length;
    const sxx = sum(x, (v) => (v - mean) ** 2);
    const sxy = sum(x, (v, i) => (v - mean) * ((ratio[i] as number) - middle));
    const r2 = (sxy * sxy) / (sxx * syy);
    if (!(sxy < 0 && r2 > explained)) continue;
    const scale = middle - (sxy / sxx) * mean;
    [best, explained] = [{ fixture: k + 1, sxx, sxy, mean, scale, share: Math.max(0, 1 + sxy / sxx / scale) }, r2];
  }
  // Each of the fixtures had its chance.
  const chance = best ? parts.length * byChance(at.length, Math.min(1, Math.sqrt(explained))) : 1;
  return { at, read, plan, ratio, middle, syy, parts, best, explained, chance };
}

export const METER_WEAK = define({
  name: 'METER.WEAK',
  family: 'Meter and evenness',
  summary: 'Which one fixture likely gives too little, as the readings have it: its number, its share, or the miss that is left.',
  use: 'Where METER.MISS is high. Leaves the output of each fixture free in turn and takes the one that explains most; 0 where none stands out. Fixtures count along the bench, then across. At least four readings, best two for each fixture; of several weak ones it finds one at most.',
  formula: 'reading / plan = s − c · share of the fixture in the plan there; output = 1 − c/s',
  params: [
    PPFD_READINGS,
    LAYOUT_TEXT,
    HEIGHT,
    {
      name: 'what',
      quantity: 'what is asked',
      unit: 'text',
      meaning: '“fixture”, its number; “share”, of the output that the others show; “miss”, as METER.MISS, once it is taken as found',
      optional: true,
      fallback: 'fixture',
      oneOf: ['fixture', 'share', 'miss'],
    },
  ],
  returns: { quantity: 'number, share or miss', unit: '1' },
  source:
    'Linear regression; its correlation by chance: R. A. Fisher, Biometrika 10, 1915 (from memory), times the number of fixtures. Named where that is under 0.01 and the share under 0.8: our own choice',
  slow: true,
  examples: [
    { formula: 'METER.WEAK({100,100,50,50},LAYOUT(100,0,0,120,2,1,2,0.2),0.3)', gives: 2 },
    { formula: 'METER.WEAK({100,98,101,99},LAYOUT(100,0,0,120,2,1,2,0.2),0.3)', gives: 0 },
  ],
  work: ([cells, text, height, what], show) => {
    const name = 'METER.WEAK';
    const m = measured(name, cells, text);
    if (isRefusal(m)) return m;
    if (m.readings.values.length < LEAST_POINTS) return refuse(`${name}: there are ${m.readings.values.length} readings; at least ${LEAST_POINTS} are needed.`);
    const found = search(m, height);
    const { best, at, read, plan, ratio, middle, parts } = found;
    if (!Number.isFinite(middle)) return refuse(`${name}: the layout gives no light worth the name at a point that was read.`);
    const weak = best && found.chance < CHANCE && best.share < SOUND ? best : undefined;
    if (show && best) {
      const label = (i: number): string => pointLabel(at[i] as number, m.readings.nx);
      show.sum('mean of reading over plan', () => Array.from(ratio, (value, i) => ({ label: label(i), value })), 1 / at.length, middle, '1');
      show.expression('what it falls by with the share of the likeliest fixture', calc`-${best.sxy} / ${best.sxx}`, -best.sxy / best.sxx, '1');
      show.expression('where that fixture has no share', calc`${middle} - ${best.sxy} / ${best.sxx} * ${best.mean}`, best.scale, '1');
      show.expression('differences that it explains, of 1', calc`${best.sxy}^2 / (${best.sxx} * ${found.syy})`, found.explained, '1');
      show.note(
        `Fixture ${best.fixture} of ${parts.length} explains most; chance would explain as much in ${Number((100 * found.chance).toPrecision(2))} of 100 cases.`,
      );
    }
    if (!weak) {
      if (what !== 'fixture') return refuse(`${name}: no fixture stands out; there is no ${what} of one.`);
      show?.expression('none stands out', calc`${0}`, 0, '1');
      return 0;
    }
    if (what === 'fixture') {
      show?.expression('the fixture that explains most', calc`${weak.fixture}`, weak.fixture, '1');
      return weak.fixture;
    }
    if (what === 'share') {
      show?.expression('share of what the others give', calc`max(0, 1 + ${weak.sxy} / ${weak.sxx} / ${weak.scale})`, weak.share, '1');
      return weak.share;
    }
    const part = parts[weak.fixture - 1] as Float64Array;
    const squares = read.map((r, i) => (r - weak.scale * ((plan[i] as number) - (1 - weak.share) * (part[i] as number))) ** 2);
    const ms = sum(squares, (s) => s) / at.length;
    const value = Math.sqrt(ms) / m.readings.mean;
    if (show) {
      const label = (i: number): string => pointLabel(at[i] as number, m.readings.nx);
      show.sum('mean of the squared differences', () => Array.from(squares, (s, i) => ({ label: label(i), value: s })), 1 / at.length, ms, '1');
      show.expression('its root over the mean reading', calc`sqrt(${ms}) / ${m.readings.mean}`, value, '1');
    }
    return value;
  },
});
