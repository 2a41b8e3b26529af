/** What a book and a table may hold. More is refused or kept aside with a word, never cut in silence. */
export const BOUNDS = {
  rows: 20_000,
  columns: 100,
  filledCells: 400_000,
  formulas: 120_000,
  formulaCharacters: 2_000,
  text: 32_000,
  /** A label, title or name. */
  title: 200,
  tables: 500,
  pages: 500,
  names: 5_000,
} as const;

export const count = (n: number): string => n.toLocaleString('en-GB');
