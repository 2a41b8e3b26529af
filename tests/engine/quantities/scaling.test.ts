import { describe, expect, test } from 'vitest';
import { functions } from '../../../functions/index.ts';
import { type Dimension, need } from '../../../functions/units.ts';
import { OFFERED } from '../../../src/engine/offered.ts';
import { PUT_IN } from '../../../src/engine/put-in.ts';
import { random } from './random.ts';
import { place, Sheet } from './sheet.ts';

/**
 * What is true of quantities does not hang on the units that the coherent base happens to have. Were the metre, the kilogram,
 * the second … of another size, each number inside would be another, and each result must change by what its inferred
 * dimension says. A rule that infers a wrong kind, or lets a quantity into a function that reads bare numbers, fails here.
 */
const next = random(4_2);
/** The radian stays: what SIN makes of an angle is no matter of units. */
const RADIAN = need('rad').dimension.powers.indexOf(1);
const SCALES: readonly number[] = need('1').dimension.powers.map((_, i) => (i === RADIAN ? 1 : 0.5 + 1.5 * next()));
const scaleOf = (dimension: Dimension): number => dimension.powers.reduce((product, p, i) => product * (SCALES[i] ?? 1) ** p, 1);

const CELLS: Readonly<Record<string, string>> = {
  A1: '3.61 m',
  A2: '1.47 m',
  A3: '36.3 in',
  B1: '91.3 W',
  B2: '45.7 W',
  B3: '153.9 W',
  C1: '9',
  C2: '4',
  C3: '7',
  D1: '137.9 EUR',
  D2: '79.3 EUR',
  D3: '228.1 EUR',
  E1: '16.3 h/d',
  F1: '5.3 K',
  G1: '57.7 °',
  H1: 'basil',
  I1: '0.83',
  J1: '330 d/year',
};

const ARGUMENTS = [
  'A1',
  'A2',
  'A1:A3',
  'B1',
  'B1:B3',
  'C1',
  'C1:C3',
  'D1',
  'D1:D3',
  'E1',
  'F1',
  'G1',
  'H1',
  'I1',
  'J1',
  '2',
  '0.5',
  '1',
  '0',
  'TRUE',
  '">50"',
  'A1*A2',
  'A1/A2',
  'A1>A2',
  '"x"',
];

const sheet = new Sheet(CELLS);
const scaled = new Sheet(CELLS);
scaled.hyper.hf.batch(() => {
  for (const [address, content] of Object.entries(CELLS)) {
    const kind = sheet.kind(address);
    const read = sheet.content(place(address));
    if (kind.is === 'number' && read.kind === 'number') scaled.hyper.hf.setCellContents(place(address), read.base * scaleOf(kind.dimension));
    else expect(content).toBe('basil');
  }
});

const value = (of: Sheet, formula: string): unknown => {
  try {
    return of.hyper.hf.calculateFormula(formula, 0);
  } catch {
    return undefined;
  }
};

/** Undefined where the formula is refused or has no number; else whether its result changes as its kind says. */
function scales(formula: string): boolean | undefined {
  const { kind } = sheet.quantities.inferFormula(formula, place('Z99'));
  if (kind.is === 'fail' || kind.is === 'mixed') return undefined;
  const [before, after] = [value(sheet, formula), value(scaled, formula)];
  if (typeof before === 'boolean' || typeof before === 'string') return before === after;
  if (typeof before !== 'number' || !Number.isFinite(before)) return undefined;
  if (typeof after !== 'number') return false;
  const expected = kind.is === 'number' ? before * scaleOf(kind.dimension) : before;
  return Math.abs(after - expected) <= 1e-9 * Math.max(Math.abs(expected), Math.abs(after), 1e-12);
}

const STANDARD_FUNCTIONS = [...new Set([...OFFERED, ...PUT_IN])].filter((name) => sheet.hyper.parse(`=${name}()`, place('Z99')).errors.length === 0);

describe('Results scale by their dimension when the base units do', () => {
  test.each(STANDARD_FUNCTIONS)('%s, with whatever arguments it takes', (name) => {
    const failures: string[] = [];
    for (let i = 0; i < 120; i++) {
      const args = Array.from({ length: 1 + Math.floor(next() * 4) }, () => ARGUMENTS[Math.floor(next() * ARGUMENTS.length)]);
      const formula = `=${name}(${args.join(',')})`;
      if (scales(formula) === false) failures.push(formula);
    }
    expect(failures).toEqual([]);
  });

  test('any arithmetic that is let through', () => {
    const leaves = ['A1', 'A2', 'A3', 'B1', 'B2', 'C1', 'D1', 'E1', 'F1', 'I1', 'J1', '2', '0.5'];
    const grow = (depth: number): string => {
      const leaf = leaves[Math.floor(next() * leaves.length)] ?? 'A1';
      if (depth === 0 || next() < 0.2) return leaf;
      const [a, b] = [grow(depth - 1), grow(depth - 1)];
      const forms = [
        `(${a}+${b})`,
        `(${a}-${b})`,
        `${a}*${b}`,
        `(${a})/(${b})`,
        `(${a})^2`,
        `SQRT(ABS(${a}))`,
        `MAX(${a},${b})`,
        `IF(${a}>${b},${a},${b})`,
        `-${a}`,
        `MIN(${a},${b})*${a}`,
        `SUM(${a},${b},${a})`,
      ];
      return forms[Math.floor(next() * forms.length)] ?? a;
    };
    let checked = 0;
    for (let i = 0; i < 6_000; i++) {
      const formula = `=${grow(3)}`;
      const outcome = scales(formula);
      if (outcome === undefined) continue;
      checked++;
      expect(outcome, formula).toBe(true);
    }
    expect(checked).toBeGreaterThan(500);
  });
});

