import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { parseCsv } from '../../src/files/csv/csv.ts';
import { desk, overbench } from './run.ts';

const files = desk();
const book = files.path('b.json');
beforeAll(async () => {
  expect(await overbench(['new', 'trade-bench', '-o', book])).toMatchObject({ status: 0, err: '' });
});
afterAll(() => files.clear());

/** One row of the wide CSV, by its label: its unit, then its values. */
function row(csv: string, label: string): string[] {
  // A table's name stands alone on its line.
  const found = parseCsv(csv).records.filter((record) => record[0] === label && record[2] !== '');
  expect(found, label).toHaveLength(1);
  return (found[0] ?? []).slice(1, 5);
}

test('a template becomes a book, and its wide CSV has three scenarios with no error cells', async () => {
  const { status, out } = await overbench(['csv', book, '--wide']);
  expect(status).toBe(0);
  const numbers: readonly [string, string, number, number][] = [
    ['Fixtures', '', 1, 100],
    ['Mount height', 'm', 0.1, 1],
    ['Maintained mean PPFD', 'µmol/m²/s', 200, 320],
    ['Evenness: lowest to mean', '', 0.1, 1],
    ['Maintained DLI', 'mol/m²/d', 11, 18],
    ['Supplies', '', 1, 10],
    ['Energy', 'kWh/year', 1000, 10_000],
    ['Cost to buy, all', 'EUR', 1000, 4000],
    ['Cost a year, all in', 'EUR/year', 500, 3000],
  ];
  for (const [label, unit, low, high] of numbers) {
    const [shown, ...values] = row(out, label);
    expect(shown, label).toBe(unit);
    expect(values, label).toHaveLength(3);
    for (const value of values) {
      expect(Number(value), label).toBeGreaterThanOrEqual(low);
      expect(Number(value), label).toBeLessThanOrEqual(high);
    }
  }
  for (const word of ['error', 'no such name', 'out of range', '#']) expect(out).not.toContain(`,${word}`);
  // Of the brief some is still to be asked; the scenarios are worked out without it.
  const scenarios = out.split(/^Scenarios,*\r?$/m)[1]?.split(/^\w+,*\r?$/m)[0] ?? '';
  expect(scenarios).toContain('Mount height');
  expect(scenarios).not.toContain('not answered');
});

test('what is set by name, in its own unit, is in the book and in what follows from it', async () => {
  const other = files.path('other.json');
  const ran = await overbench(['new', 'trade-bench', '--set', 'bench_length=12ft', '--set', 'tariff=0.5 EUR/kWh', '-o', other]);
  expect(ran).toMatchObject({ status: 0, out: '' });
  const csv = (await overbench(['csv', other, '--wide'])).out;
  expect(row(csv, 'Bench length').slice(0, 2)).toEqual(['ft', '12']);
  expect(Number(row(csv, 'Area')[1])).toBeCloseTo(3.6576 * 1.5, 12);
  const before = (await overbench(['csv', book, '--wide'])).out;
  for (const i of [1, 2, 3]) expect(Number(row(csv, 'Running cost')[i]) / Number(row(before, 'Running cost')[i])).toBeCloseTo(2, 9);
  expect(files.read('other.json')).toContain('12 ft');
});

test('a scenario is changed by address, and what can not be set there is refused', async () => {
  const other = files.path('scenario.json');
  expect(await overbench(['new', 'trade-bench', '--set', 'Scenarios.A7=45 cm', '-o', other])).toMatchObject({ status: 0 });
  const kept = async (file: string): Promise<number[]> =>
    row((await overbench(['csv', file, '--wide'])).out, 'Maintained mean PPFD')
      .slice(1)
      .map(Number);
  const [before, after] = [await kept(book), await kept(other)];
  expect(after[0]).toBeLessThan(before[0] ?? 0);
  expect(after.slice(1)).toEqual(before.slice(1));
  expect(await overbench(['new', 'trade-bench', '--set', 'Scenarios.A14=45 cm'])).toMatchObject({ status: 2, out: '' });
});

