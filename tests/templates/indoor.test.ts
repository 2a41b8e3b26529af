/**
 * The four books without daylight worked out by hand: brute-force light, and otherwise plain arithmetic with the catalogue's numbers
 * written out again here.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fromBase, need } from '../../functions/units.ts';
import { textOf } from '../../src/book/address.ts';
import type { Session } from '../../src/session.ts';
import { imageAt, mirrorSum } from '../functions/field/mirror-sum.ts';
import { newLights } from './new-lights.ts';
import { openTemplate } from './open-template.ts';
import { type Arrangement, mean, PEAK, places, plainBrightest, plainField, plainLight, underRectangle } from './plain-light.ts';

const rail45 = { output: 122, faceLength: 1.15, faceWidth: 0.06, beam: 120, watts: 45, kg: 1.4, depth: 0.04, lastsTo90: 36_000, price: 79 };
const rail90 = { ...rail45, output: 243, watts: 90, kg: 1.9, price: 139 };
const puck = { output: 44, faceLength: 0, faceWidth: 0, beam: 60, watts: 18, kg: 0.3, depth: 0.06, lastsTo90: 25_000, price: 39 };
const supply150 = { rating: 150, ports: 2, port: 100, efficiency: 0.9, powerFactor: 0.95, makerLimit: 8, price: 62 };
const supply300 = { rating: 300, ports: 3, port: 100, efficiency: 0.92, powerFactor: 0.96, makerLimit: 4, price: 96 };

type Fixture = typeof rail45;
type Supply = typeof supply300;

let session: Session;

/** Opens the template before the tests around it and closes it after them. */
function withTemplate(slug: string): void {
  beforeAll(async () => {
    session = await openTemplate(slug);
  });
  afterAll(() => session.close());
}

/** The value of a scenarios row, by its heading, in the given unit; where a heading stands twice, the unit tells which. */
function value(letter: string, label: string, symbol: string): number {
  const table = session.book.tables.find((t) => t.name === 'Scenarios');
  const found = (table?.rows ?? []).flatMap((row, r) => {
    const at = session.values[textOf('Scenarios', letter.charCodeAt(0) - 65, r)];
    return row.label === label && at?.kind === 'number' && need(at.unit).dimension === need(symbol).dimension ? [fromBase(at.base, need(symbol))] : [];
  });
  if (found.length !== 1) throw new Error(`${found.length} rows ${label} in ${symbol} in column ${letter}`);
  return found[0] as number;
}

function text(letter: string, label: string): string {
  const row = session.book.tables.find((t) => t.name === 'Scenarios')?.rows.findIndex((r) => r.label === label) ?? -1;
  const at = session.values[textOf('Scenarios', letter.charCodeAt(0) - 65, row)];
  return at?.kind === 'text' ? at.text : '';
}

/** Relative; plain arithmetic repeats ours to rounding, brute-force light to well under a millionth at these heights. */
function near(actual: number, expected: number, within = 1e-9): void {
  expect(Math.abs(actual - expected), `${actual} for ${expected}`).toBeLessThanOrEqual(within * Math.abs(expected));
}

const LIGHT = 1e-6;

function arrange(f: Fixture, along: number, across: number, length: number, width: number, spreadAlong = 1, spreadAcross = 1): Arrangement {
  const { output, faceLength, faceWidth, beam } = f;
  return { output, faceLength, faceWidth, beam, along, across, length, width, spreadAlong, spreadAcross };
}

/** PPFD under one fixture, that far along and across from its centre. */
function beside(f: Fixture, height: number, along: number, across: number): number {
  const [nx, ny] = [along === 0 ? 1 : 3, across === 0 ? 1 : 3];
  const field = plainField(arrange(f, 1, 1, 3 * (along || 1), 3 * (across || 1)), height, nx, ny);
  return field[Math.floor((nx * ny) / 2) - (along === 0 ? 0 : 1) - (across === 0 ? 0 : nx)] as number;
}

/** With mirrors on the four edges: every image of every rectangle, each in closed form, until the rest is nothing by a proved bound. For cosine emitters. */
function mirroredAt(a: Arrangement, height: number, x: number, y: number, reflectance: number): number {
  const all = places(a);
  // A cosine emitter gives no more than all its output from its nearest element: Φ/π · h²/r⁴.
  const most = (d: number): number => (all.length * a.output * height ** 2) / Math.PI / (height ** 2 + d ** 2) ** 2;
  const image = (i: number, j: number): number =>
    all.reduce((sum, [u, v]) => sum + underRectangle(a, height, x - imageAt(u, i, a.length), y - imageAt(v, j, a.width)), 0);
  return mirrorSum(a, reflectance, image, most);
}

