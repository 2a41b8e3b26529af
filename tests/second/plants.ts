/** Crops, daily light, the sun, and nights. */
import { type Argument, cells, grid, maybe, n, s, type Work } from './arguments.ts';
import { fromBase } from './units.ts';
import { atMost, isOpen, isUnanswered, near, refuse, sound, type Value } from './values.ts';

const lower = (cell: Value | undefined): string => (cell?.kind === 'text' ? cell.s.trim().toLowerCase() : '');

/** A cell of the row of a crop at a stage, by its heading. */
function ofCrop(crops: Argument, crop: Argument, stage: Argument, heading: string): Value {
  const [head = [], ...rows] = cells(crops);
  const column = (name: string): number => head.findIndex((cell) => lower(cell) === name.toLowerCase());
  const is = (cell: Value | undefined, wanted: Argument): boolean => lower(cell) === s(wanted).trim().toLowerCase();
  const row = rows.find((cells) => is(cells[column('crop')], crop) && is(cells[column('stage')], stage)) ?? refuse('no such crop at this stage');
  return row[column(heading)] ?? { kind: 'blank' };
}

/** A number of that row, in a unit; undefined where it is blank. */
function numberOf(crops: Argument, crop: Argument, stage: Argument, heading: string, unit: string): number | undefined {
  const cell = ofCrop(crops, crop, stage, heading);
  if (isOpen(cell)) return undefined;
  const found = sound(cell);
  return found.kind === 'number' ? fromBase(found, unit) : refuse(`${heading} is no number`);
}

const tried = (crops: Argument, crop: Argument, stage: Argument): boolean => lower(ofCrop(crops, crop, stage, 'how sure')).includes('range tested only');

const cropLight: Work = (crops, crop, stage, which, slack) => {
  const low = numberOf(crops, crop, stage, 'DLI low', 'mol/m²/d');
  const high = numberOf(crops, crop, stage, 'DLI high', 'mol/m²/d');
  if (low !== undefined && high !== undefined && low > high) refuse('low above high');
  const asked = which === undefined ? 'aim' : s(which);
  if (asked === 'aim') {
    if (tried(crops, crop, stage)) return refuse('only a range was tried');
    if (low !== undefined && high === undefined) return low * (1 + n(slack));
    return low === undefined || high === undefined ? (high ?? refuse('neither low nor high')) : (low + high) / 2;
  }
  const share = low === high ? n(slack) : 0;
  const end = asked === 'low' ? low : high;
  if (end === undefined) return asked === 'high' && low !== undefined ? 'no high end' : 'unknown';
  return end * (asked === 'low' ? 1 - share : 1 + share);
};

const rad = (degrees: Argument): number => (n(degrees) * Math.PI) / 180;

// R. G. Allen, L. S. Pereira, D. Raes and M. Smith, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, 1998, eq. 21 to 25 and 34.
const tilt = (day: number): number => 0.409 * Math.sin((2 * Math.PI * day) / 365 - 1.39);

/** Half the day as an angle, for a sun that counts from a height on: the spherical triangle of pole, zenith and sun. */
function halfDay(phi: number, day: number, height: number): number {
  const cos = (Math.sin(height) - Math.sin(phi) * Math.sin(tilt(day))) / (Math.cos(phi) * Math.cos(tilt(day)));
  return Math.acos(Math.min(1, Math.max(-1, cos)));
}

function sunTop(phi: number, day: number): number {
  const [omega, delta] = [halfDay(phi, day, 0), tilt(day)];
  const nearer = 1 + 0.033 * Math.cos((2 * Math.PI * day) / 365);
  const top = ((24 * 60) / Math.PI) * 0.082 * nearer * (omega * Math.sin(phi) * Math.sin(delta) + Math.cos(phi) * Math.cos(delta) * Math.sin(omega));
  return Math.max(0, top);
}

/** The normal distribution: Simpson's rule over its density, from six deviations below. */
function normal(z: number): number {
  if (z < -8) return 0;
  if (z > 8) return 1;
  const steps = 800;
  const width = (z + 10) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) sum += (i === 0 || i === steps ? 1 : i % 2 ? 4 : 2) * Math.exp(-((width * i - 10) ** 2) / 2);
  return (sum * width) / 3 / Math.sqrt(2 * Math.PI);
}