test('tidy CSV has one cell a line with its address, unit and source', async () => {
  await overbench(['csv', book, '--tidy', '-o', files.path('tidy.csv')]);
  const { records, problems } = parseCsv(files.read('tidy.csv'));
  expect(problems).toEqual([]);
  const heading = records[0] ?? [];
  const of = (record: readonly string[], column: string): string => record[heading.indexOf(column)] ?? '';
  const length = records.find((record) => of(record, 'address') === 'Brief.A1') ?? [];
  expect([of(length, 'name'), of(length, 'value'), of(length, 'unit'), of(length, 'source')]).toEqual([
    'bench_length',
    '3.6',
    'm',
    'default: to begin with, ask the client',
  ]);
  expect(records.length).toBeGreaterThan(500);
});

test('what is set is the client’s word, and what is not stands at the template’s number', async () => {
  const other = files.path('said.json');
  await overbench(['new', 'trade-bench', '--set', 'bench_width=1.2 m', '-o', other]);
  const said = new Map(parseCsv((await overbench(['csv', other, '--tidy'])).out).records.map((record) => [record[3], record]));
  const source = parseCsv((await overbench(['csv', other, '--tidy'])).out).records[0]?.indexOf('source') ?? -1;
  expect(said.get('Brief.A2')?.[source]).toBe('client');
  expect(said.get('Brief.A1')?.[source]).toMatch(/^default: to begin with/);
});

test('show prints a table with its columns under one another, and one table when asked', async () => {
  const { status, out } = await overbench(['show', book, 'scenarios']);
  expect(status).toBe(0);
  const lines = out.split('\n');
  const head = lines.find((line) => /^\s+A\s+B\s+C$/.test(line)) ?? '';
  const heights = lines.find((line) => line.startsWith('  Mount height')) ?? '';
  expect(heights).toMatch(/0\.30 +0\.40 +0\.60 {2}m$/);
  expect(heights.lastIndexOf('0.60') + 3).toBe(head.lastIndexOf('C'));
  expect(out).not.toContain('Bench length');
  expect((await overbench(['show', book])).out).toMatch(/Brief\n {2}Bench length/);
});

test('working tells a number down to its givens', async () => {
  const rows = (await overbench(['csv', book, '--tidy'])).out;
  const address = /(Scenarios\.B\d+),,"?Maintained DLI/.exec(rows)?.[1] ?? '';
  const { status, out } = await overbench(['working', book, address]);
  expect(status).toBe(0);
  for (const word of ['Maintained DLI, B', '=DLI(', 'Bench length = 3.6 m', 'named bench_length', 'default: to begin with, ask the client', '3600'])
    expect(out).toContain(word);
  // Scenario B of the template hangs Rail 90, the second of the eleven rows of Fixtures, of 243 µmol/s: it alone is listed.
  expect(out).toMatch(/^ +1\. Fixtures, row 2 of 11: Rail 90$/m);
  expect(out).toMatch(/^ +Rail 90, Output\b.* = 243 µmol\/s {2}\(Fixtures\.E3, given\)$/m);
  expect(out).not.toMatch(/Fixtures\.E(?!3\b)\d+, /);
  expect(out).toMatch(/^ +ppfd · hours · 3600 \/ 10⁶$/m);
  expect(await overbench(['working', book, 'Scenarios.Q900'])).toMatchObject({ status: 2 });
});

test('a book file cut in half is told for what it is, says what could be read, and is left alone', async () => {
  const half = files.read('b.json').slice(0, 40_000);
  writeFileSync(files.path('half.json'), half);
  const ran = await overbench(['csv', files.path('half.json'), '--wide']);
  expect(ran).toMatchObject({ status: 1, out: '' });
  expect(ran.err).toMatch(
    /^overbench: .*half\.json: The file stops in the middle.* What could be read of “Trade bench”: .*cells\b.* The page opens what can be read\.$/m,
  );
  expect(files.read('half.json')).toBe(half);
});

