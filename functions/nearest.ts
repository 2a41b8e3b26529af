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

/** Up to three known names near to what was written. */
export function nearest(written: string, known: Iterable<string>): readonly string[] {
  const wanted = written.toUpperCase().slice(0, 60);
  const scored: (readonly [string, number])[] = [];
  for (const name of known) {
    const upper = name.toUpperCase();
    const near = upper.startsWith(wanted) || wanted.startsWith(upper) || upper.split(/[._\s]/).includes(wanted);
    // Names that differ by more letters than may be wrong need no closer look.
    const allowed = Math.max(1, Math.floor(wanted.length / 3));
    if (!near && Math.abs(upper.length - wanted.length) > allowed) continue;
    const far = distance(wanted, upper);
    if (far <= allowed) scored.push([name, far]);
    else if (near && wanted.length > 2) scored.push([name, 100 + far]);
  }
  return scored
    .sort((x, y) => x[1] - y[1] || x[0].localeCompare(y[0]))
    .slice(0, 3)
    .map(([name]) => name);
}

/** "Did you mean A, B or C?", or nothing. */
export function didYouMean(written: string, known: Iterable<string>): string {
  const names = nearest(written, known);
  if (names.length === 0) return '';
  const last = names.at(-1) ?? '';
  return ` Did you mean ${names.length === 1 ? last : `${names.slice(0, -1).join(', ')} or ${last}`}?`;
}