const WRITTEN = /UNIT\((-?[\d.e+-]+),"([^"]+)"\)/g;

/** Functions that hold a constant with a dimension, a table, a clock or a calendar: other base units would need another function. */
const HOLDS_A_CONSTANT: Readonly<Record<string, string>> = {
  'NEIGHBOUR.SPILL': 'cells of the sample grid are at most 10 cm',
  'SPREAD.BEST': 'cells of the sample grid are at most 10 cm',
  'MOUNT.HEIGHT': 'cells of the sample grid are at most 10 cm',
  'DARK.HOURS': 'a day has 24 h',
  'LAMP.WINDOW': 'a day has 24 h',
  'LAMP.HOURS.YEAR': 'months have 28 to 31 d',
  'DLI.FROM.RADIATION': '2.0565 mol a MJ of sunlight',
  'SUN.DLI': 'the solar constant',
  'SUN.TOP': 'the solar constant',
  'SUN.HOURS': 'a day has 24 h',
  'NIGHT.SHORTEST': 'a day has 24 h',
  'NIGHT.LONGEST': 'a day has 24 h',
  'WIRE.AMPACITY': 'a table',
  'WIRE.AMPACITY.AWG': 'a table',
  'DULL.DAYS': 'the solar constant',
  'LAMP.LUX': 'a table',
  'LAMP.PHOTONS': 'a table',
  'PHOTON.ENERGY': 'Planck’s constant and the speed of light',
  'PPFD.FROM.WATTS': 'photons per energy are allowed from 3 to 6 µmol/J',
  'CABLE.AREA': 'a table of sizes',
  'WIRE.AREA': 'a series of sizes',
  'WIRE.OHMS': 'a table of sizes',
  'WIRE.OHMS.AWG': 'a series of sizes',
  'WIRE.OHMS.AT.20': 'the temperature coefficient of copper',
  'FUSE.SIZE': 'a series of sizes',
  'HANG.LOAD': 'gravity',
  'AIR.FLOW': 'the heat that a volume of air holds',
  'AIR.FLOW.MOISTURE': 'the mass of a volume of air',
  'HUMIDITY.RATIO': 'the vapour that air holds at a temperature',
  'LATENT.WATTS': 'the heat that a mass of vapour holds',
  'ANNUAL.CAPITAL': 'interest is compounded by the year',
  'DISCOUNTED.PAYBACK': 'interest is compounded by the year',
  'PRESENT.COST': 'interest is compounded by the year',
  'NUMBER.IN': 'it names the unit of its result',
  'CROP.DLI': 'its example writes a table in base numbers',
  'CROP.PPFD': 'its example writes a table in base numbers',
  'CROP.HOURS': 'its example writes a table in base numbers',
  'CROP.HOURS.LIMIT': 'its example writes a table in base numbers',
  'CROP.PPFD.LIMIT': 'its example writes a table in base numbers',
  'RUN.COST.BANDS': 'a day has 24 h',
};

/** For our own functions s, d and year are stretched alike, or hours a day would pass 24 and days a year 366. */
const TIMES = ['s', 'd', 'year'].map((symbol) => need(symbol).dimension.powers.indexOf(1));
const stretch = (dimension: Dimension): number =>
  dimension.powers.reduce((product, p, i) => product * (SCALES[TIMES.includes(i) ? (TIMES[0] ?? 0) : i] ?? 1) ** p, 1);

describe('Our own functions scale by what their records declare', () => {
  const numeric = functions.filter((record) => record.examples.some((example) => typeof example.gives === 'number') && !(record.name in HOLDS_A_CONSTANT));

  test('which are most of them', () => {
    expect(numeric.length).toBeGreaterThan(functions.length / 2);
  });

  test.each(numeric.map((record) => [record.name, record] as const))('%s', (_, record) => {
    for (const example of record.examples) {
      const committed = sheet.commit(`=${example.formula}`);
      if ('refused' in committed) throw new Error(committed.refused);
      expect(committed.fault?.message, example.formula).toBeUndefined();
      const { kind } = sheet.quantities.inferFormula(committed.content, place('Z99'));
      const larger = committed.content.replace(WRITTEN, (_whole, x: string, u: string) => `UNIT(${Number(x) * stretch(need(u).dimension)},"${u}")`);
      const [before, after] = [value(sheet, committed.content), value(sheet, larger)];
      if (typeof before !== 'number') continue;
      const expected = kind.is === 'number' ? before * stretch(kind.dimension) : before;
      // Fields and searches are exact to 1e-6.
      expect(Math.abs(Number(after) - expected), `${example.formula}: ${before} → ${String(after)}, not ${expected}`).toBeLessThanOrEqual(
        2e-6 * Math.abs(expected),
      );
    }
  });
});
