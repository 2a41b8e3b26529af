/** A crop that is set from outside takes a stage that it has, or says which it has: never a target that nobody meant. */
import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import type { Book } from '../../src/book/book.ts';
import { readStrictly } from '../files/rfc4180.ts';
import { desk, overbench } from './run.ts';

/** What the row is called that has the least PPFD wanted. */
const LOW = (JSON.parse(readFileSync(new URL('../../templates/trade-bench.json', import.meta.url), 'utf8')) as Book).tables
  .flatMap(({ rows }) => rows)
  .find(({ id }) => id === 'ppfd_low')?.label;

const files = desk();
afterAll(() => files.clear());

function records(text: string): Record<string, string>[] {
  const [head = [], ...rows] = readStrictly(text);
  return rows.map((row) => Object.fromEntries(head.map((heading, i) => [heading, row[i] ?? ''])));
}

const begun = async (...sets: readonly string[]) => {
  const made = await overbench(['new', 'trade-bench', ...sets.flatMap((set) => ['--set', set]), '-o', files.path('one.json')]);
  const cells = made.status === 0 ? records((await overbench(['csv', files.path('one.json')])).out) : [];
  const value = (name: string) => cells.find((cell) => cell.name?.split(' ').includes(name))?.value;
  return { ...made, value };
};

test('a crop and its stage are set by name in either order, or as one line, and nothing is said', async () => {
  for (const sets of [['crop=tomato', 'stage=fruiting'], ['stage=fruiting', 'crop=tomato'], ['crop=tomato, fruiting']]) {
    const { err, status, value } = await begun(...sets);
    expect([status, err], sets.join(' ')).toEqual([0, '']);
    expect([value('crop'), value('stage')]).toEqual(['tomato', 'fruiting']);
    // As Crops says of fruiting tomatoes.
    expect([value('target_low'), value('target_high')]).toEqual(['20', '30']);
  }
});

test('a crop alone takes its only stage, and one with several says them', async () => {
  const only = await begun('crop=tecoma');
  expect([only.status, only.err, only.value('stage')]).toEqual([0, '', 'seed propagation']);
  const several = await begun('crop=tomato');
  expect(several.status).toBe(0);
  expect(several.err.trim()).toBe('Stage of the crop: “indoor” does not go with tomato. Pick plug seedlings indoor or fruiting.');
  const none = await begun('crop=tomato seedlings');
  expect(none.status).toBe(2);
  expect(none.err).toContain('Did you mean “tomato, plug seedlings indoor”?');
});

test('each client of a batch gets the stage that goes with its own crop, whoever came before', async () => {
  const rows = ['Ada,tecoma', 'Ben,', 'Cid,tomato', 'Dot,"rose, cut flowers"', 'Eve,lettuce', 'Fay,tecoma'];
  writeFileSync(files.path('clients.csv'), `${['client,crop', ...rows].join('\n')}\n`);
  const outs: string[] = [];
  for (const jobs of ['1', '2']) {
    const run = await overbench([
      'batch',
      'trade-bench',
      files.path('clients.csv'),
      '--jobs',
      jobs,
      '--rejected',
      files.path('no.csv'),
      '-o',
      files.path('out.csv'),
    ]);
    expect(run.status).toBe(1);
    outs.push(readFileSync(files.path('out.csv'), 'utf8'));
    const no = readFileSync(files.path('no.csv'), 'utf8');
    expect(records(no)).toHaveLength(1);
    expect(no).toMatch(/Cid,tomato,.*no stage “indoor” of “tomato”.*“plug seedlings indoor”, “fruiting”/);
  }
  expect(outs[1]).toBe(outs[0]);
  const low = (client: string) => records(outs[0] ?? '').find((one) => one.client === client && one.scenario === 'A' && one.result === LOW)?.value;
  // As Crops says of each: tecoma 14 to 16, sweet basil from 12.9, roses from 11.5, lettuce 12.4 and a tenth either way.
  const wanted = { Ada: 14, Ben: 12.9, Dot: 11.5, Eve: 12.4 * 0.9, Fay: 14 };
  // For 16 h a day, as the template has it.
  for (const [client, dli] of Object.entries(wanted)) expect(Number(low(client)), client).toBeCloseTo(dli / (16 * 0.0036), 3);
});

test('a stage that a client says is not put right in silence', async () => {
  const run = await overbench(['batch', 'trade-bench', '-', '--rejected', files.path('no.csv')], 'crop,stage\ntecoma,indoor\n');
  expect(run.status).toBe(1);
  expect(readFileSync(files.path('no.csv'), 'utf8')).toContain('no stage “indoor” of “tecoma”');
});

test('a client who says crop and stage gets both, whatever the template has and whichever comes first', async () => {
  for (const rows of ['crop,stage\nsweet pepper,fruiting\nlettuce,indoor\n', 'stage,crop\nfruiting,sweet pepper\n']) {
    const run = await overbench(['batch', 'trade-bench', '-'], rows);
    expect([run.status, run.err], rows).toEqual([0, '']);
  }
});

test('a crop that comes in as CSV takes its only stage, and one with several says them', async () => {
  await overbench(['new', 'trade-bench', '-o', files.path('b.json')]);
  const bring = async (crop: string) => {
    writeFileSync(files.path('in.csv'), `row,value\nCrop,${crop}\n`);
    return overbench(['bring', files.path('b.json'), files.path('in.csv'), '--into', 'Brief', '-o', files.path('c.json')]);
  };
  expect((await bring('tecoma')).status).toBe(0);
  const cells = records((await overbench(['csv', files.path('c.json')])).out);
  expect(cells.find(({ name }) => name === 'stage')?.value).toBe('seed propagation');
  expect((await bring('tomato')).err).toContain('Stage of the crop: “indoor” does not go with tomato. Pick plug seedlings indoor or fruiting.');
});
