/** Names most like a wrong one, for "did you mean". Spelling alone: capitals do not matter. */

/** Letters put in, left out, changed, or swapped with their neighbour that turn one word into the other (F. J. Damerau, 1964). */
function distance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((rows[i - 1]?.[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (rows[i - 1]?.[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, (rows[i - 2]?.[j - 2] ?? 0) + 1);
      row.push(best);
    }
    rows.push(row);
  }
  return rows[a.length]?.[b.length] ?? 0;
}

const LETTERS = 40;
/** Names that only share a word with what was written, or not even that, rank from here on. */
const FAR = 500;

/** How unlike a name is: letters that are wrong where they are few; then names that begin alike or have it as a part; then the rest. */
function rank(wanted: string, name: string): number {
  const upper = name.toUpperCase().slice(0, LETTERS);
  const parts = upper.split(/[._\s]+/);
  const near = wanted.length > 2 && (upper.startsWith(wanted) || wanted.startsWith(upper) || parts.includes(wanted));
  const allowed = Math.max(1, Math.floor(wanted.length / 3));
  const far = distance(wanted, upper);
  if (far <= allowed) return far;
  if (near) return 100 + far;
  // `basl` for sweet basil: one of its words, mistyped.
  if (wanted.length > 2 && parts.some((part) => distance(wanted, part) <= allowed)) return 200 + far;
  const shares = wanted.split(/[._\s]+/).some((word) => word.length > 2 && upper.includes(word));
  return (shares ? FAR : 2 * FAR) + far;
}

function ranked(written: string, known: Iterable<string>, below: number): readonly string[] {
  const wanted = written.trim().toUpperCase().slice(0, LETTERS);
  return Array.from(known, (name) => [name, rank(wanted, name)] as const)
    .filter(([, far]) => far < below)
    .sort((x, y) => x[1] - y[1] || x[0].localeCompare(y[0]))
    .slice(0, 3)
    .map(([name]) => name);
}

/** Up to three known names near to what was written. */
export const nearest = (written: string, known: Iterable<string>): readonly string[] => ranked(written, known, FAR);

/** The three likest of all, however far they are; of a long list the first 2,000 are looked at. */
export const likest = (written: string, known: readonly string[]): readonly string[] => ranked(written, known.slice(0, 2000), Number.POSITIVE_INFINITY);

/** "Did you mean A, B or C?", or nothing. */
export function didYouMean(written: string, known: Iterable<string>): string {
  const names = nearest(written, known);
  if (names.length === 0) return '';
  const last = names.at(-1) ?? '';
  return ` Did you mean ${names.length === 1 ? last : `${names.slice(0, -1).join(', ')} or ${last}`}?`;
}
