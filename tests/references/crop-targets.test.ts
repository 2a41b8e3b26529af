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
  expect(look('CROP.DLI', 'Basil', 'indoor')).toMatch(/^refused: .*“sweet basil”/);
  expect(look('CROP.DLI', 'tomato', 'indoors')).toMatch(/^refused: .*“plug seedlings indoor”, “fruiting”/);
});

// What each source did: the first two tried treatments and recommend none, the last recommends.
test.each([
  ['Craver, Gerovac, Lopez and Kopsell 2017, JASHS 142(1):3, brassica microgreens at 6, 12 and 18', ['microgreens brassica', 'indoor'], true],
  ['Horticulturae 2021 7(6):139, cucumber seedlings, a range tested', ['cucumber', 'plug seedlings indoor'], true],
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
  expect(targets.length).toBe(41);
});
