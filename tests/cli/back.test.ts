/** `overbench back`: what is told, in words, and that the book is only read. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { desk, overbench } from './run.ts';

const files = desk();
const book = files.path('b.json');
let before = '';
beforeAll(async () => {
  expect(await overbench(['new', 'trade-bench', '-o', book])).toMatchObject({ status: 0, err: '' });
  before = readFileSync(book, 'utf8');
});
afterAll(() => {
  expect(readFileSync(book, 'utf8')).toBe(before);
  files.clear();
});

const back = (...args: readonly string[]) => overbench(['back', book, ...args]);

test('the tariff for a running cost is told to the last digit and as short as its cell shows it, and what it gives is told for both', async () => {
  // Running cost is energy times tariff.
  const energy = Number(/ = ([\d.]+) kWh\/year/.exec((await overbench(['working', book, 'Scenarios.A49'])).out)?.[1]);
  const { status, out, err } = await back('Scenarios.A50=300 EUR/year', '--by', 'tariff');
  expect(err).toBe('');
  expect(status).toBe(0);
  const [, exact] = /^ {2}([\d.]+) EUR\/kWh gives 300 EUR\/year$/m.exec(out) ?? [];
  expect(Math.abs(Number(exact) - 300 / energy) / (300 / energy)).toBeLessThan(1e-9);
  expect(out).toMatch(/^Running cost, A \(Scenarios\.A50\) = [\d.]+ EUR\/year; it should be 300 EUR\/year$/m);
  expect(out).toMatch(/^by Electricity price \(Prices\.A1\) = 0\.25 EUR\/kWh, looked for from 0 EUR\/kWh to 10 EUR\/kWh:$/m);
  expect(out).toContain(`as short as it is shown, ${(300 / energy).toFixed(3)} EUR/kWh gives `);
  expect(out).toMatch(/^ {4}\d+ other cells change$/m);
  // Prices by the hour come in beside it, so that nothing alone makes it stay.
  expect(out).toMatch(/^ {2}it can’t be made to stay so\. No formula for it is known: it comes into Scenarios\.A117 more than once\.$/m);
});

test('days in use that make an energy stay so are told as a formula, which gives it', async () => {
  const { status, out } = await back('Scenarios.A49=5000 kWh/year', '--by', 'days_a_year');
  expect(status).toBe(0);
  const [, exact] = /^ {2}([\d.]+) d\/year gives 5000 kWh\/year$/m.exec(out) ?? [];
  const stays = /^ {2}=5000 kWh\/year\/ENERGY\.USE\(.*,1 d\/year\)\*1 d\/year as its formula makes it stay so: ([\d.]+) d\/year gives 5000 kWh\/year$/m;
  expect(Number(stays.exec(out)?.[1])).toBeCloseTo(Number(exact), 6);
});

test('several givens are tried one after the other, whole numbers by their neighbours, and checks that turn are named', async () => {
  const { status, out } = await back('Scenarios.A14=220', '--by', 'Scenarios.A7', '--by', 'Scenarios.A2', '--by', 'Scenarios.A1');
  expect(status).toBe(0);
  expect(out).toMatch(/^by Mount height, A .*:\n(?: {2}.*\n)+by Along the bench, A .*:\n(?: {2}.*\n)+by Fixture, A .*:\n/m);
  expect(out).toMatch(/^ {2}it goes by steps: 2 gives [\d.]+ µmol\/m²\/s; 3 gives [\d.]+ µmol\/m²\/s$/m);
  expect(out).toMatch(/^ {2}nearest: \S.* gives [\d.]+ µmol\/m²\/s; \S.* gives [\d.]+ µmol\/m²\/s$/m);
  expect(out).toMatch(/^ {4}Height, A \(Scenarios\.A61\) turns: holds → fails/m);
});

test('what can not be reached is told with what can, and the exit status is 1', async () => {
  const { status, out } = await back('Scenarios.A14=2200', '--by', 'Scenarios.A7', '--from', '20 cm', '--to', '1 m');
  expect(out).toMatch(
    /looked for from 0\.2 m to 1 m:\n {2}nothing there makes it so\n {2}lowest: 1 m gives [\d.]+ µmol\/m²\/s; highest: 0\.\d+ m gives [\d.]+ µmol\/m²\/s\n/,
  );
  expect(status).toBe(1);
});

test('another cell may be what is wanted: the days in use at which two scenarios cost the same', async () => {
  const { status, out } = await back('Scenarios.B53=Scenarios.A53', '--by', 'interest');
  // The two burn the same: whatever money costs, the one with fewer lights to buy stays the cheaper.
  expect(out).toMatch(/the two are never equal: .* gives [\d.]+ EUR\/year, the other [\d.]+ EUR\/year/);
  expect(status).toBe(1);
});

test.each([
  ['no book', ['back'], /a book is missing/],
  ['nothing wanted', ['back', book], /what should be is missing/],
  ['no value', ['back', book, 'Scenarios.A14', '--by', 'tariff'], /Scenarios\.A14 is not CELL=VALUE/],
  ['no given', ['back', book, 'Scenarios.A50=300'], /say which given may move, with --by\. It follows from .*\btariff, .* and \d+ more/],
  ['a cell that is not there', ['back', book, 'Scenarios.Z50=300', '--by', 'tariff'], /no cell Scenarios\.Z50/],
  ['a given that is not there', ['back', book, 'Scenarios.A50=300', '--by', 'tarif'], /no cell tarif/],
] as const)('%s is a wrong call, said in one line', async (_, args, message) => {
  const { status, out, err } = await overbench(args);
  expect(err).toMatch(message);
  expect(err.trimEnd().split('\n')).toHaveLength(1);
  expect(out).toBe('');
  expect(status).toBe(2);
});

test('what stands in the way is said in words, and the exit status is 1', async () => {
  const { status, out } = await back('Scenarios.A50=7 kg', '--by', 'tariff');
  expect(out).toMatch(/by Electricity price \(Prices\.A1\):\n {2}.*7 kg is a mass/);
  expect(status).toBe(1);
});
