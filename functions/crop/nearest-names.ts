/** Names most like the one that was asked for, the likest first. */

/** Letters to change, add or take away to turn one word into the other (V. I. Levenshtein, 1966), up to 40 letters of each. */
function edits(from: string, to: string): number {
  const [a, b] = [from.slice(0, 40), to.slice(0, 40)];
  let before = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (before[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(change, (before[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    before = row;
  }
  return before[b.length] ?? 0;
}

/** At most 2,000 names are looked at, so that a huge table costs no time. */
export function nearestNames(asked: string, names: readonly string[], most = 3): string[] {
  const word = asked.trim().toLowerCase();
  const distance = (name: string): number => {
    const other = name.toLowerCase();
    // A name that holds the word (basil, sweet basil) is nearer than one that is merely as long.
    const holds = word !== '' && (other.includes(word) || word.split(/\s+/).some((w) => w.length > 2 && other.includes(w)));
    return edits(word, other) - (holds ? 40 : 0);
  };
  return names
    .slice(0, 2000)
    .map((name) => ({ name, d: distance(name) }))
    .sort((a, b) => a.d - b.d)
    .slice(0, most)
    .map(({ name }) => name);
}
