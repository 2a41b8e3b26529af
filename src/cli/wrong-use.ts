import { nearest } from '../../functions/nearest.ts';

/** The command was called wrongly: one line on standard error, exit status 2. */
export class WrongUse extends Error {}

/** Something that was asked for can't be done: one line on standard error, exit status 1. */
export class Failure extends Error {}

/** For one who wrote a name that is none of these: the nearest to it, or all there are. */
export function amongThese(written: string, names: readonly string[]): string {
  if (names.length === 0) return 'there are none';
  const near = nearest(written, names);
  return near.length > 0 && near.length < names.length ? `nearest: ${near.join(', ')}` : `there are: ${names.join(', ')}`;
}