test('a CSV file comes in: tidy to its own cells, wide by its labels with its units, a grid over the readings; what finds no place is said and kept', async () => {
  const tidy = files.path('cells.csv');
  const again = files.path('again.json');
  expect(await overbench(['csv', book, '--tidy', '-o', tidy])).toMatchObject({ status: 0 });
  expect(await overbench(['bring', book, tidy, '-o', again])).toMatchObject({ status: 0, out: '' });
  expect((await overbench(['csv', again, '--tidy'])).out).toBe(files.read('cells.csv'));

  const answers = files.path('answers.csv');
  writeFileSync(answers, ',unit,Answer\r\nBench length,ft,12\r\nBench width,,150 cm\r\nCrop,,basil\r\nMoon,,3\r\n');
  const brought = await overbench(['bring', book, answers, '--rejected', files.path('rejected.csv'), '-o', again]);
  expect(brought.status).toBe(1);
  expect(brought.err).toContain('9 fields read: 6 placed, 3 not placed, 0 left out or worked out');
  expect(brought.err).toContain('column 3 (Answer): Crop: “basil” is not one of the choices');
  expect(brought.err).toContain('Did you mean “sweet basil, indoor” or “sweet basil, seedling”?');
  expect(parseCsv(files.read('rejected.csv')).records.map((record) => record.slice(0, 3))).toEqual([
    ['', 'unit', 'Answer'],
    ['Crop', '', 'basil'],
    ['Moon', '', '3'],
  ]);
  writeFileSync(answers, 'Name,Finish,Price\nRail 45,white,81\n');
  const other = await overbench(['bring', book, answers, '--into', 'Fixtures', '--rejected', files.path('rejected.csv'), '-o', files.path('other.json')]);
  expect(other).toMatchObject({ status: 1, err: expect.stringMatching(/^Left out: Finish\.$/m) });
  expect(parseCsv(files.read('rejected.csv')).records).toEqual([
    ['Name', 'Finish', 'Price', 'not placed because'],
    ['Rail 45', 'white', '81', 'Line 2, record 2, column 2 (Finish): No column takes it.'],
  ]);
  const csv = (await overbench(['csv', again, '--wide'])).out;
  expect(Number(row(csv, 'Area')[1])).toBeCloseTo(12 * 0.3048 * 1.5, 12);

  const meter = files.path('meter.json');
  const grid = files.path('grid.csv');
  expect(await overbench(['new', 'meter-check', '-o', meter])).toMatchObject({ status: 0 });
  writeFileSync(grid, '10;20;30,5\n40;50;60,5\n');
  expect(await overbench(['bring', meter, grid, '--into', 'Readings', '-o', meter])).toMatchObject({ status: 0 });
  const readings = (await overbench(['csv', meter, '--tidy'])).out;
  for (const [cell, content] of [
    ['A2', 'Row 1'],
    ['B2', '10'],
    ['D2', '30.5'],
    ['D3', '60.5'],
  ])
    expect(readings).toMatch(new RegExp(`Readings.${cell},.*,${content}[,\r]`));

  // Where nobody has read anything yet, a file goes where the readings are asked for, with headings or by its cells.
  const first = files.path('first.json');
  await overbench(['new', 'meter-check', '-o', first]);
  const placed = files.path('placed.csv');
  writeFileSync(placed, 'Place 1,Place 2,Place 3\n11000,13500,12250\n12100,,13900\n');
  expect(await overbench(['bring', first, placed, '--into', 'Readings', '-o', first])).toMatchObject({
    status: 0,
    err: '5 fields read: 5 placed, 0 not placed, 0 left out or worked out\n',
  });
  const one = files.path('one.csv');
  writeFileSync(one, 'table,address,value,unit\nReadings,Readings.G4,12000,\n');
  expect(await overbench(['bring', first, one, '--into', 'Readings', '-o', first])).toMatchObject({ status: 0 });
  const { out: shown } = await overbench(['show', first, 'Readings']);
  expect(shown).toMatch(/^ *Row 1 +11000 +13500 +12250 /m);
  expect(shown).toMatch(/^ *Row 2 +12100 +\[not answered yet\] +13900 /m);
  expect(shown).toMatch(/^ *Row 3 .* 12000/m);
  expect(await overbench(['bring', meter, grid, '--into', 'Readigs'])).toMatchObject({ status: 2 });
  expect(await overbench(['bring', meter, files.path('none.csv')])).toMatchObject({ status: 1, err: expect.stringContaining('there is no file') });
});

