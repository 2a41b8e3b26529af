/** What a formula reads, found by looking at its text alone: on purpose none of the product's own parsing. */
import type { Book } from '../../src/book/book.ts';
import { rangeOf } from '../../src/book/look-up.ts';
import { cells } from './open-template.ts';

const REFERENCE = /(?:([A-Za-z]\w*)\.)?\$?([A-Z]{1,2})\$?([0-9]+)(?::\$?([A-Z]{1,2})\$?([0-9]+))?(?![\w.(!])/g;
const WORD = /[A-Za-z_][\w.]*/g;

const number = (letters: string): number => [...letters].reduce((n, c) => n * 26 + c.charCodeAt(0) - 64, 0);
const letters = (n: number): string => (n > 26 ? letters(Math.floor((n - 1) / 26)) : '') + String.fromCharCode(65 + ((n - 1) % 26));

export interface Reads {
  /** Cells that the formula names one by one. */
  readonly single: ReadonlySet<string>;
  /** Cells that stand in a range that it names. */
  readonly ranged: ReadonlySet<string>;
}

/** The cells that the formula reads itself. */
export function readsOf(book: Book, table: string, formula: string): Reads {
  const single = new Set<string>();
  const ranged = new Set<string>();
  const text = formula.replace(/"[^"]*"/g, '""');
  const take = (reference: string): void => {
    for (const [, of = table, column = '', row = '', column2, row2] of reference.matchAll(REFERENCE)) {
      if (column2 === undefined || row2 === undefined) single.add(`${of}.${column}${row}`);
      else for (let c = number(column); c <= number(column2); c++) for (let r = Number(row); r <= Number(row2); r++) ranged.add(`${of}.${letters(c)}${r}`);
    }
  };
  take(text);
  for (const [word] of text.matchAll(WORD)) if (Object.hasOwn(book.names, word)) take(book.names[word] ?? '');
  return { single, ranged };
}

/** For each cell with a formula, what it reads; for each given that is chosen from a list of cells, that list: what is no longer on it is out of range. */
export function readsOfAll(book: Book): ReadonlyMap<string, Reads> {
  return new Map(
    cells(book).flatMap(({ address, at }) => {
      const content = at.cell?.content ?? '';
      const text = content.startsWith('=') ? content : rangeOf(at)?.from;
      return text === undefined || content === '' ? [] : [[address, readsOf(book, at.table.name, text)] as const];
    }),
  );
}

/** Everything that follows from each cell, near and far. */
export function dependents(book: Book): (address: string) => ReadonlySet<string> {
  const readers = new Map<string, Set<string>>();
  for (const [address, { single, ranged }] of readsOfAll(book)) {
    for (const read of [...single, ...ranged]) readers.set(read, (readers.get(read) ?? new Set()).add(address));
  }
  return (address) => {
    const found = new Set<string>();
    const waiting = [address];
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      for (const reader of readers.get(next) ?? []) {
        if (found.has(reader)) continue;
        found.add(reader);
        waiting.push(reader);
      }
    }
    return found;
  };
}
