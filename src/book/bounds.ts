/** What a book and a table may hold. More is refused or kept aside with a word, never cut in silence. */
import type { Book, Table } from './book.ts';
import { isFormula } from './content.ts';

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
  /** What the client wrote. */
  enquiry: 100_000,
  /** On all pages together. */
  blocks: 20_000,
  names: 5_000,
} as const;

/** Scenarios that stand side by side on paper with room for each number and its unit. More may be, and it is said. */
export const BESIDE = 5;

export const count = (n: number): string => n.toLocaleString('en-GB');

interface Amounts {
  readonly cells: number;
  readonly formulas: number;
}

/** By row: a change makes new ones of the rows it touches only, so that counting again costs next to nothing. */
const counted = new WeakMap<object, Amounts>();

export function amountsOf(book: Book): Amounts {
  let cells = 0;
  let formulas = 0;
  for (const table of book.tables) {
    for (const line of Object.values(table.cells)) {
      const amounts = counted.get(line) ?? countLine(line);
      cells += amounts.cells;
      formulas += amounts.formulas;
    }
  }
  return { cells, formulas };
}

function countLine(line: Table['cells'][string]): Amounts {
  const contents = Object.values(line);
  const amounts = { cells: contents.length, formulas: contents.filter((cell) => isFormula(cell.content)).length };
  counted.set(line, amounts);
  return amounts;
}

/** Why a cell can't be filled with this, where the book or the cell would hold too much. `before`: what it holds, if anything. */
export function noRoomFor(book: Book, content: string, before: string | undefined): string | undefined {
  if (isFormula(content) && content.length > BOUNDS.formulaCharacters) {
    return `This formula has ${count(content.length)} characters; at most ${count(BOUNDS.formulaCharacters)} are allowed.`;
  }
  if (content.length > BOUNDS.text) return `This text has ${count(content.length)} characters; at most ${count(BOUNDS.text)} are allowed.`;
  // Counting is left out where nothing is added, and where the tables are too small to hold as much anyway.
  if (before !== undefined && (isFormula(before) || !isFormula(content))) return undefined;
  const places = book.tables.reduce((n, table) => n + table.rows.length * table.columns.length, 0);
  if (places <= BOUNDS.formulas) return undefined;
  const { cells, formulas } = amountsOf(book);
  if (before === undefined && cells >= BOUNDS.filledCells) return `This book has ${count(cells)} filled cells, which is the most a book may have.`;
  if (isFormula(content) && formulas >= BOUNDS.formulas) return `This book has ${count(formulas)} formulas, which is the most a book may have.`;
  return undefined;
}

/** Why a page can't have another piece, whether prose, a table or a picture. */
export function noRoomForBlock(book: Book, more = 1): string | undefined {
  const blocks = book.pages.reduce((n, page) => n + page.blocks.length, 0) + more;
  return blocks > BOUNDS.blocks ? `A book has at most ${count(BOUNDS.blocks)} pieces on its pages.` : undefined;
}

/** Why a whole book is too full, for changes of many cells at once. */
export function tooFull(book: Book): string | undefined {
  const { cells, formulas } = amountsOf(book);
  if (cells > BOUNDS.filledCells) return `This book would have ${count(cells)} filled cells; at most ${count(BOUNDS.filledCells)} are allowed.`;
  if (formulas > BOUNDS.formulas) return `This book would have ${count(formulas)} formulas; at most ${count(BOUNDS.formulas)} are allowed.`;
  return undefined;
}
