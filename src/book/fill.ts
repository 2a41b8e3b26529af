/** Puts contents into many cells as one change: all of them or, with the reason, none. */
import type { At } from './address.ts';
import { notAllowed } from './allowed.ts';
import { apply } from './apply.ts';
import type { Book, Cell } from './book.ts';
import { noRoomFor, tooFull } from './bounds.ts';
import type { Change, Edit } from './change.ts';
import { cellEdit, withOwnUnit } from './commands/set-cell.ts';
import { withoutBareTyped } from './content.ts';
import { together } from './goes-with.ts';
import { lockedProblem } from './locked.ts';
import { unitOf } from './look-up.ts';
import { type Refused, refused } from './refused.ts';

export interface Piece {
  readonly at: At;
  /** Its kind and allowed range are the place's own, whatever it says of them. */
  readonly cell: Cell;
}

export function fill(book: Book, label: string, pieces: readonly Piece[]): Change | Refused {
  const edits: Edit[] = [];
  const isAnswered = (follower: At): boolean =>
    pieces.some(({ at }) => at.table === follower.table && at.row === follower.row && at.column === follower.column);
  for (const { at, cell } of pieces) {
    const problem = lockedProblem(at, cell.content) ?? noRoomFor(book, cell.content, cell.content) ?? notAllowed(book, at, cell.content);
    if (problem !== undefined) return refused(problem);
    for (const one of together(book, { at, after: placed(at, cell) }, undefined, isAnswered)) edits.push(...cellEdit(one.at, one.after));
  }
  const full = tooFull(apply(book, { label, edits }));
  return full === undefined ? { label, edits } : refused(full);
}

function placed(at: At, cell: Cell): Cell {
  const { kind: _, range: __, ...said } = cell;
  const own = { ...said, ...(at.cell?.kind ? { kind: at.cell.kind } : {}), ...(at.cell?.range ? { range: at.cell.range } : {}) };
  // What was typed without a unit was meant in the unit of the place that it comes from.
  const made = said.unit === unitOf(at) ? own : withoutBareTyped(own);
  return withOwnUnit(at, made);
}
