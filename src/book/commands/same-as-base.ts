/** Puts a scenario's given back to what the base scenario has: "as A". */
import { type At, cellAt, columnText, placeIn } from '../address.ts';
import type { Book } from '../book.ts';
import { said } from '../label.ts';
import { baseColumn, columnHeading, pointsAt, standingOf, titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface SameAsBase {
  readonly address: string;
}

export function sameAsBase(book: Book, { address }: SameAsBase): Answer {
  const at = cellAt(book, address);
  if (!at) return refused(`There is no cell ${address} in this book.`);
  const base = placeIn(at.table, baseColumn(at.table), at.rowIndex);
  if (at.table.form !== 'scenarios' || !base) return refused(`${at.table.name} does not compare scenarios.`);
  if (base.column === at.column) return refused(`${titleOf(at)} is what the other scenarios are compared with.`);
  const standing = standingOf(at);
  if (standing !== 'given' && standing !== 'as') return refused(`${titleOf(at)} is worked out; only a given can be as ${columnHeading(base)}.`);
  if (follows(book, base, at)) return refused(`${titleOf(base)} is itself the same as ${titleOf(at)}: it can't be the other way round too.`);
  const { typed: _, source: __, unit: ___, ...kept } = at.cell ?? { content: '' };
  const after = { ...kept, content: `=${columnText(base.columnIndex)}${at.rowIndex + 1}` };
  return { label: `${titleOf(at)}: ${said(book, at, at.cell)} → ${said(book, at, after)}`, edits: cellEdit(at, after) };
}

/** Whether a cell that only points at another comes, from one to the next, to that one. */
function follows(book: Book, from: At, goal: At): boolean {
  const seen = new Set<string>();
  for (let next = pointsAt(from); next !== undefined && !seen.has(next); ) {
    seen.add(next);
    const at = cellAt(book, next);
    if (at && at.table === goal.table && at.row === goal.row && at.column === goal.column) return true;
    next = at && pointsAt(at);
  }
  return false;
}
