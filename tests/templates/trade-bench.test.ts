/** The demo plan worked out by hand: brute-force light, and otherwise plain arithmetic with the catalogue's numbers written out again here. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fromBase, need } from '../../functions/units.ts';
import { columnText, textOf } from '../../src/book/address.ts';
import type { Session } from '../../src/session.ts';
import { newLights } from './new-lights.ts';
import { openTemplate } from './open-template.ts';
import { type Arrangement, evennessInside, mean, PEAK, places, plainBrightest, plainField, plainLight } from './plain-light.ts';
import { entryOf, fill, row } from './rows.ts';

const bench = { length: 3.6, width: 1.5 };
const rail = { faceLength: 1.15, faceWidth: 0.06, beam: 120, volts: 24, lastsTo90: 36_000 };
const supply300 = { rating: 300, ports: 3, port: 100, efficiency: 0.92, powerFactor: 0.96, makerLimit: 4, price: 96 };

interface Plan {
  readonly letter: string;
  readonly light: Arrangement;
  readonly height: number;
  readonly watts: number;
  readonly volts: number;
  readonly kg: number;
  readonly lastsTo90: number;
  readonly price: number;
  readonly supply: typeof supply300;
}

const plans: readonly Plan[] = [
  {
    letter: 'A',
    light: { ...bench, ...rail, output: 122, along: 3, across: 6, spreadAlong: 1.1, spreadAcross: 1.2 },
    height: 0.3,
    watts: 45,
    volts: 24,
    kg: 1.4,
    lastsTo90: 36_000,
    price: 79,
    supply: supply300,
  },
  {
    letter: 'B',
    light: { ...bench, ...rail, output: 243, along: 3, across: 3, spreadAlong: 1.1, spreadAcross: 1.2 },
    height: 0.4,
    watts: 90,
    volts: 24,
    kg: 1.9,
    lastsTo90: 36_000,
    price: 139,
    supply: supply300,
  },
  {
    letter: 'C',
    light: { ...bench, output: 405, faceLength: 0.45, faceWidth: 0.45, beam: 110, along: 5, across: 1, spreadAlong: 1, spreadAcross: 1 },
    height: 0.6,
    watts: 150,
    volts: 48,
    kg: 3.2,
    lastsTo90: 40_000,
    price: 229,
    supply: { rating: 480, ports: 3, port: 160, efficiency: 0.94, powerFactor: 0.97, makerLimit: 3, price: 149 },
  },
];

/** Sweet basil indoors, as the Crops table has it; 16 h a day, 330 days, for five years. */
const target = { low: 12.9, high: 17.8 };
const hoursRun = 16 * 330 * 5;
const GRID = [36, 15] as const;

let session: Session;
beforeAll(async () => {
  session = await openTemplate('trade-bench');
});
afterAll(() => session.close());

/** The value of a row, by its heading, in the given unit. A row that stands twice (Fixtures: how many, and what they cost) is told by the unit. */
function value(letter: string, label: string, symbol: string): number {
  const table = session.book.tables.find((t) => t.name === 'Scenarios');
  const column = letter.charCodeAt(0) - 65;
  const found = (table?.rows ?? []).flatMap((row, r) => {
    const at = session.values[textOf('Scenarios', column, r)];
    return row.label === label && at?.kind === 'number' && need(at.unit).dimension === need(symbol).dimension ? [fromBase(at.base, need(symbol))] : [];
  });
  if (found.length !== 1) throw new Error(`${found.length} rows ${label} in ${symbol} in column ${columnText(column)}`);
  return found[0] as number;
}

function text(letter: string, label: string): string {
  const table = session.book.tables.find((t) => t.name === 'Scenarios');
  const row = table?.rows.findIndex((r) => r.label === label) ?? -1;
  const at = session.values[textOf('Scenarios', letter.charCodeAt(0) - 65, row)];
  return at?.kind === 'text' ? at.text : '';
}

/** Relative; plain arithmetic repeats ours to rounding, brute-force light to well under a millionth at these heights. */
function near(actual: number, expected: number, within = 1e-9): void {
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(within * Math.abs(expected));
}

