/** Says who said so, or something more, about a cell. */
import { cellAt } from '../address.ts';
import type { Book, Cell } from '../book.ts';
import { BOUNDS, count } from '../bounds.ts';
import { short } from '../label.ts';
import { titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface SetNote {
  readonly address: string;
  /** Left out, it stays; empty, the cell says none of its own. */
  readonly note?: string;
  readonly source?: string;
}

export function setNote(book: Book, { address, note, source }: SetNote): Answer {
  const at = cellAt(book, address);
  if (!at) return refused(`There is no cell ${address} in this book.`);
  for (const text of [note, source]) {
    if ((text?.length ?? 0) > BOUNDS.text) return refused(`That text is too long: at most ${count(BOUNDS.text)} characters.`);
  }
  const cell: Record<string, unknown> = { ...(at.cell ?? { content: '' }) };
  // What waits for an answer goes on waiting.
  if (note && at.cell && Object.keys(at.cell).length === 1 && at.cell.content === '') cell.kind = 'given';
  const parts: string[] = [];
  for (const [key, text] of [
    ['note', note],
    ['source', source],
  ] as const) {
    if (text === undefined) continue;
    if (text === '') delete cell[key];
    else cell[key] = text;
    parts.push(`${key} → ${text === '' ? 'none' : short(text)}`);
  }
  return { label: `${titleOf(at)}: ${parts.join(', ')}`, edits: cellEdit(at, cell as unknown as Cell) };
}
