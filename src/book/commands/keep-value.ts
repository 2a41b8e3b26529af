/** A given that a formula answers is given by its value from now on, and the other way round again. */
import { cellAt } from '../address.ts';
import type { Book } from '../book.ts';
import { said } from '../label.ts';
import { titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { inPlaceOf, isAnsweredByFormula, setAside } from '../set-aside.ts';
import { cellEdit, setCell } from './set-cell.ts';

export interface KeepValue {
  readonly address: string;
  /** What it comes to now, as a content. */
  readonly content: string;
}

export function keepValue(book: Book, { address, content }: KeepValue): Answer {
  const at = cellAt(book, address);
  if (!at?.cell || !isAnsweredByFormula(at)) return refused('Only a given that a formula answers can be kept as a value.');
  return setCell(book, { address, content, source: inPlaceOf(at.cell.content) });
}

/** The formula that the value stands in place of answers it again. */
export function workAgain(book: Book, { address }: { readonly address: string }): Answer {
  const at = cellAt(book, address);
  const content = setAside(at?.cell);
  if (!at?.cell || content === undefined) return refused('No formula was set aside here.');
  const { typed: _, source: __, ...kept } = at.cell;
  const after = { ...kept, content };
  return { label: `${titleOf(at)}: ${said(book, at, at.cell)} → ${said(book, at, after)}`, edits: cellEdit(at, after) };
}
