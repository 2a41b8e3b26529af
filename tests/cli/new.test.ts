import { afterAll, expect, test } from 'vitest';
import { desk, overbench } from './run.ts';

const files = desk();
afterAll(() => files.clear());

const USUAL = ['--measures', 'us customary', '--currency', 'usd', '--mains', '120 V', '--breakers', '15, 20 and 30 A', '--wires', 'awg', '--paper', 'Letter'];

test('a client’s book says whose it is, what is usual there and the day that is given, and nothing of the example', async () => {
  const book = files.path('book.json');
  const said = [
    '--client',
    'Two sisters',
    '--title',
    'Their bench',
    ...USUAL,
    '--set',
    'plan_date=2027-01-08',
    '--set',
    'bench_length=14 ft',
    '--set',
    'breaker=15 A',
  ];
  expect(await overbench(['new', 'trade-bench', ...said, '-o', book])).toEqual({ status: 0, out: '', err: '' });
  const text = files.read('book.json');
  expect(JSON.parse(text)).toMatchObject({ client: 'Two sisters', title: 'Their bench', currency: 'USD', measures: 'US customary' });
  expect(text.match(/garden club|tunnel|2026-|\bEUR\b|in the example/gi) ?? []).toEqual([]);
  const sheet = (await overbench(['handover', book])).out;
  expect(sheet).toContain('size: letter;');
  expect(sheet).toContain('2027-01-08');
  expect(sheet).toMatch(/questions are still to be asked/);
  expect((await overbench(['handover', book, '--paper', 'A4'])).out).toContain('size: A4;');
  const wide = (await overbench(['csv', book, '--wide'])).out;
  expect(wide).toMatch(/^Mains voltage,V,120/m);
  expect(wide).toMatch(/^"?Breaker, until it is known"?,15 A/m);
  // Of a breaker of 15 A no maker here says how many it takes when they are switched on: of four on 16 A there are three, until the maker is asked.
  expect(wide).toMatch(/^Circuits free,.*; limit assumed: 2 of 15 A, 3 on each; ask the maker/m);
});

test('power to spare that is given is what the plan is held against, and more than it fails', async () => {
  const check = async (kw: string, ...more: string[]): Promise<string> => {
    const book = files.path(`${kw}.json`);
    await overbench(['new', 'trade-bench', '--set', `spare_power=${kw} kW`, ...more, '-o', book]);
    return /^Circuits free,(.*)$/m.exec((await overbench(['csv', book, '--wide'])).out)?.[1] ?? '';
  };
  // A draws 18 × 45 W behind supplies of an efficiency below 1: more than 0.8 kW, less than 3 kW.
  expect(await check('0.5')).toMatch(/fails, \d.* over/);
  const known = await check('3', '--set', 'breaker=16 A');
  expect(known).toMatch(/holds, \d+ % under/);
  expect(known).not.toContain('assumed');
  expect(await check('3'), 'nobody has named the breaker').toMatch(/assumed, \d+ % under; limit assumed: a breaker of 16 A/);
});

test.each([
  ['measures', 'imperial', /--measures is metric or "US customary", not imperial/],
  ['currency', 'dollars', /“DOLLARS” is not a currency/],
  ['mains', 'high', /--mains high is no number of volts/],
  ['mains', '12', /12 V is below what is allowed/],
  ['breakers', 'fifteen', /--breakers fifteen is no list of sizes/],
  ['wires', 'inches', /--wires is mm² or AWG, not inches/],
  ['paper', 'A5', /--paper is A4 or letter, not A5/],
] as const)('a --%s that there is not, %s, is answered with what there is', async (option, value, message) => {
  const ran = await overbench(['new', 'trade-bench', `--${option}`, value]);
  expect(ran).toMatchObject({ status: 2, out: '', err: expect.stringMatching(message) });
});