test('a list that comes in changes what the book knows and adds the rest, row by row said; brought in again it has nothing to do; what fits no table is refused', async () => {
  const bench = files.path('bench.json');
  const list = files.path('lights.csv');
  expect(await overbench(['new', 'trade-bench', '-o', bench])).toMatchObject({ status: 0 });
  writeFileSync(list, 'Fixture,Power (W),Output (µmol/s),Price\nRail 45,45,122,79\nrail 90,92,243,145\nBar 230,230,640,310\n');
  const brought = await overbench(['bring', bench, list, '--into', 'Fixtures', '-o', bench]);
  expect(brought.status).toBe(0);
  expect(brought.err.split('\n').slice(0, 3)).toEqual([
    'Rail 90 is changed: Power 90 W → 92 W; Price 139 EUR → 145 EUR (chosen: Fixture, B)',
    'Bar 230 is added: Power 230 W; Output 640 µmol/s; Price 310 EUR',
    'Fixtures: 1 row changed, 1 added, 1 as before; 4 that the file lacks stay.',
  ]);
  const cells = (await overbench(['csv', bench, '--tidy'])).out;
  expect(cells).toMatch(/Fixtures\.D3,.*,92[,\r]/u);
  expect(cells).toMatch(/Fixtures\.A8,.*Bar 230/u);
  const before = files.read('bench.json');
  const again = await overbench(['bring', bench, list, '-o', bench]);
  expect(again).toMatchObject({ status: 0, err: expect.stringContaining('Fixtures: 0 rows changed, 0 added, 3 as before; 4 that the file lacks stay.') });
  expect(files.read('bench.json')).toBe(before);

  // Before, a table of its own came of it, or nothing, and all was said to be well.
  writeFileSync(list, 'Colour,Taste\nred,sweet\n');
  expect(await overbench(['bring', bench, list, '-o', bench])).toMatchObject({ status: 1, err: expect.stringContaining('lights.csv are those of no table') });
  expect(await overbench(['bring', bench, list, '--into', 'Fixtures', '-o', bench])).toMatchObject({
    status: 1,
    err: expect.stringContaining('lights.csv: nothing in it finds a place in Fixtures'),
  });
  expect(files.read('bench.json')).toBe(before);
});

test('a book of an earlier edition says so beside what is asked of it, and in its verdict; there is nothing to take in where its template is gone', async () => {
  const older = files.path('older.json');
  const begun = JSON.parse(readFileSync('tests/templates/old/trade-bench.1.json', 'utf8')) as object;
  const template = { slug: 'a-bench-of-old', edition: 1, lacks: { checks: ['Fuse of each run'], older: ['Wire current'] } };
  writeFileSync(older, JSON.stringify({ ...begun, version: 3, id: 'older-bench', template }));
  const said =
    /older\.json: This book was begun from an earlier edition of its template\. It lacks 1 check of the present one: Fuse of each run\. 1 check works by older rules: Wire current\./;
  const shown = await overbench(['show', older, 'Scenarios']);
  expect(shown).toMatchObject({ status: 0, err: expect.stringMatching(said) });
  expect(shown.out).toMatch(/Verdict +holds, 1 check lacking, 1 by older rules/);
  const sheet = await overbench(['handover', older, '-o', files.path('older.html')]);
  expect(sheet).toMatchObject({ status: 0, err: expect.stringMatching(said) });
  expect(files.read('older.html')).toContain('Not all is checked:');
  expect(await overbench(['take-in', older])).toMatchObject({
    status: 1,
    out: '',
    err: expect.stringContaining('This book has all that its template checks.'),
  });
});
