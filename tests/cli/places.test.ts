import { writeFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import { desk, overbench } from './run.ts';

const files = desk();
afterAll(() => files.clear());

const BOOK = 'tests/book/old/version-4.json';

test.each([
  ["'Light map'.B2", ["'Light map'!B2", "['Light map'.B2]", "'light map'.$B$2", "[$'Light map'.$B$2]"]],
  ["'2024'.A1", ['2024!A1', "'2024'!A1", '[2024.A1]']],
  ["'Grower''s list'.A1", ["'Grower''s list'!A1", "['Grower''s list'.A1]"]],
  ['Scenarios.B3', ['Scenarios!B3', '[Scenarios.B3]', 'scenarios.b3', '$Scenarios.$B$3']],
])('%s is the same cell in whichever writing it is asked for', async (own, others) => {
  const told = await overbench(['working', BOOK, own]);
  expect(told).toMatchObject({ status: 0, err: '' });
  expect(told.out).toContain(`(${own}, `);
  for (const other of others) expect(await overbench(['working', BOOK, other]), other).toEqual(told);
});

test('a cell that is not there is said in one line that shows how one is written', async () => {
  const { status, err } = await overbench(['working', BOOK, 'Nowhere.A1']);
  expect(status).toBe(2);
  expect(err).toMatch(/has no cell Nowhere\.A1; a cell is said as Table\.B7, or by its name/);
});

test('a book of version 3 says, on standard error, which of its names are others now; its twin says nothing', async () => {
  const old = await overbench(['csv', 'tests/book/places-3.json']);
  expect(old.status).toBe(0);
  expect(old.err.split('\n').filter((line) => / now: it reads as cell /.test(line))).toHaveLength(4);
  expect(old.err).toContain('places-3.json: The name rail.v24 is rail_v24_2 now: it reads as cell V24 of a table called rail.');
  expect(await overbench(['csv', BOOK])).toEqual({ ...old, err: '' });
});

test('a heading of a clients file says a given in both writings, with its unit in brackets; an address in brackets is none', async () => {
  const run = async (heading: string) => {
    writeFileSync(files.path('clients.csv'), `client,${heading}\nNorth house,45\n`);
    return overbench(['batch', 'trade-bench', files.path('clients.csv')]);
  };
  const own = await run('Scenarios.A7 [cm]');
  expect(own).toMatchObject({ status: 0, err: '' });
  for (const other of ['Scenarios!A7 [cm]', 'Scenarios!$A$7 (cm)']) expect(await run(other), other).toEqual(own);
  for (const none of ['[Scenarios.A7]', '[Scenarios.A7] [cm]']) expect(await run(none), none).toMatchObject({ status: 2, out: '' });
});

test('--set takes both writings, and a formula in any', async () => {
  const made = async (...sets: string[]) => {
    const { status, err, out } = await overbench(['new', 'trade-bench', ...sets.flatMap((set) => ['--set', set])]);
    expect([status, err], sets.join(' ')).toEqual([0, '']);
    return (JSON.parse(out) as { readonly tables: unknown }).tables;
  };
  const own = await made('Scenarios.A7=0.45 m', 'Scenarios.B7==Brief.A8+10 cm');
  expect(JSON.stringify(own)).toContain('=Brief.A8+UNIT(10,\\"cm\\")');
  for (const [height, formula] of [
    ['Scenarios!A7', 'Brief!A8'],
    ['[Scenarios.A7]', '[$Brief.A8]'],
  ])
    expect(await made(`${height}=0.45 m`, `Scenarios.B7==${formula}+10 cm`), height).toEqual(own);
});
