import { type ChildProcess, fork, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built program as a shell would, in a process of its own. */
export function alone(args: readonly string[], input = ''): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['dist/cli/overbench.js', ...args], { input, encoding: 'utf8', maxBuffer: 1 << 28 });
  return { status, out: stdout, err: stderr };
}

let host: ChildProcess | undefined;
let last: Promise<unknown> = Promise.resolve();

async function ask(args: readonly string[], input: string): Promise<Ran> {
  // Ends with the tests of its file, which it is kept for.
  host ??= fork('tests/cli/host.mjs', { stdio: ['ignore', 'inherit', 'inherit', 'ipc'], execArgv: [] });
  const child = host;
  child.send({ args, input });
  const [ran] = (await once(child, 'message')) as [Ran];
  return ran;
}

/** Runs the built program in a process that serves all calls of a test file, one after another: starting one for each takes three times as long. */
export function overbench(args: readonly string[], input = ''): Promise<Ran> {
  const asked = last.then(() => ask(args, input));
  last = asked.catch(() => undefined);
  return asked;
}

export interface Desk {
  path(name: string): string;
  read(name: string): string;
  clear(): void;
}

/** A folder of its own for a test's files. */
export function desk(): Desk {
  const folder = mkdtempSync(join(tmpdir(), 'overbench-'));
  return {
    path: (name) => join(folder, name),
    read: (name) => readFileSync(join(folder, name), 'utf8'),
    clear: () => rmSync(folder, { recursive: true, force: true }),
  };
}
