import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { readStrictly } from '../files/rfc4180.ts';
import { type Desk, desk, overbench } from './run.ts';

let at: Desk;
beforeEach(() => {
  at = desk();
});
afterEach(() => at.clear());

function table(text: string): Record<string, string>[] {
  const [head = [], ...records] = readStrictly(text);
  return records.map((record) => Object.fromEntries(head.map((heading, i) => [heading, record[i] ?? ''])));
}

/** Shelves, of which the third is so low that no light hangs over it well. */
const CLIENTS = ['client,bench_length [cm],bench_width,highest_mount [m]', 'Early,60,0.25 m,0.5', 'Late,80,30 cm,0.4', 'Low,190,80 cm,0.2', 'Odd,60,0.25 m,'];

it('writes the proposals for each client, the same for any number of threads and in pieces, with a book in which all holds', async () => {
  const file = at.path('clients.csv');
  writeFileSync(file, `${CLIENTS.join('\n')}\n`);
  mkdirSync(at.path('books'));
  const run = await overbench(['propose', 'single-shelf', file, '--jobs', '1', '--books', at.path('books')]);
  expect(run.status).toBe(0);
  expect(run.err).toMatch(/^[\d,]+ arrangements: [\d,]+ can be built, of which [\d,]+ were worked out and [\d,]+ passed over unworked\n$/);
  const told = table(run.out);
  expect(told.map(({ client, proposal }) => [client, proposal])).toEqual([
    ['Early', 'cheapest'],
    ['Early', 'most even'],
    ['Late', 'cheapest'],
    ['Late', 'most even'],
    ['Low', 'none'],
    ['Odd', 'cheapest'],
    ['Odd', 'most even'],
  ]);
  for (const { proposal, verdict, why, fixture, evenness } of told) {
    expect(why).not.toBe('');
    if (proposal === 'none') expect([verdict, fixture, why]).toEqual(['', '', expect.stringMatching(/^Nothing holds\./)]);
    else expect([verdict, Number(evenness) > 0.3]).toEqual([expect.stringMatching(/^(holds|close to limit|assumed)/), true]);
  }

  // The book of a client has the proposals as its scenarios, and works out to what the line says.
  const [book = ''] = readdirSync(at.path('books')).sort();
  expect(book).toBe('000001-early.json');
  const cells = table((await overbench(['csv', at.path(`books/${book}`)])).out).filter((cell) => cell.table === 'Scenarios');
  const shown = (scenario: string, row: string): string | undefined => cells.find((cell) => cell.scenario === scenario && cell.row === row)?.value;
  expect([shown('A', 'Fixture'), shown('B', 'Fixture')]).toEqual(told.slice(0, 2).map(({ fixture }) => fixture));
  expect(shown('A', 'Verdict')).toBe(told[0]?.verdict);
  for (const { kind, value } of cells) if (kind === 'check') expect(value).toMatch(/^(holds|assumed|close to limit)/);

  const out = at.path('plans.csv');
  expect((await overbench(['propose', 'single-shelf', file, '--jobs', '2', '-o', out])).status).toBe(0);
  expect(readFileSync(out, 'utf8')).toBe(run.out);
  expect((await overbench(['propose', 'single-shelf', file, '-o', out, '--resume'])).err).toMatch(/is finished: nothing is left to do/);
  const [head = '', ...lines] = CLIENTS;
  const second = await overbench(['propose', 'single-shelf', '-', '--jobs', '1', '--no-head'], `${[head, ...lines.slice(2)].join('\n')}\n`);
  expect(run.out.endsWith(second.out)).toBe(true);
}, 120_000);

it('rejects a client of whom something is not known that every plan hangs on', async () => {
  const run = await overbench(['propose', 'single-shelf', '-', '--jobs', '1'], 'client,crop\nNobody,moon cheese\n');
  expect(run.status).toBe(1);
  expect(run.err).toMatch(/line 2: crop: .*moon cheese/);
  // A crop that is known, at a stage that it does not have: no arrangement mends that, and none is blamed for it.
  const stage = await overbench(['propose', 'trade-bench', '-', '--jobs', '1'], 'client,crop\nNobody,tomato\n');
  expect(stage.status).toBe(1);
  expect(stage.err).toMatch(/line 2: Nothing is proposed while .* can not be worked out: .*stage “indoor” of “tomato”/);
}, 60_000);
