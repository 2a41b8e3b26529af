/**
 * RANK and MODE.
 *
 * Source: OASIS, OpenDocument 1.2, Part 2 (OpenFormula), 2011, section 6.18, Statistical Functions, under each name.
 */

/** The place of x among the data, 1 for the largest (for the smallest where `ascending`); equal ones share the better place. */
export function rank(x: number, data: readonly number[], ascending: boolean): number | undefined {
  if (!data.includes(x)) return undefined;
  return 1 + data.filter((other) => (ascending ? other < x : other > x)).length;
}

/** The number that comes most often, the smallest of several such; undefined where none comes twice. */
export function mode(data: readonly number[]): number | undefined {
  const counts = new Map<number, number>();
  for (const x of data) counts.set(x, (counts.get(x) ?? 0) + 1);
  let best: number | undefined;
  let most = 1;
  for (const [x, count] of counts) {
    if (count > most || (count === most && best !== undefined && x < best)) {
      best = x;
      most = count;
    }
  }
  return best;
}
