/** Letters that tie the references of a formula to the cells on the page: one for each cell or range, in the order in which they come. */
import { type At, cellAt, placeIn, type Reference, readReference, referenceText, tableNamed, textOf } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { columnHeading, named, rowHeading } from '../../book/look-up.ts';
import type { Address } from '../../engine/types.ts';
import type { Word } from '../cells/index.ts';
import { letterAt } from '../parts/index.ts';

/** A cell or range that a formula reads. */
export interface Cited {
  readonly letter: string;
  /** As people call it: `Mount height · B`. */
  readonly heading: string;
  /** As it was written first: `B7`, `bench_length`. */
  readonly written: string;
  /** The cell; of a range its first. */
  readonly at: At;
  readonly range: boolean;
}

export interface Citing {
  readonly cited: readonly Cited[];
  /** Where each reference stands in the text. */
  readonly marks: readonly { readonly from: number; readonly to: number; readonly letter: string }[];
  /** The letter of each cell that is read. */
  readonly cells: ReadonlyMap<Address, string>;
}

/** Cells of a range that are marked one by one. */
const MOST_MARKED = 400;

export function headingOf(at: At, home: At): string {
  const column = at.table.columns.length > 1 ? columnHeading(at) : '';
  const table = at.table.id === home.table.id ? '' : at.table.name;
  return [rowHeading(at), column, table].filter(Boolean).join(' · ');
}

export function citingOf(words: readonly Word[], book: Book, home: At): Citing {
  const cited = new Map<string, Cited>();
  const marks: Citing['marks'][number][] = [];
  const cells = new Map<Address, string>();
  for (const word of words) {
    const reference = word.reference ?? nameTarget(word, book);
    const table = reference && tableNamed(book, reference.table ?? home.table.name);
    if (!reference || !table) continue;
    const { from, to } = corners(reference);
    const [first, last] = [from, to].map((corner) => cellAt(book, textOf(table.name, corner.column, corner.row)));
    if (!first || !last) continue;
    const key = referenceText({ table: table.name, from, to, range: reference.range });
    let entry = cited.get(key);
    if (!entry) {
      const heading = reference.range ? `${headingOf(first, home)} to ${headingOf(last, home)}` : headingOf(first, home);
      entry = { letter: letterAt(cited.size), heading, written: word.text, at: first, range: reference.range };
      cited.set(key, entry);
      let marked = 0;
      for (let row = from.row; row <= to.row && marked < MOST_MARKED; row++) {
        for (let column = from.column; column <= to.column && marked < MOST_MARKED; column++, marked++) {
          const address = textOf(table.name, column, row);
          if (placeIn(table, column, row) && !cells.has(address)) cells.set(address, entry.letter);
        }
      }
    }
    marks.push({ from: word.from, to: word.to, letter: entry.letter });
  }
  return { cited: [...cited.values()], marks, cells };
}

function nameTarget(word: Word, book: Book): Reference | undefined {
  const target = word.kind === 'name' ? named(book, word.text) : undefined;
  return target === undefined ? undefined : readReference(target);
}

/** From the top left to the bottom right, whichever corners were written; without their dollar signs. */
function corners({ from, to }: Reference): Pick<Reference, 'from' | 'to'> {
  const plain = { columnFixed: false, rowFixed: false };
  return {
    from: { ...plain, column: Math.min(from.column, to.column), row: Math.min(from.row, to.row) },
    to: { ...plain, column: Math.max(from.column, to.column), row: Math.max(from.row, to.row) },
  };
}
