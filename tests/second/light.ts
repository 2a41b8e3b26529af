/** Layouts, light over a bench, and heights. */
import { type Argument, maybe, n, s, type Work } from './arguments.ts';
import { defaultGrid, fieldAt, gauss, gridField, type Layout, mean, middles, oneFace, roughMean } from './field.ts';
import { atMost, down, refuse } from './values.ts';

/** A layout's text keeps twelve digits. */
const twelve = (x: number): number => Number(x.toPrecision(12));
const MICRON = 1e-6;

const layout: Work = (ppf, length, width, beam, along, across, benchX, benchY, turned, spreadX, spreadY, sides) => {
  const [a, b] = [n(along), n(across)];
  if (a * b > 400) refuse('more than 400 lights');
  const numbers = [ppf, length, width, beam, benchX, benchY, spreadX, spreadY, sides].map((x) => twelve(n(x)));
  const [o, l, w, angle, bx, by, sx = 1, sy = 1, back = 0] = numbers;
  const text = `${a * b} (${a}×${b}) of ${o} µmol/s ${l}×${w} m ${angle}° over ${bx}×${by} m${turned ? ', turned' : ''}${sx === 1 && sy === 1 ? '' : `, spread ${sx}×${sy}`}${back === 0 ? '' : `, sides ${back}`}`;
  const made = read(text);
  for (const [centres, size, bench] of [
    [made.xs, made.sizeX, made.benchX],
    [made.ys, made.sizeY, made.benchY],
  ] as const) {
    const gap = centres.length > 1 ? (centres[1] as number) - (centres[0] as number) : Number.POSITIVE_INFINITY;
    if (gap < size - MICRON) refuse('faces overlap');
    if (back > 0 && (centres[0] as number) - size / 2 < -MICRON) refuse('a face crosses a reflecting side');
    if (back > 0 && (centres.at(-1) as number) + size / 2 > bench + MICRON) refuse('a face crosses a reflecting side');
  }
  return text;
};

const texts = new Map<string, Layout>();
const LAYOUT =
  /^\d+ \((\d+)×(\d+)\) of (\S+) µmol\/s ([^×]+)×(\S+) m (\S+)° over ([^×]+)×(\S+) m(, turned)?(?:, spread ([^×]+)×([^,]+))?(?:, sides (\S+?))?(?:, beside (\d+) and (\d+) at (\S+) m)?$/u;

function read(text: Argument): Layout {
  const before = texts.get(s(text));
  if (before) return before;
  const found = LAYOUT.exec(s(text)) ?? refuse(`no layout: ${text}`);
  const at = (i: number, otherwise = 0): number => (found[i] === undefined ? otherwise : Number(found[i]));
  const centres = (count: number, size: number, spread: number): number[] =>
    Array.from({ length: count }, (_, i) => size / 2 + spread * ((i + 0.5) / count - 0.5) * size);
  const ofOne = centres(at(2), at(8), at(11, 1));
  // Rows alike lie so many distances to one side and to the other.
  const rows = Array.from({ length: at(13) + at(14) + 1 }, (_, i) => (i - at(13)) * at(15));
  const made: Layout = {
    ppf: at(3),
    sizeX: found[9] ? at(5) : at(4),
    sizeY: found[9] ? at(4) : at(5),
    beam: at(6),
    xs: centres(at(1), at(7), at(10, 1)),
    ys: rows.flatMap((row) => ofOne.map((y) => y + row)),
    rows: rows.length,
    even: at(13) === at(14),
    benchX: at(7),
    benchY: at(8),
    sides: at(12),
    text: s(text),
  };
  texts.set(s(text), made);
  return made;
}

function gridOf(text: Argument, h: Argument, nx: Argument, ny: Argument): Float64Array {
  const plan = read(text);
  const [x, y] = defaultGrid(plan);
  return gridField(plan, n(h), maybe(nx) ?? x, maybe(ny) ?? y);
}

const least = (all: readonly number[] | Float64Array): number => (all as readonly number[]).reduce((a, b) => Math.min(a, b));
const most = (all: readonly number[] | Float64Array): number => (all as readonly number[]).reduce((a, b) => Math.max(a, b));

