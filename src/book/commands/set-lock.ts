/** Unlocks worked cells, so that they can be written over and cleared, and locks them again. */
import { cellAt } from '../address.ts';
import type { Book } from '../book.ts';
import type { Edit } from '../change.ts';
import { isFormula } from '../content.ts';
import { isLocked } from '../locked.ts';
import { titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface SetLock {
  readonly addresses: readonly string[];
  readonly locked: boolean;
}

/** Cells without a formula, and those that are so already, stay as they are. */
export function setLock(book: Book, { addresses, locked }: SetLock): Answer {
  const edits: Edit[] = [];
  const word = locked ? 'locked' : 'unlocked';
  let label = `Nothing ${word}`;
  for (const address of addresses) {
    const at = cellAt(book, address);
    if (!at) return refused(`There is no cell ${address} in this book.`);
    if (!at.cell || !isFormula(at.cell.content) || isLocked(at) === locked) continue;
    const { kind: _, ...kept } = at.cell;
    // Where the row says what the cell is, the cell need not say it too.
    const bare = { ...at, cell: kept };
    edits.push(...cellEdit(at, isLocked(bare) === locked ? kept : { ...kept, kind: locked ? 'worked' : 'given' }));
    label = edits.length === 1 ? `${titleOf(at)}: ${word}` : `${edits.length} cells ${word}`;
  }
  return { label, edits };
}
