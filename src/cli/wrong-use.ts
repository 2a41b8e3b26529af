/** The command was called wrongly: one line on standard error, exit status 2. */
export class WrongUse extends Error {}

/** Something that was asked for can't be done: one line on standard error, exit status 1. */
export class Failure extends Error {}

/** The names most like a wrong one, nearest first, for "did you mean". */
export function nearest(wrong: string, names: readonly string[], most = 3): string[] {
  return names
    .map((name) => ({ name, distance: distance(wrong.toLowerCase(), name.toLowerCase()) }))
    .filter(({ name, distance: d }) => d <= Math.max(2, Math.ceil(name.length / 2)))
    .sort((a, b) => a.distance - b.distance)
    .slice(0, most)
    .map(({ name }) => name);
}

/** Edits of one letter that turn a into b (Levenshtein 1965). */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      next.push(Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
