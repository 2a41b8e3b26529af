/** Published light targets come out of the look-ups as the sources state them. The table is the one that a new book is filled with. */
import { expect, test } from 'vitest';
import { CROP_HEADINGS, cropRows, cropTargets } from '../../functions/data/crops.ts';
import { isRefusal } from '../../functions/define.ts';
import { need, toBase } from '../../functions/units.ts';
import { record } from '../functions/evaluate.ts';

/** As a range reaches a function: numbers in base units. */
const table = cropRows().map((row, r) => row.map((cell, c) => (r > 0 && typeof cell === 'number' ? toBase(cell, need(CROP_HEADINGS[c]?.[1] ?? '1')) : cell)));
const look = (name: string, ...args: readonly string[]): unknown => {
  const f = record(name);
  const filled = f.params.map((p, i) => (i === 0 ? table : (args[i - 1] ?? p.fallback)));
  const answer = f.work(filled as never, undefined);
  return isRefusal(answer) ? `refused: ${answer.message}` : answer;
};

// Source, and the call that must give its number: CROP.DLI( CROP.PPFD( CROP.HOURS( CROP.HOURS.LIMIT( CROP.PPFD.LIMIT( CROP.DAY.LENGTH( CROP.TRIED(
test.each([
  ['Both et al., optimum 17 mol/m²/d for head lettuce', 'CROP.DLI', ['lettuce', 'head greenhouse'], 17],
  ['Scientific Reports 2023 13:10923, iceberg lettuce at 200 µmol/m²/s', 'CROP.PPFD', ['iceberg lettuce', 'indoor'], 200],
  ['Scientific Reports 2023 13:10923, 16 h', 'CROP.HOURS', ['iceberg lettuce', 'indoor'], 16],
  ['Dou et al. 2018, basil from 12.9 mol/m²/d', 'CROP.DLI', ['sweet basil', 'indoor', 'low'], 12.9],
  ['Garcia and Lopez 2020, transplants: at least 13', 'CROP.DLI', ['tomato cucumber pepper', 'transplants'], 13],
  ['Craver, Boldt and Lopez 2019, plugs 10 to 12: their middle', 'CROP.DLI', ['bedding plants', 'plugs and young plants'], 11],
  ['Ohio State University, strawberry 20 to 25', 'CROP.DLI', ['strawberry', 'greenhouse optimum', 'high'], 25],
  ['Demers and Gosselin 2002, sweet pepper up to 20 h', 'CROP.HOURS.LIMIT', ['sweet pepper', 'fruiting'], 20],
  ['Paz, Fisher and Gómez 2019, red-leaf lettuce at home: 6.5 to 9.7 at least', 'CROP.DLI', ['lettuce', 'at home, least', 'low'], 6.5],
  ['Plants 2024 13(5):652, leafy greens: 12 or more', 'CROP.DLI', ['spinach', 'leaf production', 'low'], 12],
  ['Plants 2024 13(5):652, leafy greens: 12 or more', 'CROP.DLI', ['rocket', 'leaf production', 'low'], 12],
  ['Plants 2024 13(5):652, leafy greens: 12 or more', 'CROP.DLI', ['kale', 'leaf production', 'low'], 12],
  // 30 cal/cm² of visible light in a day, of 4.184 J and 4.57 µmol each joule.
  ['Acta Horticulturae 22:26, 1971, chrysanthemum flowers at 30 cal/cm²/d', 'CROP.DLI', ['chrysanthemum', 'flowering in winter', 'low'], 5.7],
  ['Fisher and Runkle 2005, potted crops: 10 or more', 'CROP.DLI', ['poinsettia', 'flowering', 'low'], 10],
  ['Camberato, Lopez and Krug 2012, poinsettia at 16 h until short days', 'CROP.HOURS', ['poinsettia', 'long days before flowering'], 15],
  ['from memory: poinsettia flowers in short days', 'CROP.DAY.LENGTH', ['poinsettia', 'flowering'], 'short'],
  ['cut roses, 2014: 300 µmol/m²/s for 20 h, 21.6 mol/m²/d', 'CROP.DLI', ['rose', 'cut flowers', 'high'], 21.6],
  ['cut roses, 2014: 200 to 300 µmol/m²/s', 'CROP.PPFD', ['rose', 'cut flowers'], 250],
  ['Greenhouse Grower, cuttings of annuals: about 5 in the first 7 days', 'CROP.DLI', ['annual cuttings', 'callusing'], 5],
  ['Michigan State University Extension, young plants: 10 recommended', 'CROP.DLI', ['annual cuttings', 'rooting', 'low'], 10],
  ['from memory: lettuce flowers in long days', 'CROP.DAY.LENGTH', ['lettuce', 'indoor'], 'long'],
])('%s', (_, name, args, wanted) => {
  const got = look(name, ...args);
  if (typeof wanted === 'number') expect(got).toBeCloseTo(wanted, 9);
  else expect(got).toBe(wanted);
});

