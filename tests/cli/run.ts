import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built program as a shell would. */
export function overbench(args: readonly string[], input = ''): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['dist/cli/overbench.js', ...args], { input, encoding: 'utf8', maxBuffer: 1 << 28 });
  return { status, out: stdout, err: stderr };
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
