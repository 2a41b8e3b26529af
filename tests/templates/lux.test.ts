/** A reading in lux is a span of light for plants, not one figure: by the lamp alone. */
import { afterEach, describe, expect, test } from 'vitest';
import { fromBase, need } from '../../functions/units.ts';
import type { Session } from '../../src/session.ts';
import { openTemplate } from './open-template.ts';
import { cellOf, fill, said } from './rows.ts';

let session: Session;
afterEach(() => session?.close());

const address = (name: string): string => (session.book.names[name] ?? name).replaceAll('$', '');
const set = async (...answers: readonly (readonly [name: string, typed: string])[]) => {
  for (const [name, typed] of answers) expect(await session.type(address(name), typed), name).toMatchObject({ ok: true });
  await session.settled();
};
function ppfd(name: string): number {
  const value = session.values[address(name)];
  if (value?.kind !== 'number') throw new Error(`${name} is ${JSON.stringify(value)}`);
  return fromBase(value.base, need('µmol/m²/s'));
}

describe.each(['greenhouse-bench', 'single-shelf'])('in %s', (slug) => {
  test('what a lux meter showed is asked in the brief with the lamp, and is said as light for plants with its span', async () => {
    session = await openTemplate(slug);
    const brief = session.book.pages.find((page) => page.id === 'brief');
    expect(brief?.blocks.some((block) => block.kind === 'table' && block.table === 'lux')).toBe(true);
    expect([ppfd('lux_ppfd'), ppfd('lux_from'), ppfd('lux_to')], 'nothing was read').toEqual([0, 0, 0]);
    // 8,100 lx at 54, 58 and 51 lx for each µmol/m²/s.
    await set(['lux_read', '8100 lx'], ['lux_lamp', 'sunlight']);
    expect(ppfd('lux_ppfd')).toBeCloseTo(150, 6);
    expect(ppfd('lux_from')).toBeCloseTo(139.655172, 5);
    expect(ppfd('lux_to')).toBeCloseTo(158.823529, 5);
    // 65, 75 and 53 of warm white diodes. A foot-candle is 10.763910 lx.
    await set(['lux_read', '500 fc'], ['lux_lamp', 'warm white LED']);
    expect(ppfd('lux_ppfd')).toBeCloseTo((500 * 10.76391) / 65, 3);
    expect(ppfd('lux_from')).toBeCloseTo((500 * 10.76391) / 75, 3);
    expect(ppfd('lux_to')).toBeCloseTo((500 * 10.76391) / 53, 3);
    expect(await session.type(address('lux_lamp'), 'candle')).toMatchObject({ ok: false });
  });
});

// As the template has them, lights on, less those with the lights off.
const READ = [
  [11100, 13550, 12300, 12650, 13800, 11300],
  [12150, 14250, 13600, 13300, 14350, 12100],
  [11000, 13450, 12600, 12600, 11450, 11300],
].flat();

test('on a single shelf the day of light by that reading is said about, from and to', async () => {
  session = await openTemplate('single-shelf');
  await set(['lux_lamp', 'warm white LED'], ['lux_read', '6500 lx'], ['light_hours', '10 h/d']);
  // 65, 75 and 53 lx for each µmol/m²/s; 10 h are 36,000 s.
  for (const [name, factor] of [
    ['lux_day', 65],
    ['lux_day_from', 75],
    ['lux_day_to', 53],
  ] as const) {
    const value = session.values[address(name)];
    expect(value?.kind === 'number' ? fromBase(value.base, need('mol/m²/d')) : value, name).toBeCloseTo((6500 / factor) * 0.036, 6);
  }
});

test('on a single shelf the reading is judged for the crop, as far as a lux meter can tell', async () => {
  session = await openTemplate('single-shelf');
  const says = (): string => {
    const value = session.values[address('lux_says')];
    return value?.kind === 'text' ? value.text : JSON.stringify(value);
  };
  expect(says()).toBe('not read yet');
  // African violets want 4 to 6 mol/m²/d; in 13 h/d 85.5 to 128.2 µmol/m²/s. Warm white tubes: 77 to 82 lx for each.
  await set(['lux_lamp', 'warm white fluorescent'], ['light_hours', '13 h/d']);
  for (const [lux, said] of [
    [6500, 'low'],
    [6800, 'perhaps low'],
    [8000, 'enough'],
    [10_200, 'perhaps high'],
    [10_600, 'high'],
  ] as const) {
    await set(['lux_read', `${lux} lx`]);
    expect(says(), `${lux} lx`).toBe(said);
  }
  // Of one figure, and with lamps that lie far apart, nobody can tell; of a crop without a figure neither.
  await set(['crop', 'lettuce'], ['stage', 'indoor'], ['one_figure', '1 %'], ['lux_lamp', 'metal halide'], ['lux_read', '18000 lx']);
  expect(says()).toMatch(/can’t tell/);
  await set(['crop', 'moth orchid, in flask']);
  expect(says()).toBe('unknown');
  expect(session.book.pages.find((page) => page.id === 'brief')?.blocks.findIndex((block) => block.kind === 'table' && block.table === 'lux')).toBe(2);
});

