/** A cell of a printed table: text is set left, numbers right. */
export interface Printed {
  readonly text: string;
  readonly right?: boolean;
}

/** Letters, not code units; good for everything the trade writes (µ, ², °, ·), which are all one column wide. */
const width = (text: string): number => [...text].length;

/** Lines with their columns under one another, two spaces apart. */
export function columns(rows: readonly (readonly Printed[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, width(cell.text));
  return rows.map((row) =>
    row
      .map((cell, i) => {
        const gap = ' '.repeat((widths[i] ?? 0) - width(cell.text));
        return cell.right ? gap + cell.text : cell.text + gap;
      })
      .join('  ')
      .trimEnd(),
  );
}

export const left = (text: string): Printed => ({ text });
export const right = (text: string): Printed => ({ text, right: true });