const mirrored = (a: Arrangement, height: number, nx: number, ny: number, reflectance: number): number[] =>
  Array.from({ length: nx * ny }, (_, k) =>
    mirroredAt(a, height, ((k % nx) + 0.5) * (a.length / nx), (Math.floor(k / nx) + 0.5) * (a.width / ny), reflectance),
  );

const ohmsPerKm = 13.3 * (1 + 0.00393 * 40);
const aged = (f: Fixture, hours: number): number => 0.9 ** (hours / f.lastsTo90) * 0.95;
const paidOff = (buy: number): number => (buy * 0.06) / (1 - 1.06 ** -8);

/** What so many fixtures take: supplies by full ports or by eight tenths of the watts, cable, circuits, parts. */
function electrics(f: Fixture, count: number, s: Supply, cable: number, hanger = 4) {
  const onOne = Math.min(s.ports * Math.floor(s.port / f.watts), Math.floor((0.8 * s.rating) / f.watts));
  const supplies = Math.ceil(count / onOne);
  const fullest = f.watts * Math.ceil(count / supplies);
  const onOutput = f.watts * Math.ceil(count / (supplies * s.ports));
  const ampsEach = fullest / s.efficiency / s.powerFactor / 230;
  return {
    supplies,
    load: fullest / s.rating,
    drop: ((onOutput / 24) * 2 * cable * ohmsPerKm) / 1000,
    amps: (count * f.watts) / s.efficiency / s.powerFactor / 230,
    circuits: Math.ceil(supplies / Math.min(Math.floor((0.8 * 16) / ampsEach), s.makerLimit)),
    // A fuse in each run of cable that leaves a supply.
    buy: count * (f.price + cable * 1.4 + 2 * 3.5 + 2 * hanger + 0.5 * 40) + supplies * s.price + Math.min(count, supplies * s.ports) * 3,
  };
}

function hasElectrics(letter: string, e: ReturnType<typeof electrics>): void {
  expect(value(letter, 'Supplies', '')).toBe(e.supplies);
  near(value(letter, 'Load of the fullest supply', ''), e.load);
  near(value(letter, 'Voltage drop in the cable', 'V'), e.drop);
  near(value(letter, 'Mains current', 'A'), e.amps);
  expect(value(letter, 'Circuits', '')).toBe(e.circuits);
  near(value(letter, 'Cost to buy, all', 'EUR'), e.buy);
}

describe('the rack of tiers', () => {
  withTemplate('rack-of-tiers');
  const shelf = [1.15, 0.45] as const;
  const grid = [23, 9] as const;
  const plans = [
    { letter: 'A', fixture: rail45, across: 2, sides: 0, dim: 1 },
    { letter: 'B', fixture: rail45, across: 2, sides: 0.7, dim: 0.6 },
    { letter: 'C', fixture: rail90, across: 1, sides: 0.7, dim: 0.6 },
  ];

  test.each(plans)('$letter has the room, the light, the warmth and the cost that arithmetic gives', ({ letter, fixture, across, sides, dim }) => {
    const start = 0.45 - 0.04 - 0.06;
    const height = start - 0.1;
    near(value(letter, 'Height over bare soil', 'm'), start);
    near(value(letter, 'Mount height over the leaf tops', 'm'), height);

    const light = arrange(fixture, 1, across, ...shelf, 1, 1.2);
    const bare = plainField(light, height, ...grid);
    const field = mirrored(light, height, ...grid, sides);
    // The closed form and the quadrature are two ways to one field.
    if (sides === 0) for (const [k, e] of field.entries()) near(e, bare[k] as number, 1e-8);
    const left = aged(fixture, 16 * 330 * 5) * dim;
    near(value(letter, 'Full mean PPFD', 'µmol/m²/s'), mean(field), LIGHT);
    near(value(letter, 'Evenness: lowest to mean', ''), Math.min(...field) / mean(field), 2 * LIGHT);
    const peak = plainBrightest((x, y) => mirroredAt(light, height, x, y, sides), light);
    near(value(letter, 'Brightest point, day one', 'µmol/m²/s'), peak * dim, PEAK);
    near(1 + value(letter, 'What the sides add', ''), mean(field) / mean(bare), 2 * LIGHT);
    const dli = mean(field) * left * 16 * 0.0036;
    near(value(letter, 'Maintained DLI', 'mol/m²/d'), dli, LIGHT);
    const sown = mirrored(light, start, ...grid, sides);
    near(value(letter, 'Maintained DLI, just sown', 'mol/m²/d'), mean(sown) * left * 16 * 0.0036, LIGHT);

    const count = 4 * across;
    expect(value(letter, 'Fixtures', '')).toBe(count);
    const e = electrics(fixture, count, supply300, 3);
    hasElectrics(letter, e);
    const heat = (count * fixture.watts * dim) / supply300.efficiency;
    near(value(letter, 'Heat of the rack', 'W'), heat);
    // 300 m³/h of air, 1.2 kg/m³ and 1005 J/(kg·K).
    const rise = heat / ((300 / 3600) * 1.2 * 1005);
    near(value(letter, 'Warmer at the top tier by', 'K'), rise);
    near(value(letter, 'Air at the top tier', '°C'), 22 + rise);
    const run = ((heat * 16 * 330) / 1000) * 0.25;
    const { yearly, mean: share } = newLights(16 * 330, fixture.lastsTo90, count * (fixture.price + 0.5 * 40));
    near(value(letter, 'Cost a year, all in', 'EUR/year'), run + paidOff(e.buy) + yearly);
    const light8 = mean(field) * dim * share * 16 * 0.0036 * 4 * 1.15 * 0.45 * 330;
    near(value(letter, 'Cost of light', 'EUR/mol'), (run + paidOff(e.buy) + yearly) / light8, LIGHT);
  });

  test('fails bare for its corners, and holds with white sides', () => {
    expect(text('A', 'Verdict')).toMatch(/^fails \d+: [^;]*Evenness/);
    expect(text('B', 'Verdict')).toBe('holds, 4 assumed: Brightest point, Hours, Day length, Life of the lights');
    expect(text('C', 'Verdict')).toBe('holds, 4 assumed: Brightest point, Hours, Day length, Life of the lights');
  });

  test('finds the clash when the plants outgrow the room between shelves', async () => {
    await session.type('Brief.A10', '0.3 m');
    await session.settled();
    expect(text('A', 'Tier clearance')).toMatch(/^fails/);
    session.undo();
    await session.settled();
  });
});

