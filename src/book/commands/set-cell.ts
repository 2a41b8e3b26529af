/** Puts a content into a cell. */
import { type At, cellAt } from '../address.ts';
import { notAllowed } from '../allowed.ts';
import type { Book, Cell } from '../book.ts';
import { noRoomFor } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { hoursWith } from '../crop-line.ts';
import { type Answered, together } from '../goes-with.ts';
import { said } from '../label.ts';
import { titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { saidBy, type Teller } from '../said-by.ts';

export interface SetCell {
  readonly address: string;
  /** Canonical, as `Cell.content` says. */
  readonly content: string;
  /** As it was typed, where that differs. */
  readonly typed?: string;
  /** The shown unit from now on; left out, it stays. */
  readonly unit?: string;
  /** Who said so; left out, it stays. */
  readonly source?: string;
}

/** Refuses a place that the book does not have, and what the cell's range does not allow. Kind, note, range and decimals stay. */
export function setCell(book: Book, args: SetCell): Answer {
  const at = cellAt(book, args.address);
  if (!at) return refused(`There is no cell ${args.address} in this book.`);
  const problem = noRoomFor(book, args.content, at.cell?.content) ?? notAllowed(book, at, args.content);
  if (problem !== undefined) return refused(problem);
  const { typed: _, ...kept } = at.cell ?? { content: '' };
  const after = withOwnUnit(at, {
    ...kept,
    content: args.content,
    ...(args.typed === undefined || args.typed === args.content ? {} : { typed: args.typed }),
    ...(args.unit === undefined ? {} : { unit: args.unit }),
    ...(args.source === undefined ? {} : { source: args.source }),
  });
  const answers = together(book, { at, after }, args.source);
  const made = [...answers, ...hoursWith(book, answers)].map((one) => ({ ...one, edits: cellEdit(one.at, one.after) }));
  // What stays as it was is not said, unless nothing else is.
  const told = made.some(({ edits }) => edits.length > 0) ? made.filter(({ edits }) => edits.length > 0) : made.slice(0, 1);
  return {
    label: told.map((one) => labelled(book, one)).join('; '),
    edits: made.flatMap(({ edits }) => edits),
  };
}

/** Of a value that stays as it was only who said it is new. */
function labelled(book: Book, { at, after }: Answered): string {
  const [before, now] = [said(book, at, at.cell), said(book, at, after)];
  const teller = saidBy(after.source)?.teller;
  return `${titleOf(at)}: ${before === now && teller && after.source !== at.cell?.source ? `${now}, said by ${WHO[teller]}` : `${before} → ${now}`}`;
}

const WHO: Readonly<Record<Teller, string>> = { client: 'the client', measured: 'a measurement', default: 'nobody: a default', ours: 'us' };

/** The edit of one cell: none where nothing differs; a cell that says nothing at all is taken away. */
export function cellEdit(at: At, after: Cell | null): readonly Edit[] {
  const made = after && Object.keys(after).length === 1 && after.content === '' ? null : after;
  const before = at.cell ?? null;
  if (sameCell(before, made)) return [];
  return [{ at: 'cell', table: at.table.id, row: at.row.id, column: at.column.id, before, after: made }];
}

/** A unit that the row or column sets anyway is not set again on the cell. */
export function withOwnUnit(at: At, cell: Cell): Cell {
  if (cell.unit === undefined || cell.unit !== (at.row.unit ?? at.column.unit)) return cell;
  const { unit: _, ...rest } = cell;
  return rest;
}

function sameCell(a: Cell | null, b: Cell | null): boolean {
  if (a === null || b === null) return a === b;
  const keys = Object.keys(a) as (keyof Cell)[];
  return keys.length === Object.keys(b).length && keys.every((key) => JSON.stringify(a[key]) === JSON.stringify(b[key]));
}
