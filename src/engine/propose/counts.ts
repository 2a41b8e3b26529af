/** How many arrangements were tried, over pieces, searches and clients. */
import type { Counts } from './types.ts';

/** To be added to. */
export type Tally = { -readonly [K in keyof Counts]: Counts[K] };

export const NO_COUNTS: Counts = { layouts: 0, built: 0, worked: 0, cut: 0, hold: 0 };

export function addCounts(to: Tally, more: Counts): void {
  for (const key of Object.keys(NO_COUNTS) as (keyof Counts)[]) to[key] += more[key];
}