/** Points at least the margin from every edge. */
function inside(text: Argument, all: Float64Array, margin: number, nx: number, ny: number): number[] {
  const plan = read(text);
  const deep = (at: number, size: number): boolean => atMost(margin, at) && atMost(margin, size - at);
  const [xs, ys] = [middles(plan.benchX, nx), middles(plan.benchY, ny)];
  const kept = [...all].filter((_, k) => deep(xs[k % nx] as number, plan.benchX) && deep(ys[Math.floor(k / nx)] as number, plan.benchY));
  return kept.length > 0 ? kept : refuse('no point lies so far in');
}

/** A height between two of which the light at the lower is too much and at the upper too little: false position on logarithms, the stale end halved (Illinois). */
function between(light: (h: number) => number, target: number, low: number, high: number): number {
  let [a, b] = [Math.log(low), Math.log(high)];
  let [fa, fb] = [Math.log(light(low) / target), Math.log(light(high) / target)];
  for (let round = 0; round < 200 && Math.abs(b - a) > 1e-9; round++) {
    const c = fa === fb ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const fc = Math.log(light(Math.exp(c)) / target);
    if (Math.abs(fc) < 1e-8) return Math.exp(c);
    if (fc > 0 === fb > 0) fa /= 2;
    else [a, fa] = [b, fb];
    [b, fb] = [c, fc];
  }
  return Math.exp(b);
}

/**
 * The highest height at which the light is the target. A rough light, where there is one, finds the stretch. Where light only falls with height the search may
 * begin anywhere; elsewhere it comes down from the top.
 */
function highest(light: (h: number) => number, target: number, low: number, high: number, falls: boolean, rough = light): number {
  const enough = (h: number): boolean => {
    const about = rough(h) / target;
    return rough !== light && Math.abs(about - 1) < 0.03 ? light(h) >= target : about >= 1;
  };
  if (!falls) {
    if (light(high) > target) refuse('the highest allowed is too low');
    let best = high;
    for (let above = high; above > low; ) {
      const below = Math.max(low, above * 0.9);
      if (enough(below)) return between(light, target, below, above);
      if (rough(below) > rough(best)) best = below;
      above = below;
    }
    // The hump may just reach between two steps.
    let [from, to] = [Math.max(low, best * 0.9), Math.min(high, best / 0.9)];
    for (let i = 0; i < 40; i++) {
      const [a, b] = [from + (to - from) / 3, to - (to - from) / 3];
      if (light(a) < light(b)) from = a;
      else to = b;
    }
    return light(from) >= target ? between(light, target, from, Math.min(high, best / 0.9)) : refuse('never so much light');
  }
  let h = Math.min(Math.max(0.3, low), high);
  const up = enough(h);
  while (up ? h < high : h > low) {
    const next = up ? Math.min(high, h * 1.15) : Math.max(low, h / 1.15);
    if (enough(next) !== up) return between(light, target, Math.min(h, next), Math.max(h, next));
    h = next;
  }
  return refuse(up ? 'the highest allowed is too low' : 'never so much light');
}

const mountHeight: Work = (text, target, low, high) => {
  const plan = read(text);
  const [nx, ny] = defaultGrid(plan);
  const over = (centres: readonly number[], size: number, bench: number): boolean =>
    (centres[0] as number) - size / 2 >= -MICRON && (centres.at(-1) as number) + size / 2 <= bench + MICRON;
  const falls = over(plan.xs, plan.sizeX, plan.benchX) && over(plan.ys, plan.sizeY, plan.benchY);
  return highest(
    (h) => mean(gridField(plan, h, nx, ny)),
    n(target),
    n(low),
    n(high),
    falls,
    (h) => roughMean(plan, h, nx, ny),
  );
};

const landing: Work = (text, height) => {
  const [plan, h] = [read(text), n(height)];
  const axis = (size: number): [number[], number[]] => {
    const pieces = Math.min(60, Math.ceil(size / Math.max(h, 0.02)));
    const [at, weights]: [number[], number[]] = [[], []];
    for (let i = 0; i < pieces; i++) {
      for (const [x, w] of gauss(8)) {
        at.push(((i + 0.5 + x / 2) * size) / pieces);
        weights.push(w / pieces);
      }
    }
    return [at, weights];
  };
  const [[xs, wx], [ys, wy]] = [axis(plan.benchX), axis(plan.benchY)];
  const field = fieldAt(plan, h, xs, ys, 9);
  let sum = 0;
  for (const [j, y] of wy.entries()) for (const [i, x] of wx.entries()) sum += x * y * (field[j * xs.length + i] as number);
  return (sum * plan.benchX * plan.benchY * plan.rows) / (plan.ppf * plan.xs.length * plan.ys.length);
};

