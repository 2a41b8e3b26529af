/** How wires are called and listed, and what the book is printed on, whatever its measures. Nothing that was given changes. */
import type { Book } from '../book.ts';
import { type Paper, paperOf, type Wires, wiresOf } from '../customs.ts';
import type { Answer } from '../refused.ts';

/** What goes with the measures is not written down, so that it follows them. */
function custom<Field extends 'wires' | 'paper'>(book: Book, field: Field, said: string, from: string, to: Book[Field], usual: string): Answer {
  const label = `${said}: ${from} → ${to}`;
  if (from === to) return { label, edits: [] };
  const now = book[field];
  return { label, edits: [{ at: 'book', before: now === undefined ? {} : { [field]: now }, after: to === usual ? {} : { [field]: to } }] };
}

export const setWires = (book: Book, { wires }: { readonly wires: Wires }): Answer =>
  custom(book, 'wires', 'Wires', wiresOf(book), wires, wiresOf({ measures: book.measures }));

export const setPaper = (book: Book, { paper }: { readonly paper: Paper }): Answer =>
  custom(book, 'paper', 'Paper', paperOf(book), paper, paperOf({ measures: book.measures }));