describe('the single shelf', () => {
  withTemplate('single-shelf');
  const plans = [
    { letter: 'A', fixture: puck, height: 0.25, dim: 0.6 },
    { letter: 'B', fixture: puck, height: 0.45, dim: 1 },
    { letter: 'C', fixture: rail45, height: 0.25, dim: 0.6 },
  ];

  test.each(plans)('$letter has the light, the strips and the cost that arithmetic gives', ({ letter, fixture, height, dim }) => {
    const field = plainField(arrange(fixture, 1, 1, 0.6, 0.25), height, 12, 8);
    const left = aged(fixture, 13 * 330 * 5) * dim;
    near(value(letter, 'Full mean PPFD', 'µmol/m²/s'), mean(field), LIGHT);
    near(value(letter, 'Maintained DLI', 'mol/m²/d'), mean(field) * left * 13 * 0.0036, LIGHT);
    near(value(letter, 'Evenness: lowest to mean', ''), Math.min(...field) / mean(field), 2 * LIGHT);

    const under = beside(fixture, height, 0, 0);
    near(value(letter, 'Under the middle, day one', 'µmol/m²/s'), under * dim, LIGHT);
    near(value(letter, 'Footprint of the beam', 'm'), 2 * height * Math.tan(((fixture.beam / 2) * Math.PI) / 180));
    for (const [label, share] of [
      ['Half the light or more', 0.5],
      ['Four fifths or more', 0.8],
    ] as const) {
      near(beside(fixture, height, 0, value(letter, `${label}, across`, 'm') / 2), share * under, 1e-5);
      near(beside(fixture, height, value(letter, `${label}, along`, 'm') / 2, 0), share * under, 1e-5);
    }
    // A fine grid stands for the integral.
    near(
      value(letter, 'Light that lands on the shelf', ''),
      (mean(plainField(arrange(fixture, 1, 1, 0.6, 0.25), height, 96, 40)) * 0.15) / fixture.output,
      1e-3,
    );
    near((beside(fixture, value(letter, 'Height for the target under the middle', 'm'), 0, 0) * left * 13 * 3600) / 1e6, 5, 1e-5);
    const slope = Math.log(beside(fixture, height * 1.0001, 0, 0) / beside(fixture, height * 0.9999, 0, 0)) / Math.log(1.0001 / 0.9999);
    near(value(letter, 'Hung a little too high', ''), (slope * 0.02) / height, 1e-5);

    near(value(letter, 'Voltage drop in the cable', 'V'), ((fixture.watts / 24) * 2 * 2 * 26 * (1 + 0.00393 * 40)) / 1000);
    near(value(letter, 'Load on one hanger', 'N'), (9.80665 * fixture.kg * 5) / 2, 1e-3);
    // A fuse with its holder is 3 EUR, the fittings 18 EUR.
    const buy = fixture.price + supply150.price + 3 + 18;
    const run = ((((fixture.watts * dim) / 0.9) * 13 * 330) / 1000) * 0.25;
    near(value(letter, 'Cost a year, all in', 'EUR/year'), run + paidOff(buy) + newLights(13 * 330, fixture.lastsTo90, fixture.price).yearly);
  });

  test('shows that the low light is uneven, the raised one less so, and the long one even', () => {
    expect(text('A', 'Verdict')).toMatch(/^fails \d+: [^;]*Evenness/);
    expect(text('A', 'Brightest point')).toMatch(/^fails/);
    expect(text('B', 'Verdict')).toMatch(/^fails \d+: [^;]*Evenness/);
    expect(text('B', 'Brightest point')).toMatch(/^holds/);
    expect(text('C', 'Verdict')).toBe('holds, 1 assumed: Day length');
  });
});

