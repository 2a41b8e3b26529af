/**
 * Which file a path stands for, so that what is read is never written over: by another path, a link or a second name it is the same file. What is no
 * plain file is written to, for a rename would put a file in the place of a device.
 */
import { fstatSync, lstatSync, readlinkSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { WrongUse } from './wrong-use.ts';

const LONGEST_CHAIN = 40;

/** The file itself: of a link the one that it leads to, be that there yet or not. */
export function fileMeant(path: string): string {
  let meant = resolve(path);
  for (let links = 0; links < LONGEST_CHAIN; links++) {
    try {
      return realpathSync(meant);
    } catch {
      // It is not there: what it leads to, or is to become, may be said all the same.
    }
    const at = join(folderMeant(dirname(meant)), basename(meant));
    if (!lstatSync(at, { throwIfNoEntry: false })?.isSymbolicLink()) return at;
    meant = resolve(dirname(at), readlinkSync(at));
  }
  return meant;
}

function folderMeant(folder: string): string {
  try {
    return realpathSync(folder);
  } catch {
    return folder;
  }
}

/** What the system knows a file by. `-` is standard input, which may be a file too. */
function known(path: string): string | undefined {
  try {
    const { dev, ino } = path === '-' ? fstatSync(0, { bigint: true }) : statSync(path, { bigint: true });
    return ino === 0n ? undefined : `${dev} ${ino}`;
  } catch {
    return undefined;
  }
}

export function isSameFile(a: string, b: string): boolean {
  if (a !== '-' && b !== '-' && fileMeant(a) === fileMeant(b)) return true;
  const one = known(a);
  return one !== undefined && one === known(b);
}

/** Refuses to write over what is read. */
export function spare(read: readonly string[], written: readonly (string | undefined)[]): void {
  for (const to of written) {
    if (to === undefined) continue;
    const from = read.find((file) => isSameFile(file, to));
    if (from !== undefined) throw new WrongUse(`${to} would be written over, and ${from === '-' ? 'standard input' : from} is read from it; say another file`);
  }
}