describe.each(plans)('scenario $letter', (plan) => {
  const { letter, light, height, watts, volts, supply } = plan;
  const count = light.along * light.across;
  const field = plainField(light, height, ...GRID);
  const full = mean(field);
  const left = 0.9 ** (hoursRun / plan.lastsTo90) * 0.95;
  const kept = full * left;
  const dli = kept * 16 * 0.0036;
  const wanted = target.low / (16 * 0.0036);

  // Full ports bind, or eight tenths of the watts, whichever comes first.
  const onOne = Math.min(supply.ports * Math.floor(supply.port / watts), Math.floor((0.8 * supply.rating) / watts));
  const supplies = Math.ceil(count / onOne);
  const onOutput = watts * Math.ceil(count / (supplies * supply.ports));
  const ohmsPerKm = 13.3 * (1 + 0.00393 * 40);
  // Fixtures are whole: the fullest supply has more than the mean where they can't be shared evenly.
  const fullest = watts * Math.ceil(count / supplies);
  const ampsEach = fullest / supply.efficiency / supply.powerFactor / 230;
  const onCircuit = Math.min(Math.floor((0.8 * 16) / ampsEach), supply.makerLimit);

  // A fuse with its holder in each run of cable that leaves a supply.
  const fuses = Math.min(count, supplies * supply.ports) * 3;
  const buy = count * plan.price + supplies * supply.price + fuses + count * 4 * 1.4 + count * 2 * 3.5 + count * 2 * 4 + count * 0.5 * 40;
  const energy = (((count * watts) / supply.efficiency) * 16 * 330) / 1000;
  const run = energy * 0.25;
  const capital = (buy * 0.06) / (1 - 1.06 ** -8);

  test('has the light that brute force gives', () => {
    near(value(letter, 'Full mean PPFD', 'µmol/m²/s'), full, 1e-6);
    near(value(letter, 'Maintained mean PPFD', 'µmol/m²/s'), kept, 1e-6);
    near(value(letter, 'Maintained DLI', 'mol/m²/d'), dli, 1e-6);
    near(value(letter, 'Evenness: lowest to mean', ''), Math.min(...field) / full, 2e-6);
    near(value(letter, 'Evenness away from the edges', ''), evennessInside(light, field, ...GRID, 0.2 * bench.width), 2e-6);
    near(value(letter, 'Dimmest point, maintained', 'µmol/m²/s'), Math.min(...field) * left, 1e-6);
    near(value(letter, 'Brightest point, day one', 'µmol/m²/s'), plainBrightest(plainLight(light, height), light), PEAK);
    near(value(letter, 'Share of the bench with enough', ''), field.filter((x) => x * left >= wanted).length / field.length);
  });

  test('sticks out over the bench as far as its outermost lights reach past it', () => {
    const [xs, ys] = [places(light).map(([x]) => x), places(light).map(([, y]) => y)];
    const pastEnds = Math.max(0, Math.max(...xs) + light.faceLength / 2 - bench.length);
    const pastSides = Math.max(0, Math.max(...ys) + light.faceWidth / 2 - bench.width);
    expect(value(letter, 'Lights past each end by', 'm')).toBeCloseTo(pastEnds, 12);
    expect(value(letter, 'Lights past each side by', 'm')).toBeCloseTo(pastSides, 12);
    // Three rails of 1.15 m, spread by a tenth over 3.6 m, are 3.79 m long together; tiles shared evenly stay within the bench.
    expect(pastEnds).toBeCloseTo(letter === 'C' ? 0 : 0.095, 12);
  });

  test('would just reach the target at the height it names, and nowhere higher', () => {
    const reach = value(letter, 'Height that just reaches the low limit', 'm');
    near(mean(plainField(light, reach, ...GRID)) * left, wanted, 1e-5);
    expect(mean(plainField(light, reach * 1.05, ...GRID)) * left).toBeLessThan(wanted);
  });

  test('has the supplies, cable and circuits that arithmetic gives', () => {
    expect(value(letter, 'Fixtures', '')).toBe(count);
    expect(value(letter, 'Supplies', '')).toBe(supplies);
    near(value(letter, 'Load of the fullest supply', ''), fullest / supply.rating);
    near(value(letter, 'Load of one output', 'W'), onOutput);
    near(value(letter, 'Voltage drop in the cable', 'V'), ((onOutput / volts) * 2 * 4 * ohmsPerKm) / 1000);
    near(value(letter, 'Mains current of the fullest supply', 'A'), ampsEach);
    near(value(letter, 'Mains current', 'A'), (count * watts) / supply.efficiency / supply.powerFactor / 230);
    expect(value(letter, 'Circuits', '')).toBe(Math.ceil(supplies / onCircuit));
    near(value(letter, 'Heat into the air', 'W'), (count * watts) / supply.efficiency);
    near(value(letter, 'Load on one hanger', 'N'), (9.80665 * plan.kg * 5) / 2, 1e-3);
  });

  test('costs what arithmetic gives', () => {
    near(value(letter, 'Cost to buy, all', 'EUR'), buy);
    near(value(letter, 'Energy', 'kWh/year'), energy);
    near(value(letter, 'Running cost', 'EUR/year'), run);
    near(value(letter, 'Running cost a month', 'EUR/month'), run / 12);
    near(value(letter, 'Capital cost', 'EUR/year'), capital);
    const { yearly, mean: share } = newLights(16 * 330, plan.lastsTo90, count * (plan.price + 0.5 * 40));
    near(value(letter, 'Cost a year, all in', 'EUR/year'), run + capital + yearly);
    near(value(letter, 'Cost of light', 'EUR/mol'), (run + capital + yearly) / (full * share * 16 * 0.0036 * 3.6 * 1.5 * 330), 1e-6);
  });
});

test('one scenario holds, one is to be looked at, and one fails where the table shows it', () => {
  const verdicts = plans.map(({ letter }) => text(letter, 'Verdict'));
  expect(verdicts[0]).toBe('holds, 4 assumed: Brightest point, Hours, Day length, Life of the lights');
  expect(verdicts[1]).toMatch(/^close to limit \d+: [^;]*Circuits free/);
  expect(verdicts[2]).toMatch(/^fails/);
  expect(text('C', 'Evenness')).toMatch(/^fails/);
  expect(text('C', 'Voltage in wet places')).toMatch(/^fails/);
  expect(verdicts[2]).toMatch(/^fails 3: Evenness, Limited circuit, Voltage in wet places/);
});

test('a maker’s limit on one breaker that nobody has given is unknown, and the plan never holds by it', async () => {
  const other = await openTemplate('trade-bench');
  try {
    const limits = ['Supply 24/300', 'Supply 48/480'].flatMap((supply) => [16, 20].map((amps) => entryOf(other, 'Supplies', supply, `Most on one ${amps} A`)));
    await fill(other, ...limits.map((cell) => [cell, ''] as const));
    for (const letter of 'ABC') expect(row(other, 'c_circuit', '', letter)).toMatch(/^unknown/);
    expect(row(other, 'verdict')).toMatch(/^unknown \d+: [^;]*Circuits free/);
  } finally {
    other.close();
  }
});