describe('germination and microgreens', () => {
  withTemplate('germination-and-microgreens');
  const plans = [
    // Where the dark days are spent: in a stack; on the shelf with the lamps off; on the shelf under lids.
    { letter: 'A', shelfDays: 7 + 1, burns: 1, shelves: 3, dark: 0 },
    { letter: 'B', shelfDays: 3 + 7 + 1, burns: 7 / 11, shelves: 4, dark: 0 },
    { letter: 'C', shelfDays: 3 + 7 + 1, burns: 1, shelves: 4, dark: 0.02 },
  ];

  test.each(plans)('$letter has the light, the shelves and the cost of a tray that arithmetic gives', ({ letter, shelfDays, burns, shelves, dark }) => {
    const field = plainField(arrange(rail45, 1, 2, 1.2, 0.55, 1, 1.2), 0.3, 24, 11);
    const left = aged(rail45, 16 * 330 * burns * 5) * 0.95;
    const kept = mean(field) * left;
    near(value(letter, 'Maintained mean PPFD', 'µmol/m²/s'), kept, LIGHT);
    near(value(letter, 'Maintained DLI on a lit day', 'mol/m²/d'), kept * 16 * 0.0036, LIGHT);
    near(value(letter, 'Light on a tray from sowing to cutting', 'mol/m²'), kept * 16 * 0.0036 * 7, LIGHT);
    expect(value(letter, 'Light on a dark day', 'µmol/m²/s')).toBeCloseTo(mean(field) * 0.95 * dark, 4);
    near(value(letter, 'Evenness: lowest to mean', ''), Math.min(...field) / mean(field), 2 * LIGHT);
    near(value(letter, 'Dimming that reaches the light wanted, when new', ''), 150 / mean(field), LIGHT);

    // Two by two trays of 0.50 × 0.25 m would fit along, four by one across: four either way.
    near(value(letter, 'Trays in a week, one shelf', ''), (4 * 7) / shelfDays);
    expect(value(letter, 'Shelves for the trays wanted', '')).toBe(shelves);
    expect(Math.ceil(8 / ((4 * 7) / shelfDays))).toBe(shelves);
    const e = electrics(rail45, 2 * shelves, supply150, 3);
    hasElectrics(letter, e);
    const energy = (((2 * shelves * 45 * 0.95) / 0.9) * 16 * 330 * burns) / 1000;
    near(value(letter, 'Energy', 'kWh/year'), energy);
    const trays = (8 * 330) / 7;
    const light = (energy * 0.25 + paidOff(e.buy) + newLights(16 * 330 * burns, 36_000, 2 * shelves * (79 + 0.5 * 40)).yearly) / trays;
    near(value(letter, 'Electricity per tray', 'kWh'), energy / trays);
    near(value(letter, 'Cost of light per tray', 'EUR'), light);
    near(value(letter, 'Cost of one tray, all in', 'EUR'), light + 1.6 + 0.1 * 40);
  });

  test('counts the days: three dark, seven lit, then cut', () => {
    const stages = Array.from({ length: 14 }, (_, n) => session.values[textOf('Days', 1, n + 1)]);
    expect(stages.map((stage) => (stage?.kind === 'text' ? stage.text : stage))).toEqual([
      ...Array.from({ length: 3 }, () => 'dark'),
      ...Array.from({ length: 7 }, () => 'lit'),
      ...Array.from({ length: 4 }, () => 'cut'),
    ]);
    const light = [0, 2].map((n) => session.values[textOf('Days', 2, n + 1)]);
    for (const day of light) expect(day).toMatchObject({ kind: 'number', base: 0 });
  });

  test('holds where the stack is elsewhere, and is to be looked at where it needs every shelf there is', () => {
    expect(text('A', 'Verdict')).toBe('holds, 3 assumed: Brightest point, Day length, Life of the lights');
    expect(text('B', 'Verdict')).toMatch(/^close to limit \d+: [^;]*Shelves available/);
    expect(text('C', 'Verdict')).toMatch(/^close to limit \d+: [^;]*Shelves available/);
  });
});