/** Stretches of the clock as pieces between 0 and 24 h. */
const pieces = (from: number, to: number): (readonly [number, number])[] =>
  from === to
    ? []
    : from < to
      ? [[from, to]]
      : [
          [from, 24],
          [0, to],
        ];

/** Hours that none of the stretches has, as pieces of a clock that goes round. */
function dark(lit: readonly (readonly [number, number])[]): number[] {
  const marks = [...new Set([0, 24, ...lit.flat()])].sort((a, b) => a - b);
  const gaps: [number, number][] = [];
  for (let i = 1; i < marks.length; i++) {
    const [a, b] = [marks[i - 1] as number, marks[i] as number];
    const middle = (a + b) / 2;
    if (lit.some(([from, to]) => from < middle && middle < to)) continue;
    const last = gaps.at(-1);
    if (last && last[1] === a) last[1] = b;
    else gaps.push([a, b]);
  }
  const [first, last] = [gaps[0], gaps.at(-1)];
  if (first && last && first !== last && first[0] === 0 && last[1] === 24) {
    gaps.pop();
    gaps[0] = [last[0] - 24, first[1]];
  }
  return gaps.map(([a, b]) => b - a);
}

/** The fifteenth of each month of a common year. */
const MIDDLES = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349];
const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** The longest unbroken night of each month that is grown in: sun from 6° below (civil twilight) and lamps count, a blackout keeps out the sun alone. */
function nights(latitude: Argument, months: Argument, on: Argument, off: Argument, drawn: Argument, back: Argument): number[] {
  const grown = months === undefined ? undefined : cells(months).flat();
  if ((maybe(drawn) === undefined) !== (maybe(back) === undefined)) refuse('half a blackout');
  const cloth = maybe(drawn) === undefined ? [] : pieces(n(drawn), n(back));
  const all = MIDDLES.flatMap((day, i) => {
    const said = grown?.[i];
    if (said?.kind === 'yesno' && !said.yes) return [];
    if (said && said.kind !== 'yesno' && !isOpen(said)) sound(said);
    const half = (halfDay(rad(latitude), day, rad(-6)) * 12) / Math.PI;
    const sun: (readonly [number, number])[] = half <= 0 ? [] : half >= 12 ? [[0, 24]] : [[12 - half, 12 + half]];
    const seen = sun.flatMap(([a, b]) => without(a, b, cloth));
    return [Math.max(0, ...dark([...seen, ...pieces(n(on), n(off))]))];
  });
  return all.length > 0 ? all : refuse('no month is grown in');
}

/** What of a stretch is left beside others. */
function without(a: number, b: number, others: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  let left: (readonly [number, number])[] = [[a, b]];
  for (const [from, to] of others) {
    left = left.flatMap(([p, q]) => [[p, Math.min(q, from)] as const, [Math.max(p, to), q] as const].filter(([x, y]) => y > x));
  }
  return left;
}

const FACTOR = 0.0036;

/**
 * Mean over days of how long the lamps are on, the sun of a day normal and none where the bell goes below none: Simpson's rule over the bell, piece by piece
 * between its kinks.
 */
function meanHours(sun: number, spread: number, target: number, hour: number, limit: number): number {
  const on = (light: number): number => Math.min(Math.max(0, target - Math.max(0, light)) / hour, limit);
  if (spread === 0) return on(sun);
  const bell = (light: number): number => Math.exp(-(((light - sun) / spread) ** 2) / 2) / (spread * Math.sqrt(2 * Math.PI));
  const ends = [sun - 9 * spread, sun + 9 * spread];
  const inner = [0, target - hour * limit, target].filter((x) => x > (ends[0] as number) && x < (ends[1] as number));
  const marks = [...ends, ...inner].sort((a, b) => a - b);
  return marks.slice(1).reduce((all, to, i) => {
    const from = marks[i] as number;
    const steps = 400;
    const width = (to - from) / steps;
    let sum = 0;
    for (let k = 0; k <= steps; k++) sum += (k === 0 || k === steps ? 1 : k % 2 ? 4 : 2) * on(from + k * width) * bell(from + k * width);
    return all + (sum * width) / 3;
  }, 0);
}