test('a blank limit is unknown, a row that was only tested has no aim, and a wrong name brings the nearest', () => {
  expect(look('CROP.PPFD.LIMIT', 'lettuce', 'indoor')).toBe('unknown');
  expect(look('CROP.DLI', 'microgreens brassica', 'indoor')).toMatch(/^refused: .*only what a trial tested/);
  expect(look('CROP.DLI', 'microgreens brassica', 'indoor', 'high')).toBeCloseTo(18, 9);
  // Known from trials by its PPFD alone.
  expect(look('CROP.DLI', 'sweet basil', 'seedling')).not.toMatch(/ 0 /);
  // Garcia and Lopez 2020: at least 13.
  expect(look('CROP.DLI', 'tomato cucumber pepper', 'transplants', 'high')).toBe('no high end');
  expect(look('CROP.DLI', 'sweet basil', 'seedling', 'high')).toBe('unknown');
  expect(look('CROP.DLI', 'Basil', 'indoor')).toMatch(/^refused: .*“sweet basil”/);
  expect(look('CROP.DLI', 'tomato', 'indoors')).toMatch(/^refused: .*“plug seedlings indoor”, “fruiting”/);
});

// What each source did: the first two tried treatments and recommend none, the last recommends.
test.each([
  ['Craver, Gerovac, Lopez and Kopsell 2017, JASHS 142(1):3, brassica microgreens at 6, 12 and 18', ['microgreens brassica', 'indoor'], true],
  ['Horticulturae 2021 7(6):139, cucumber seedlings, a range tested', ['cucumber', 'plug seedlings indoor'], true],
  ['kale and spinach at 8 to 14, dry weight rising throughout', ['kale', 'leaf, as tried'], true],
  ['Mortensen 2014, miniature roses at 100 and 150 µmol/m²/s', ['rose', 'miniature, in pots'], true],
  ['Both et al., optimum 17 mol/m²/d for head lettuce', ['lettuce', 'head greenhouse'], false],
] as const)('whether only a range was tried: %s', (_, args, wanted) => expect(look('CROP.TRIED', ...args)).toBe(wanted));

test('every row names its source and how sure it is, and no crop has a stage twice', () => {
  const targets = cropTargets();
  const keys = targets.map(({ crop, stage }) => `${crop}, ${stage}`);
  expect(new Set(keys).size).toBe(keys.length);
  for (const { crop, source, sure } of targets) {
    expect(source.trim(), crop).not.toBe('');
    expect(sure.trim(), crop).not.toBe('');
  }
  expect(targets.length).toBe(57);
});

test('no row that is taken for a target spans so much that its middle says nothing', () => {
  // Of twelve to one, as a row of cuttings once had it, the middle is neither for callusing nor for rooting.
  const wide = cropTargets().filter(({ dli: [low, high], sure }) => low !== null && high !== null && high > 4 * low && !sure.includes('range tested only'));
  expect(wide.map(({ crop, stage }) => `${crop}, ${stage}`)).toEqual([]);
});

test('a DLI that is said to be computed is that of its PPFD and its hours', () => {
  const computed = cropTargets().filter(({ source, ppfd, hours }) => source.endsWith('DLI computed') && ppfd[0] !== null && hours[0] !== null);
  expect(computed.length).toBeGreaterThan(5);
  for (const { crop, stage, dli, ppfd, hours } of computed)
    for (const end of [0, 1] as const) expect(dli[end], `${crop}, ${stage}`).toBeCloseTo(((ppfd[end] ?? 0) * (hours[end] ?? 0) * 3600) / 1e6, 1);
});
