/**
 * How much something read from outside holds: judged first, in one pass and without recursion, so that nothing made to be large or deep goes any
 * further. A schema took 27 s to refuse a million pages.
 */
import { BOUNDS, count } from './bounds.ts';
import { isFormula } from './content.ts';
import { placeInWords } from './problem-words.ts';

/** A book is about eight deep. What walks by recursion would break over a file made to be deep. */
export const DEEPEST = 20;
/** Values of all kinds. */
export const MOST_VALUES = 8_000_000;

export const TOO_DEEP = `It is nested more than ${DEEPEST} deep, which no book is.`;
export const TOO_MUCH = 'It holds more than any book may.';

export function sizeOf(found: object): { readonly values: number; readonly problems: readonly string[] } {
  const problems = amountProblems(found as Record<string, unknown>);
  let level: object[] = [found];
  let values = 0;
  if (problems.length > 0) return { values, problems };
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > DEEPEST) return { values, problems: [TOO_DEEP] };
    const next: object[] = [];
    for (const value of level) {
      const key = Array.isArray(value) ? undefined : Object.keys(value).find((name) => name in {});
      if (key !== undefined) return { values, problems: [`Something in it is called “${key}”, which nothing in a book may be.`] };
      for (const part of Object.values(value)) {
        values++;
        if (typeof part === 'object' && part !== null) next.push(part);
      }
      if (values > MOST_VALUES) return { values, problems: [TOO_MUCH] };
    }
    level = next;
  }
  return { values, problems };
}

/** What is no list or no group where one must stand is the schema's affair. */
function amountProblems(book: Record<string, unknown>): string[] {
  const problems: string[] = [];
  const tables = listOf(book.tables);
  const most = (path: readonly string[], amount: number, bound: number): void => {
    if (amount > bound) problems.push(`${placeInWords(book, path)} must be at most ${count(bound)}.`);
  };
  const mostInAll = (amount: number, bound: number, what: string): void => {
    if (amount > bound) problems.push(`The book has ${count(amount)} ${what}; at most ${count(bound)} are allowed.`);
  };
  const pages = listOf(book.pages);
  most(['pages'], pages.length, BOUNDS.pages);
  most(['tables'], tables.length, BOUNDS.tables);
  if (problems.length > 0) return problems;
  mostInAll(
    pages.reduce((n: number, page) => n + listOf(partOf(page, 'blocks')).length, 0),
    BOUNDS.blocks,
    'pieces on its pages',
  );
  // Their keys alone: the values of a million names take a second more.
  mostInAll(typeof book.names === 'object' && book.names !== null ? Object.keys(book.names).length : 0, BOUNDS.names, 'names');
  let [cells, formulas] = [0, 0];
  for (const [i, table] of tables.entries()) {
    most(['tables', String(i), 'rows'], listOf(partOf(table, 'rows')).length, BOUNDS.rows);
    most(['tables', String(i), 'columns'], listOf(partOf(table, 'columns')).length, BOUNDS.columns);
    for (const line of valuesOf(partOf(table, 'cells'))) {
      for (const cell of valuesOf(line)) {
        cells++;
        const content = partOf(cell, 'content');
        if (typeof content === 'string' && isFormula(content)) formulas++;
      }
    }
  }
  mostInAll(cells, BOUNDS.filledCells, 'filled cells');
  mostInAll(formulas, BOUNDS.formulas, 'formulas');
  return problems;
}

const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const valuesOf = (value: unknown): readonly unknown[] => (typeof value === 'object' && value !== null && !Array.isArray(value) ? Object.values(value) : []);
const partOf = (value: unknown, key: string): unknown => (typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[key] : undefined);
