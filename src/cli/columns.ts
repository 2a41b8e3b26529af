/** A cell of a printed table: text is set left, numbers right. */
export interface Printed {
  readonly text: string;
  readonly right?: boolean;
}

/** Letters, not code units; good for everything the trade writes (µ, ², °, ·), which are all one column wide. */
const width = (text: string): number => [...text].length;

/** Lines with their columns under one another, two spaces apart. A text longer than `widest` goes on below, in its own column. */
export function columns(rows: readonly (readonly Printed[])[], widest = Number.POSITIVE_INFINITY): string[] {
  const wrapped = rows.map((row) => row.map((cell) => ({ lines: wrap(cell.text, widest), right: cell.right ?? false })));
  const widths: number[] = [];
  for (const row of wrapped) for (const [i, { lines }] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, ...lines.map(width));
  return wrapped.flatMap((row) => {
    const height = Math.max(...row.map(({ lines }) => lines.length));
    return Array.from({ length: height }, (_, n) =>
      row
        .map(({ lines, right }, i) => padded(lines[n] ?? '', widths[i] ?? 0, right))
        .join('  ')
        .trimEnd(),
    );
  });
}

function padded(text: string, to: number, right: boolean): string {
  const gap = ' '.repeat(to - width(text));
  return right ? gap + text : text + gap;
}

/** At spaces; a word that is itself too long stays whole. */
function wrap(text: string, widest: number): string[] {
  if (width(text) <= widest) return [text];
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && width(line) + 1 + width(word) > widest) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

export const left = (text: string): Printed => ({ text });
export const right = (text: string): Printed => ({ text, right: true });
