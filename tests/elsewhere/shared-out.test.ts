/** A batch that others share out, in the words of README.md: what is joined is what one run writes, to the byte, also where a worker is killed. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, resolve } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { findEngines } from '../../src/setup/engines.mjs';
import { clients } from '../cli/clients.ts';
import { alone, desk } from '../cli/run.ts';
import { block } from './readme.ts';

const COUNT = 2000;
/** In README.md's words a piece has 200 clients. */
const PIECES = COUNT / 200;
const { python } = findEngines();
const files = desk();
const log = files.path('calls.log');
const env = { ...process.env, PATH: `${files.path('bin')}${delimiter}${process.env.PATH ?? ''}`, PYTHONUNBUFFERED: '1' };
const rejectedOf = (text: string): string[] => text.match(/^.*line \d+: .*$/gm)?.map((line) => line.replace(/line \d+: /, '')) ?? [];

beforeAll(() => {
  mkdirSync(files.path('bin'));
  // Notes each call with who called, from its beginning to its end.
  writeFileSync(
    files.path('bin/overbench'),
    `#!/bin/sh\necho "begun $PPID" >> '${log}'\n'${process.execPath}' '${resolve('dist/cli/overbench.js')}' "$@"\nstatus=$?\necho "ended $PPID" >> '${log}'\nexit $status\n`,
  );
  chmodSync(files.path('bin/overbench'), 0o755);
  // Every 97th has a bench longer than is allowed, and is rejected.
  let at = 0;
  writeFileSync(
    files.path('clients.csv'),
    clients(COUNT).replaceAll(/^(Client \d+),[^,]+/gm, (whole, name: string) => (++at % 97 === 0 ? `${name},900` : whole)),
  );
  const whole = alone(['batch', 'trade-bench', files.path('clients.csv'), '--wide', '-o', files.path('whole.csv'), '--rejected', files.path('whole-bad.csv')]);
  expect([whole.status, whole.err]).toEqual([1, expect.stringMatching(/^20 clients rejected/)]);
  expect(files.read('whole.csv').match(/\r\n/g)).toHaveLength(1 + 3 * (COUNT - 20));
});
afterAll(() => files.clear());

test('pieces that GNU parallel hands out give the results, and the rejected, of one run', () => {
  writeFileSync(log, '');
  const { status, stderr } = spawnSync('bash', ['-c', block('sh', 'parallel')], { cwd: files.path('.'), env, encoding: 'utf8' });
  // Of parallel, the number of pieces that had rejected clients.
  const bad = readdirSync(files.path('.')).filter((name) => /^rejected-\d+\.csv$/.test(name));
  const rejected = bad.sort((a, b) => Number(a.match(/\d+/)) - Number(b.match(/\d+/))).flatMap((name) => rejectedOf(files.read(name)));
  expect(readFileSync(log, 'utf8').match(/^begun/gm)).toHaveLength(1 + PIECES);
  expect({ status, stderr }).toEqual({ status: PIECES, stderr: expect.any(String) });
  expect(files.read('results.csv') === files.read('whole.csv')).toBe(true);
  expect(rejected).toEqual(rejectedOf(files.read('whole-bad.csv')));
  expect(rejected).toHaveLength(20);
});

describe('with Dask', () => {
  const running: ChildProcess[] = [];
  afterEach(async () => {
    for (const child of running.splice(0)) {
      if (child.exitCode !== null || child.signalCode !== null) continue;
      child.kill('SIGKILL');
      await once(child, 'exit');
    }
  });

  function begin(...args: string[]): ChildProcess {
    const child = spawn(python, args, { cwd: files.path('.'), env: { ...env, ...address() }, stdio: ['ignore', 'ignore', 'pipe'] });
    running.push(child);
    return child;
  }

  const scheduler = files.path('scheduler.json');
  const address = (): Record<string, string> =>
    existsSync(scheduler) ? { DASK_SCHEDULER_ADDRESS: (JSON.parse(readFileSync(scheduler, 'utf8')) as { address: string }).address } : {};

  async function until(what: string, holds: () => boolean): Promise<void> {
    for (const end = Date.now() + 120_000; !holds(); await new Promise((go) => setTimeout(go, 20))) {
      if (Date.now() > end) throw new Error(`it never came to this: ${what}`);
    }
  }

  const calls = (word: 'begun' | 'ended', by: ChildProcess): number => readFileSync(log, 'utf8').match(new RegExp(`^${word} ${by.pid}$`, 'gm'))?.length ?? 0;

  test('a worker that is killed in the middle loses nothing: the other does again what it had done', async () => {
    writeFileSync(log, '');
    writeFileSync(files.path('shared.py'), block('python', 'dask.distributed'));
    begin('-m', 'distributed.cli.dask_scheduler', '--host', '127.0.0.1', '--port', '0', '--no-dashboard', '--scheduler-file', scheduler);
    await until('the scheduler has an address', () => existsSync(scheduler) && readFileSync(scheduler, 'utf8').trimEnd().endsWith('}'));
    const worker = (): ChildProcess =>
      begin('-m', 'distributed.cli.dask_worker', '--host', '127.0.0.1', '--nthreads', '1', '--no-nanny', '--no-dashboard', '--scheduler-file', scheduler);
    const [first, second] = [worker(), worker()];
    const joining = begin('shared.py');
    let said = '';
    joining.stderr?.on('data', (text) => {
      said += text;
    });
    const joined = once(joining, 'exit');

    await until(
      'both workers have ended a piece, and the first is in another',
      () => calls('ended', second) > 0 && calls('ended', first) > 0 && calls('begun', first) > calls('ended', first),
    );
    first.kill('SIGKILL');
    await once(first, 'exit');
    expect(PIECES - calls('begun', first) - calls('begun', second)).toBeGreaterThan(0);

    expect([await joined, said]).toEqual([[0, null], expect.not.stringContaining('Traceback')]);
    expect(files.read('results.csv') === files.read('whole.csv')).toBe(true);
    expect(rejectedOf(said)).toHaveLength(20);
    // Every piece, and once more those that the killed one had.
    expect(calls('begun', second)).toBe(PIECES);
  });
});
