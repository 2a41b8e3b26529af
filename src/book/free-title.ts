import { BOUNDS } from './bounds.ts';

const COPIES = ['second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];
const LONGEST_ENDING = ', another copy'.length;

/** A title that is not taken: the same, or one that says the how manieth copy it is. */
export function freeTitle(title: string, taken: readonly string[]): string {
  const bare = title.slice(0, BOUNDS.title - LONGEST_ENDING);
  const tries = [title, ...COPIES.map((nth) => `${bare}, ${nth} copy`)];
  return tries.find((each) => !taken.includes(each)) ?? `${bare}, another copy`;
}

/** The page on which stands what a file brought and found no place for. */
export const NOT_PLACED = 'Not placed';