test('what was assumed for the crop of the example goes with it', async () => {
  session = await openTemplate('single-shelf');
  const check = (): string => {
    const at = session.values[cellOf(session, 'c_ceiling')];
    return at?.kind === 'text' ? at.text : '';
  };
  // 250 µmol/m²/s is the violets’ own.
  expect(check()).not.toMatch(/assumed/);
  await set(['crop', 'tomato, plug seedlings indoor']);
  expect(check()).toMatch(/limit assumed: 500 µmol\/m²\/s on a leaf$/);
});

describe('a meter check', () => {
  const lit = async () => {
    const dark = ['B', 'C', 'D', 'E', 'F', 'G'].flatMap((column) => [2, 3, 4].map((row) => session.values[`Dark.${column}${row}`]));
    const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);
    return (sum(READ) - sum(dark.map((value) => (value?.kind === 'number' ? value.base : Number.NaN)))) / 18;
  };

  test('reckons with the factor given until a lamp is picked, then with that lamp’s and its span', async () => {
    session = await openTemplate('meter-check');
    const lux = await lit();
    expect(ppfd('measured_mean')).toBeCloseTo(lux / 66, 6);
    expect([ppfd('measured_from'), ppfd('measured_to')], 'the factor is known').toEqual([ppfd('measured_mean'), ppfd('measured_mean')]);
    await set(['lux_factor', '70']);
    expect(ppfd('measured_mean')).toBeCloseTo(lux / 70, 6);
    await set(['lux_lamp', 'warm white LED']);
    expect(ppfd('measured_mean')).toBeCloseTo(lux / 65, 6);
    expect(ppfd('measured_from')).toBeCloseTo(lux / 75, 6);
    expect(ppfd('measured_to')).toBeCloseTo(lux / 53, 6);
  });

  test('by a quantum meter there is no span', async () => {
    session = await openTemplate('meter-check');
    await set(['meter_kind', 'quantum meter'], ['lux_lamp', 'warm white LED']);
    expect(ppfd('measured_mean')).toBeCloseTo(await lit(), 6);
    expect([ppfd('measured_from'), ppfd('measured_to')]).toEqual([ppfd('measured_mean'), ppfd('measured_mean')]);
  });

  test('says which readings are blank, those with the lights on or the dark ones, and what was found once both are there', async () => {
    session = await openTemplate('meter-check');
    const found = (): string | number => said(session, 'Meter.A32');
    const all = (table: string, content?: string) =>
      fill(session, ...['B', 'C', 'D', 'E', 'F', 'G'].flatMap((column) => [2, 3, 4].map((r) => [`${table}.${column}${r}`, content ?? ''] as const)));
    expect(found()).toMatch(/^On the mean the bench gets \d+(\.\d+)? µmol\/m²\/s where \d+(\.\d+)? µmol\/m²\/s was planned for day one: /);
    await all('Dark');
    expect(found()).toBe('Dark readings: 18 of 18 are blank. Read those places with the lights off too; put 0 where it was dark.');
    await all('Readings');
    expect(found()).toBe('Readings: 18 of 18 are blank. The bench is compared with the plan once they are there.');
    await all('Readings', '6600');
    await all('Dark', '0');
    expect(found()).toMatch(/^On the mean the bench gets 100 µmol\/m²\/s where /);
  });
});

test('old lamps read in lux give a span by their kind, and white diodes are among the kinds', async () => {
  session = await openTemplate('replace-old-lamps');
  const sum = [7900, 9800, 10400, 10200, 9900, 7700, 8600, 10900, 11600, 11500, 10800, 8500, 7600, 9500, 10100, 10000, 9600, 7500].reduce((a, b) => a + b, 0);
  // Cool white fluorescent tubes: 74 usual, 81 and 60 at the ends.
  expect(ppfd('old_light')).toBeCloseTo(sum / 18 / 74, 6);
  expect(ppfd('old_light_from')).toBeCloseTo(sum / 18 / 81, 6);
  expect(ppfd('old_light_to')).toBeCloseTo(sum / 18 / 60, 6);
  await set(['lamp_kind', 'cool white LED']);
  expect(ppfd('old_light')).toBeCloseTo(sum / 18 / 72, 6);
  expect(ppfd('old_light_to')).toBeCloseTo(sum / 18 / 60, 6);
});