export const PLANTS: Readonly<Record<string, Work>> = {
  'CROP.DLI': cropLight,
  'CROP.TRIED': tried,
  'CROP.PPFD.LIMIT': (crops, crop, stage) => numberOf(crops, crop, stage, 'PPFD limit', 'µmol/m²/s') ?? 'unknown',
  'CROP.HOURS.LIMIT': (crops, crop, stage) => numberOf(crops, crop, stage, 'hours limit', 'h/d') ?? 'unknown',
  'CROP.DAY.LENGTH': (crops, crop, stage) => {
    const cell = ofCrop(crops, crop, stage, 'day length');
    return isOpen(cell) ? 'unknown' : lower(sound(cell));
  },
  'STAGE.ON.DAY': (plan, day) => {
    let reached = 0;
    for (const [stage, days] of cells(plan)) {
      if (isUnanswered(stage as Value) || isUnanswered(days as Value)) sound((isUnanswered(days as Value) ? days : stage) as Value);
      if (days?.kind !== 'number') continue;
      reached += days.n;
      if (atMost(n(day), reached)) return stage?.kind === 'text' ? stage.s : refuse('a stage has no name');
    }
    return refuse('the plan ends before');
  },
  DLI: (ppfd, hours) => n(ppfd) * n(hours) * FACTOR,
  'PPFD.FOR.DLI': (dli, hours) => n(dli) / (n(hours) * FACTOR),
  'HOURS.FOR.DLI': (dli, ppfd) => {
    const hours = n(dli) / (n(ppfd) * FACTOR);
    return atMost(hours, 24) ? hours : refuse('a day has 24 hours');
  },
  'DLI.GAP': (target, sun) => Math.max(0, n(target) - n(sun)),
  'SUN.HOURS': (latitude, day, height) => (24 / Math.PI) * halfDay(rad(latitude), n(day), rad(height)),
  'SUN.DLI': (latitude, day, clearness, moles) => sunTop(rad(latitude), n(day)) * n(clearness) * n(moles),
  'DULL.DAYS': (latitude, day, clearness, spread, transmission, lamps, target, moles) => {
    const missing = n(target) - n(lamps);
    if (missing <= 0) return 0;
    const top = sunTop(rad(latitude), n(day));
    return top === 0 ? 1 : normal((missing / (top * n(moles) * n(transmission)) - n(clearness)) / n(spread));
  },
  'COVER.TRANSMISSION': (cover, frame, dirt) => n(cover) * n(frame) * n(dirt),
  'FIXTURE.SHADE': (count, length, width, area) => {
    const share = (n(count) * n(length) * n(width)) / n(area);
    return share < 1 || near(share, 1) ? share : refuse('more than the area');
  },
  'LAMP.HOURS.MEAN': (sun, spread, ppfd, target, limit) => meanHours(n(sun), n(spread), n(target), n(ppfd) * FACTOR, n(limit)),
  'LAMP.HOURS.YEAR': (gaps, ppfd, limit) => {
    const all = grid(gaps, 'mol/m²/d').flat();
    if (all.length !== 12) refuse('not twelve gaps');
    return all.reduce<number>((sum, gap, i) => sum + (DAYS[i] as number) * Math.min((gap ?? refuse('a gap is blank')) / (n(ppfd) * FACTOR), n(limit)), 0);
  },
  'LAMP.WINDOW': (from, to) =>
    n(from) % 24 === n(to) % 24 && !(n(from) === 0 && n(to) === 24)
      ? refuse('all day or not at all')
      : pieces(n(from), n(to)).reduce((sum, [a, b]) => sum + b - a, 0),
  'DARK.HOURS': (on, off, rise, set) => dark([...pieces(n(on), n(off)), ...pieces(n(rise), n(set))]).reduce((sum, gap) => sum + gap, 0),
  'NIGHT.SHORTEST': (...args) => Math.min(...nights(args[0], args[1], args[2], args[3], args[4], args[5])),
  'NIGHT.LONGEST': (...args) => Math.max(...nights(args[0], args[1], args[2], args[3], args[4], args[5])),
};
