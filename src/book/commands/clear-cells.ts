/** Empties cells; locked ones are refused, and then none is emptied. What is said of them (unit, kind, range, note) stays; a given waits for its answer again. */
import { cellAt } from '../address.ts';
import type { Book } from '../book.ts';
import type { Edit } from '../change.ts';
import { said } from '../label.ts';
import { lockedProblem } from '../locked.ts';
import { titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface ClearCells {
  readonly addresses: readonly string[];
}

export function clearCells(book: Book, { addresses }: ClearCells): Answer {
  const edits: Edit[] = [];
  let label = 'Nothing cleared';
  for (const address of addresses) {
    const at = cellAt(book, address);
    if (!at) return refused(`There is no cell ${address} in this book.`);
    if (!at.cell || at.cell.content === '') continue;
    const locked = lockedProblem(at, '');
    if (locked !== undefined) return refused(locked);
    // Who said so was said of the content that goes.
    const { typed: _, source: __, ...kept } = at.cell;
    edits.push(...cellEdit(at, { ...kept, content: '' }));
    label = edits.length === 1 ? `${titleOf(at)}: ${said(book, at, at.cell)} → blank` : `${edits.length} cells cleared`;
  }
  return { label, edits };
}
