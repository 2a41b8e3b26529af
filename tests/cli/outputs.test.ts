/** What is written, where, and what is never written over. */
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  renameSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { desk, overbench } from './run.ts';

const at = desk();
const book = at.path('a.json');
const table = at.path('c.csv');
const CLIENTS = 'client,bench_length [ft]\nOne,12\nTwo,12.4\n';
let whole = '';

beforeAll(async () => {
  expect((await overbench(['new', 'trade-bench', '-o', book])).status).toBe(0);
  whole = readFileSync(book, 'utf8');
  symlinkSync(book, at.path('link.json'));
  linkSync(book, at.path('twin.json'));
  mkdirSync(at.path('inner'));
  symlinkSync(at.path('inner'), at.path('door'));
}, 60_000);
beforeEach(() => writeFileSync(table, CLIENTS));
afterAll(() => at.clear());

describe('a file that is read', { timeout: 90_000 }, () => {
  it.each([
    ['csv over its book', ['csv', book, '-o', book]],
    ['csv over its book by a link', ['csv', book, '--wide', '-o', at.path('link.json')]],
    ['csv over its book by another way', ['csv', at.path('link.json'), '-o', at.path('inner/../a.json')]],
    ['csv over a second name of its book', ['csv', book, '-o', at.path('twin.json')]],
    ['a hand-over sheet over its book', ['handover', book, '-o', book]],
    ['a batch over its clients', ['batch', 'trade-bench', table, '-o', table]],
    ['a batch over its clients by rejecting', ['batch', 'trade-bench', table, '-o', at.path('r.csv'), '--rejected', table]],
    ['a batch over its own template', ['batch', book, table, '-o', book]],
    ['bringing in over the table that comes in', ['bring', book, table, '--new', '-o', table]],
    ['what was not placed over the book', ['bring', book, table, '--new', '--rejected', book, '-o', at.path('b.json')]],
    ['what was not placed over the table', ['bring', book, table, '--new', '--rejected', table, '-o', at.path('b.json')]],
  ])('is not written over: %s', async (_, args) => {
    const ran = await overbench(args);
    expect(ran).toMatchObject({ status: 2, out: '' });
    expect(ran.err).toMatch(/^overbench: .* would be written over, and .* is read from it; say another file\. Usage: .*\n$/);
    expect(readFileSync(book, 'utf8') === whole).toBe(true);
    expect(readFileSync(table, 'utf8')).toBe(CLIENTS);
  });

  it('is not written over by what a batch keeps beside its results while it runs, nor by a client’s book', async () => {
    for (const name of ['r.csv.part', 'r.csv.progress']) {
      writeFileSync(at.path(name), CLIENTS);
      expect(await overbench(['batch', 'trade-bench', at.path(name), '-o', at.path('r.csv')])).toMatchObject({ status: 2, out: '' });
      expect(at.read(name)).toBe(CLIENTS);
    }
    const own = at.path('inner/000001-one.json');
    writeFileSync(own, whole);
    expect(await overbench(['batch', own, table, '-o', at.path('r.csv'), '--books', at.path('door')])).toMatchObject({ status: 2 });
    expect(readFileSync(own, 'utf8') === whole).toBe(true);
  });

  it('is not written over where it comes in on standard input', async () => {
    const ran = spawnSync('sh', ['-c', 'node dist/cli/overbench.js batch trade-bench - -o "$0" < "$0"', table], { encoding: 'utf8' });
    expect(ran.stderr).toMatch(/standard input is read from it/);
    expect(readFileSync(table, 'utf8')).toBe(CLIENTS);
  });

  it('may be the book that something is brought into, and that alone', async () => {
    const mine = at.path('mine.json');
    writeFileSync(mine, whole);
    expect((await overbench(['bring', mine, table, '--new', '-o', mine])).status).toBe(0);
    expect(readFileSync(mine, 'utf8')).not.toBe(whole);
    expect(await overbench(['bring', mine, table, '--new', '--rejected', at.path('x'), '-o', at.path('x')])).toMatchObject({ status: 2 });
    expect(existsSync(at.path('x'))).toBe(false);
  });
});

