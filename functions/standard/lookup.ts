/**
 * LOOKUP: the value that stands beside the last entry not above the one looked for, in a sorted row or column.
 *
 * Source: OASIS, OpenDocument 1.2, Part 2 (OpenFormula), 2011, section 6.14, Lookup Functions.
 */
import type { CellValue } from '../define.ts';

/** Compares within a kind; undefined across kinds. Numbers equal to 14 digits are equal: 3 ft is 36 in. */
function order(a: CellValue, b: CellValue): number | undefined {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-14 * Math.max(Math.abs(a), Math.abs(b)) ? 0 : a - b;
  if (typeof a === 'string' && typeof b === 'string') return a.toLowerCase() < b.toLowerCase() ? -1 : a.toLowerCase() > b.toLowerCase() ? 1 : 0;
  if (typeof a === 'boolean' && typeof b === 'boolean') return Number(a) - Number(b);
  return undefined;
}

/** The index of the last entry not above `wanted` in sorted entries, or undefined where all are above. */
export function lastNotAbove(wanted: CellValue, sorted: readonly CellValue[]): number | undefined {
  let found: number | undefined;
  for (const [i, entry] of sorted.entries()) {
    const compared = order(entry, wanted);
    if (compared === undefined) continue;
    if (compared > 0) break;
    found = i;
  }
  return found;
}