const spill: Work = (text, height, aisle, neighbours) => {
  const plan = read(text);
  if (plan.sides > 0) refuse('reflecting sides shut neighbours out');
  if (plan.rows > 1) refuse('the rows beside it are counted already');
  const [nx, ny] = defaultGrid(plan);
  if (n(neighbours) === 0) return 0;
  const beyond = middles(plan.benchY, ny).map((y) => y + plan.benchY + n(aisle));
  const from = mean(fieldAt(plan, n(height), middles(plan.benchX, nx), beyond));
  return (n(neighbours) * from) / mean(gridField(plan, n(height), nx, ny));
};

const beside: Work = (text, apart, before, after) => {
  const bare = s(text).replace(/, beside .*$/u, '');
  const plan = read(bare);
  const distance = twelve(n(apart));
  if (n(before) + n(after) === 0) return bare;
  if (plan.sides > 0) refuse('reflecting sides shut the rows beside it out');
  const far = Math.max(n(before), n(after));
  if (distance < plan.benchY - MICRON || far > 100 || far * distance > 200) refuse('rows that can’t lie so');
  if (plan.xs.length * plan.ys.length * (1 + n(before) + n(after)) > 4000) refuse('more than 4000 lights');
  const made = `${bare}, beside ${n(before)} and ${n(after)} at ${distance} m`;
  const ys = [...read(made).ys].sort((a, b) => a - b);
  if (ys.some((y, i) => i > 0 && y - (ys[i - 1] as number) < plan.sizeY - MICRON)) refuse('faces overlap');
  return made;
};

/** Twice the way from the centre at which a share of the light there is left. */
function strip(length: Argument, width: Argument, beam: Argument, height: Argument, share: Argument, along: boolean): number {
  const light = (d: number): number => oneFace(1, n(length), n(width), n(beam), n(height), along ? d : 0, along ? 0 : d, 18);
  const wanted = light(0) * n(share);
  let [near, far] = [0, n(height)];
  while (light(far) > wanted) [near, far] = [far, far * 2];
  for (let round = 0; round < 60; round++) {
    const middle = (near + far) / 2;
    if (light(middle) > wanted) near = middle;
    else far = middle;
  }
  return near + far;
}

/** Uphill from the best point of the grid, and from the best of those right under the lights, in ever smaller steps. */
const brightest: Work = (text, height, nx, ny) => {
  const [plan, h, all] = [read(text), n(height), gridOf(text, height, nx, ny)];
  const within = (x: number, size: number): number => Math.min(size, Math.max(0, x));
  const columns = maybe(nx) ?? defaultGrid(plan)[0];
  const rows = all.length / columns;
  const at = all.indexOf(most(all));
  const [xs, ys] = [plan.xs.map((x) => within(x, plan.benchX)), plan.ys.map((y) => within(y, plan.benchY))];
  const beneath = fieldAt(plan, h, xs, ys);
  const under = beneath.indexOf(most(beneath));
  const starts = [
    [middles(plan.benchX, columns)[at % columns], middles(plan.benchY, rows)[Math.floor(at / columns)], all[at]],
    [xs[under % xs.length], ys[Math.floor(under / xs.length)], beneath[under]],
  ] as const;
  return most(
    starts.map(([x0 = 0, y0 = 0, e0 = 0]) => {
      let [x, y, e] = [x0, y0, e0];
      for (let step = Math.min(h / 2, plan.benchX / columns); step > 0.002 * h; ) {
        const [us, vs] = [[-1, 0, 1].map((i) => within(x + i * step, plan.benchX)), [-1, 0, 1].map((i) => within(y + i * step, plan.benchY))];
        const near = fieldAt(plan, h, us, vs);
        const best = near.indexOf(most(near));
        if ((near[best] as number) <= e) step /= 3;
        else [x, y, e] = [us[best % 3] as number, vs[Math.floor(best / 3)] as number, near[best] as number];
      }
      return e;
    }),
  );
};

