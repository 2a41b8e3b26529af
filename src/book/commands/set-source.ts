/** Says who said so of a given: the client, a measurement, a default that is agreed to, or we. */
import { cellAt } from '../address.ts';
import type { Book } from '../book.ts';
import { BOUNDS, count } from '../bounds.ts';
import { short } from '../label.ts';
import { titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { sourceText, type Teller } from '../said-by.ts';
import { cellEdit } from './set-cell.ts';

export interface SetSource {
  readonly address: string;
  readonly teller: Teller;
  /** How or where: "by telephone". */
  readonly how: string;
}

export function setSource(book: Book, { address, teller, how }: SetSource): Answer {
  const at = cellAt(book, address);
  if (!at) return refused(`There is no cell ${address} in this book.`);
  const source = sourceText(teller, how);
  if (source.length > BOUNDS.text) return refused(`That text is too long: at most ${count(BOUNDS.text)} characters.`);
  return { label: `${titleOf(at)}: said by ${short(source)}`, edits: cellEdit(at, { ...(at.cell ?? { content: '' }), source }) };
}
