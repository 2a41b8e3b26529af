/** What goes wrong outside the program is said in one line, and never with the insides of the program. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { FileSink } from '../../src/cli/batch/sink.ts';
import { desk, overbench } from './run.ts';

const at = desk();
const book = at.path('a.json');
const table = at.path('c.csv');
const rows = Array.from({ length: 22 }, (_, i) => `Client ${i},${(12 + (i % 7) / 10).toFixed(1)}`);
beforeAll(async () => {
  expect((await overbench(['new', 'trade-bench', '-o', book])).status).toBe(0);
  writeFileSync(table, `client,bench_length [ft]\n${rows.join('\n')}\n`);
}, 60_000);
afterAll(() => at.clear());

const oneLine = (err: string): void => {
  expect(err).toMatch(/^overbench: [^\n]+\n$/);
  expect(err).not.toMatch(/\.js:\d|node:internal|\bat .*\(/);
};

/** As a shell would run it, with `$0` the program and the rest as $1, $2 … */
const shell = (command: string, ...args: string[]) =>
  spawnSync('sh', ['-c', command.replaceAll('overbench', 'node dist/cli/overbench.js'), 'sh', ...args], { encoding: 'utf8', timeout: 60_000 });

describe('where there is no room', { timeout: 90_000 }, () => {
  it.each([
    ['csv', 'overbench csv "$1" > /dev/full'],
    ['show', 'overbench show "$1" > /dev/full'],
    ['a sheet', 'overbench handover "$1" > /dev/full'],
    ['help', 'overbench --help > /dev/full'],
    ['a formula', "overbench eval '=1+1' > /dev/full"],
    ['formulas, one a line', "printf '=1\\n=2\\n=3\\n' | overbench eval --lines > /dev/full"],
    ['a batch', 'overbench batch trade-bench "$2" --jobs 1 > /dev/full'],
  ])('on standard output for %s, that is said', async (_, command) => {
    const ran = shell(command, book, table);
    oneLine(ran.stderr);
    expect(ran.stderr).toMatch(/can't write to standard output: .*no space/);
    expect(ran.status).toBe(1);
  });

  it('on the disk for a batch, that is said, nothing passes for whole, and once there is room it goes on to the same results', async () => {
    const out = at.path('r.csv');
    // A file may have so many blocks of 512 bytes and no more.
    const ran = shell('ulimit -f 8; overbench batch trade-bench "$1" --wide --jobs 1 -o "$2"', table, out);
    oneLine(ran.stderr);
    expect(ran.stderr).toMatch(/can't write .*r\.csv: .*; once there is room, the same command with --resume goes on/);
    expect(ran.status).toBe(1);
    expect(existsSync(out)).toBe(false);
    expect(await overbench(['batch', 'trade-bench', table, '--wide', '--jobs', '1', '-o', out, '--resume'])).toMatchObject({ status: 0, err: '' });
    expect(readFileSync(out, 'utf8')).toBe((await overbench(['batch', 'trade-bench', table, '--wide', '--jobs', '1'])).out);
  }, 180_000);

  it('on the disk for a book, that is said, and no part of it is left', async () => {
    const ran = shell('ulimit -f 8; overbench new trade-bench -o "$1"', at.path('new.json'));
    oneLine(ran.stderr);
    expect(ran.stderr).toMatch(/can't write .*new\.json: /);
    expect(spawnSync('ls', [at.path('.')], { encoding: 'utf8' }).stdout).not.toMatch(/new\.json/);
  });
});

describe('a journal that was garbled', () => {
  const out = at.path('s.csv');
  const resume = () => overbench(['batch', 'trade-bench', table, '--jobs', '1', '-o', out, '--resume']);
  const journal = (text: string | Buffer): void => {
    writeFileSync(`${out}.progress`, text);
    writeFileSync(`${out}.part`, 'row\r\n');
  };

  it.each([
    ['is no JSON', '{"run": \n'],
    ['is JSON of something else', 'null\n'],
    ['has another thing where its run stands', '{"run":7}\n'],
    ['is bytes at random', Buffer.from([0xff, 0, 0x80, 0x0a, 0x7b, 0x0a])],
  ])('from its beginning is said to be: it %s', async (_, text) => {
    journal(text);
    const ran = await resume();
    oneLine(ran.err);
    expect(ran.err).toMatch(/s\.csv\.progress is damaged; leave --resume out to begin anew/);
    expect(ran.status).toBe(1);
    expect(existsSync(out)).toBe(false);
  });

  it('further on is gone on with from its last sound line, with what both files held then', async () => {
    const good = { clients: 20, rejected: 1, digest: 'abc', results: 5, rejectedLength: 3 };
    const sound = `{"run":"this"}\n${JSON.stringify({ ...good, clients: 10, results: 2 })}\n${JSON.stringify(good)}\n`;
    const bad = [{ clients: 1e99 }, { rejected: -1 }, { digest: 7 }, { results: 'y' }, { rejectedLength: null }].map((part) =>
      JSON.stringify({ ...good, ...part }),
    );
    for (const line of ['null', '{"clients":30,', '\0\0\0', '[]', ...bad]) {
      journal(`${sound}${line}\n${JSON.stringify({ ...good, clients: 40, results: 9 })}\n`);
      writeFileSync(`${out}.part`, 'onetwo,three');
      const rejected = at.path('rejected.csv');
      writeFileSync(`${rejected}.part`, 'noyes');
      const sink = new FileSink(out, rejected, 'this', true);
      expect(sink.from, line).toMatchObject({ clients: 20, rejected: 1, digest: 'abc' });
      expect(readFileSync(`${out}.progress`, 'utf8'), line).toBe(sound);
      await sink.write('!', '?', { clients: 30, rejected: 2, digest: 'def' });
      sink.finish();
      expect([readFileSync(out, 'utf8'), readFileSync(rejected, 'utf8')], line).toEqual(['onetw!', 'noy?']);
      rmSync(out);
    }
  });
});

test('a verb asked for help says how it is called and what each of its options does', async () => {
  const verbs = [...(await overbench(['--help'])).out.matchAll(/^ {2}overbench (\S+)/gmu)].map(([, verb]) => verb ?? '');
  expect(verbs).toEqual([
    'templates',
    'functions',
    'new',
    'show',
    'csv',
    'bring',
    'take-in',
    'working',
    'back',
    'handover',
    'batch',
    'propose',
    'eval',
    'read',
  ]);
  for (const verb of verbs) {
    const ran = await overbench([verb, '--help']);
    expect(ran, verb).toMatchObject({ status: 0, err: '' });
    const [call = '', , about = ''] = ran.out.split('\n');
    expect(call, verb).toMatch(new RegExp(`^overbench ${verb}\\b`, 'u'));
    expect(about.length, verb).toBeGreaterThan(30);
    // Every option that the call shows has a line of its own.
    for (const [option] of call.matchAll(/--[a-z][a-z-]*/gu)) expect(ran.out, verb).toMatch(new RegExp(`^ {2}.*${option}\\b.* {2,}\\S`, 'mu'));
  }
  expect((await overbench(['csv', book, '-h', '--wide'])).out).toBe((await overbench(['csv', '--help'])).out);
  expect((await overbench(['new', 'none', '--set', 'x', '--help'])).status).toBe(0);
});
