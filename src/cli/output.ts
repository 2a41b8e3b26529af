import { once } from 'node:events';
import { closeSync, fsyncSync, openSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileMeant } from './same-file.ts';
import { Failure } from './wrong-use.ts';

/** Writes to standard output and waits while the reader is slower than we are. */
export async function print(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, 'drain');
}

/** To the file, whole or not at all; to standard output without one. A link stays a link, and what is no plain file (a pipe, a device) is written to. */
export async function deliver(text: string, file: string | undefined): Promise<void> {
  if (file === undefined) return print(text);
  try {
    const meant = fileMeant(file);
    const there = statSync(meant, { throwIfNoEntry: false });
    if (there && !there.isFile()) writeFileSync(meant, text);
    else replace(meant, text, there?.mode ?? 0o666);
  } catch (error) {
    throw new Failure(`can't write ${file}: ${(error as Error).message}`);
  }
}

function replace(file: string, text: string, mode: number): void {
  const half = `${file}.${process.pid}.part`;
  try {
    const handle = openSync(half, 'w', mode);
    try {
      writeFileSync(handle, text);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    nameIt(half, file);
  } catch (error) {
    rmSync(half, { force: true });
    throw error;
  }
}

/** Gives a file that is whole and on the disk its name. */
export function nameIt(half: string, file: string): void {
  renameSync(half, file);
  try {
    const folder = openSync(dirname(file), 'r');
    try {
      fsyncSync(folder);
    } finally {
      closeSync(folder);
    }
  } catch {
    // Not every system lets a folder be opened; there the name is on the disk a little later.
  }
}
