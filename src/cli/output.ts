import { once } from 'node:events';
import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { Failure } from './wrong-use.ts';

/** Writes to standard output and waits while the reader is slower than we are. */
export async function print(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, 'drain');
}

/** To the file, whole or not at all; to standard output without one. */
export async function deliver(text: string, file: string | undefined): Promise<void> {
  if (file === undefined) return print(text);
  const half = `${file}.${process.pid}.part`;
  try {
    writeFileSync(half, text);
    renameSync(half, file);
  } catch (error) {
    rmSync(half, { force: true });
    throw new Failure(`can't write ${file}: ${(error as Error).message}`);
  }
}