describe('a file that is written', { timeout: 90_000 }, () => {
  it('stays a link where it is one, with what it leads to in the other place, and keeps who may read it', async () => {
    const real = at.path('inner/real.csv');
    writeFileSync(real, 'old');
    chmodSync(real, 0o640);
    symlinkSync('inner/real.csv', at.path('to.csv'));
    expect(await overbench(['csv', book, '-o', at.path('to.csv')])).toMatchObject({ status: 0, err: '' });
    expect(readlinkSync(at.path('to.csv'))).toBe('inner/real.csv');
    expect(at.read('inner/real.csv')).toContain('bench_length');
    expect(statSync(real).mode & 0o777).toBe(0o640);
    symlinkSync('inner/not-yet.csv', at.path('ahead.csv'));
    expect(await overbench(['csv', book, '-o', at.path('ahead.csv')])).toMatchObject({ status: 0, err: '' });
    expect(at.read('inner/not-yet.csv')).toBe(at.read('inner/real.csv'));
    expect(lstatSync(at.path('ahead.csv')).isSymbolicLink()).toBe(true);
    expect(readdirSync(at.path('inner')).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('stays a link for a batch too, and all that the batch needs meanwhile stands in the other place', async () => {
    symlinkSync('inner/results.csv', at.path('results.csv'));
    expect(await overbench(['batch', 'trade-bench', table, '--jobs', '1', '-o', at.path('results.csv')])).toMatchObject({ status: 0, err: '' });
    expect(readlinkSync(at.path('results.csv'))).toBe('inner/results.csv');
    expect(at.read('inner/results.csv')).toMatch(/^client,scenario/);
    expect(readdirSync(at.path('.')).filter((name) => /\.(?:part|progress)$/u.test(name) && !name.startsWith('r.csv'))).toEqual([]);
  });

  it('is written to where it is no plain file, and not taken away; a batch asks for a plain one', async () => {
    const command = 'mkfifo "$0"; cat "$0" > "$0.got" & node dist/cli/overbench.js csv "$1" -o "$0"; status=$?; wait; exit $status';
    const ran = spawnSync('sh', ['-c', command, at.path('pipe'), book], { encoding: 'utf8', timeout: 80_000 });
    expect(ran).toMatchObject({ status: 0, stderr: '' });
    expect(statSync(at.path('pipe')).isFIFO()).toBe(true);
    expect(at.read('pipe.got')).toBe((await overbench(['csv', book])).out);
    const refused = await overbench(['batch', 'trade-bench', table, '-o', at.path('pipe')]);
    expect(refused).toMatchObject({ status: 1, out: '' });
    expect(refused.err).toMatch(/^overbench: can't write .*pipe: it is no plain file; .*\n$/);
  });

  it('is on the disk before it gets its name, and its name is before the program ends', async () => {
    const spy = at.path('spy.mjs');
    writeFileSync(
      spy,
      `import fs from 'node:fs';
       import { syncBuiltinESMExports } from 'node:module';
       const names = new Map();
       for (const call of ['openSync', 'fsyncSync', 'renameSync']) {
         const real = fs[call];
         fs[call] = (...args) => {
           const given = real(...args);
           if (call === 'openSync') names.set(given, args[0]);
           else process.stderr.write(call + ' ' + (call === 'fsyncSync' ? names.get(args[0]) : args[1]) + '\\n');
           return given;
         };
       }
       syncBuiltinESMExports();`,
    );
    const out = at.path('inner/synced.csv');
    const { stderr } = spawnSync(process.execPath, ['--import', pathToFileURL(resolve(spy)).href, 'dist/cli/overbench.js', 'csv', book, '-o', out], {
      encoding: 'utf8',
    });
    expect(stderr.trim().split('\n')).toEqual([
      expect.stringMatching(/^fsyncSync .*synced\.csv\.\d+\.part$/),
      `renameSync ${out}`,
      `fsyncSync ${at.path('inner')}`,
    ]);
  });
});

it('a book that was given another name meanwhile is still itself', async () => {
  renameSync(at.path('twin.json'), at.path('moved.json'));
  expect(await overbench(['csv', at.path('moved.json'), '-o', book])).toMatchObject({ status: 2 });
});