describe('the growing canopy', () => {
  withTemplate('growing-canopy');
  const light = arrange(rail90, 2, 6, 2.4, 1.2, 1.1, 1.3);
  const dim = 0.89;
  const left = aged(rail90, 16 * 330 * 5) * dim;
  const tops = (day: number): number => Math.min(1.2, 0.1 + 0.012 * day);
  const plans = [
    { letter: 'A', height: 0.48, every: 1, lifts: 13 },
    { letter: 'B', height: 0.62, every: 3, lifts: 4 },
    { letter: 'C', height: 1.5, every: 14, lifts: 0 },
  ];

  test.each(plans)('$letter has the lift calendar, the light of each week and the dimming that arithmetic gives', ({ letter, height, every, lifts }) => {
    const weeks = Array.from({ length: 14 }, (_, w) => {
      const mount = Math.min(1.8, tops(7 * (w - (w % every))) + height);
      // The middle of a week is half way between its ends.
      const middle = (tops(7 * w) + tops(7 * w + 7)) / 2;
      return { mount, room: mount - tops(7 * w + 7), dli: mean(plainField(light, mount - middle, 24, 12)) * left * 16 * 0.0036 };
    });
    for (const [w, week] of weeks.entries()) {
      near(value(letter, `Lights over the soil, week ${w + 1}`, 'm'), week.mount);
      near(value(letter, `Room over the leaf tops, end of week ${w + 1}`, 'm'), week.room);
      near(value(letter, `Maintained DLI, week ${w + 1}`, 'mol/m²/d'), week.dli, LIGHT);
    }
    const dlis = weeks.map((week) => week.dli);
    near(value(letter, 'Maintained DLI, dullest week', 'mol/m²/d'), Math.min(...dlis), LIGHT);
    near(value(letter, 'Maintained DLI, brightest week', 'mol/m²/d'), Math.max(...dlis), LIGHT);
    near(value(letter, 'Day-one DLI, brightest week', 'mol/m²/d'), (Math.max(...dlis) / left) * dim, LIGHT);
    near(value(letter, 'Maintained DLI, mean of the weeks', 'mol/m²/d'), mean(dlis), LIGHT);
    const room = Math.min(...weeks.map((week) => week.room));
    near(value(letter, 'Least room over the leaf tops', 'm'), room);
    const nearest = plainField(light, room, 24, 12);
    near(value(letter, 'Evenness: lowest to mean', ''), Math.min(...nearest) / mean(nearest), 2 * LIGHT);
    near(value(letter, 'Brightest point, day one', 'µmol/m²/s'), plainBrightest(plainLight(light, room), light) * dim, PEAK);
    expect(value(letter, 'Lifts', '')).toBe(lifts);
    near(value(letter, 'First lift due after', 'd'), (height - 0.3) / 0.012);
    // Sweet pepper, fruiting: 20 to 30 mol/m²/d, so 25 is aimed at.
    near(value(letter, 'Dim for the aim, new', ''), (25 * left) / (mean(dlis) * 0.95), LIGHT);
    for (const years of [2, 5])
      near(value(letter, `Dim for the aim, after ${years} years`, ''), (25 * left) / (mean(dlis) * aged(rail90, 16 * 330 * years)), LIGHT);

    const e = electrics(rail90, 12, supply300, 5, 8);
    hasElectrics(letter, e);
    const run = (((12 * 90 * dim) / 0.92) * 16 * 330 * 0.25) / 1000 + lifts * 0.25 * 40 * 2;
    near(value(letter, 'Cost a year, all in', 'EUR/year'), run + paidOff(e.buy) + newLights(16 * 330, 36_000, 12 * (139 + 0.5 * 40)).yearly);
  });

  test('holds where the lights follow the crop, and fails where they stay up', () => {
    expect(text('A', 'Verdict')).toBe('holds, 2 assumed: Brightest point, Life of the lights');
    expect(text('B', 'Verdict')).toBe('holds, 2 assumed: Brightest point, Life of the lights');
    expect(text('C', 'Verdict')).toMatch(/^fails \d+: [^;]*Dullest week/);
  });
});