export const LIGHT: Readonly<Record<string, Work>> = {
  LAYOUT: layout,
  'LAYOUT.BESIDE': beside,
  'LAYOUT.COUNT': (text) => (read(text).xs.length * read(text).ys.length) / read(text).rows,
  'BENCH.MEAN': (text, h, nx, ny) => mean(gridOf(text, h, nx, ny)),
  'BENCH.LOW': (text, h, nx, ny) => least(gridOf(text, h, nx, ny)),
  'BENCH.BRIGHTEST': brightest,
  'BENCH.HIGH': (text, h, nx, ny) => most(gridOf(text, h, nx, ny)),
  'BENCH.UNIFORMITY': (text, h, nx, ny) => least(gridOf(text, h, nx, ny)) / mean(gridOf(text, h, nx, ny)),
  'BENCH.UNIFORMITY.INSIDE': (text, h, margin, nx, ny) => {
    const kept = inside(text, gridOf(text, h, nx, ny), maybe(margin) ?? n(h), n(nx), n(ny));
    return least(kept) / mean(kept);
  },
  'BENCH.SHARE.LIT': (text, h, target, nx, ny) => {
    const all = gridOf(text, h, nx, ny);
    return all.filter((light) => light >= n(target)).length / all.length;
  },
  'BENCH.PPFD': (text, h, x, y) => fieldAt(read(text), n(h), [n(x)], [n(y)])[0] as number,
  'LANDING.SHARE': landing,
  'NEIGHBOUR.SPILL': spill,
  'MOUNT.HEIGHT': mountHeight,
  'MOUNT.HEIGHT.UNDER': (ppf, length, width, beam, target) =>
    highest((h) => oneFace(n(ppf), n(length), n(width), n(beam), h, 0, 0, 18), n(target), 0.01, 50, true),
  'BAR.PPFD': (ppf, length, width, beam, h, along, across) => oneFace(n(ppf), n(length), n(width), n(beam), n(h), n(along), n(across)),
  'FALLOFF.POWER': (length, width, beam, h) => {
    const light = (height: number): number => Math.log(oneFace(1, n(length), n(width), n(beam), height, 0, 0, 24));
    return -(light(n(h) * 1.001) - light(n(h) / 1.001)) / (2 * Math.log(1.001));
  },
  'HEIGHT.ERROR': (power, h, error) => {
    // Beyond half of the height the rule says nothing.
    if (!atMost(Math.abs(n(error)), n(h) / 2)) refuse('too large an error for the rule');
    return (-n(power) * n(error)) / n(h);
  },
  'FOOTPRINT.WIDTH': (h, beam) => 2 * n(h) * Math.tan((n(beam) * Math.PI) / 360),
  'USEFUL.WIDTH': (length, width, beam, h, share) => strip(length, width, beam, h, share, false),
  'USEFUL.LENGTH': (length, width, beam, h, share) => strip(length, width, beam, h, share, true),
  'DIM.FOR.TARGET': (now, target) => (atMost(n(target), n(now)) ? n(target) / n(now) : refuse('short of the target')),
  'COUNT.ALONG': (length, one, gap) => {
    const fit = down((n(length) + n(gap)) / (n(one) + n(gap)));
    return fit >= 1 ? fit : refuse('none fits');
  },
  'GROWTH.LIFT': (rate, days) => n(rate) * n(days),
  'DAYS.TO.LIFT': (h, lowest, rate) => {
    if (atMost(n(h), n(lowest))) return 0;
    return n(rate) > 0 ? (n(h) - n(lowest)) / n(rate) : refuse('never without growth');
  },
};

/** The height at which a light's own output explains readings: the highest of those that do. */
export const heightFor = (explained: (h: number) => number, low: number, high: number): number => highest((h) => 1 / explained(h), 1, low, high, false);

/** The model at the middles of the cells of a grid of readings. */
export function modelAt(text: Argument, h: number, columns: number, rows: number): Float64Array {
  const plan = read(text);
  return gridField(plan, h, columns, rows);
}

/** Of each light by itself, row by row, what it gives there. */
export function partsAt(text: Argument, h: number, columns: number, rows: number): Float64Array[] {
  const plan = read(text);
  const [xs, ys] = [middles(plan.benchX, columns), middles(plan.benchY, rows)];
  return plan.ys.flatMap((y) => plan.xs.map((x) => fieldAt({ ...plan, xs: [x], ys: [y] }, h, xs, ys)));
}
