/** Moves rows or columns within their table. References follow the cells. */
import { columnText } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book } from '../book.ts';
import type { Edit } from '../change.ts';
import { type Axis, findTable, followLines, lineEdit, linesOf, linesText } from '../lines.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { tablesWithScenarios } from './add-scenario.ts';

export interface MoveLines {
  /** A table's id or name. */
  readonly table: string;
  readonly axis: Axis;
  readonly at: number;
  readonly count?: number;
  /** The place of the first of them afterwards. */
  readonly to: number;
}

/** A comparing table's columns are scenarios: they move in every table that compares the same ones. */
export function moveLines(book: Book, args: MoveLines): Answer {
  const table = findTable(book, args.table);
  if (table?.form !== 'scenarios' || args.axis === 'row') return movedIn(book, args);
  const edits: Edit[] = [];
  let now = book;
  let label = '';
  for (const { id } of tablesWithScenarios(book, table)) {
    const one = movedIn(now, { ...args, table: id });
    if (isRefused(one)) return one;
    now = apply(now, one);
    edits.push(...one.edits);
    if (id === table.id) label = one.label;
  }
  return { label, edits };
}

function movedIn(book: Book, { table: wanted, axis, at, count = 1, to }: MoveLines): Answer {
  const table = findTable(book, wanted);
  if (!table) return refused(`There is no table ${wanted} in this book.`);
  const lines = linesOf(table, axis);
  const inside = (place: number): boolean => Number.isInteger(place) && place >= 0 && place + count <= lines.length;
  if (!Number.isInteger(count) || count < 1 || !inside(at) || !inside(to)) return refused(`There is no such place in ${table.name}.`);
  const label = `${linesText(axis, at, count, columnText)} of ${table.name} moved to ${axis} ${axis === 'row' ? to + 1 : columnText(to)}`;
  if (at === to) return { label, edits: [] };
  const { edits } = followLines(book, table, axis, { kind: 'move', at, count, to });
  // A list of choices may have been rewritten in the rows themselves, by the edits that come first.
  const moving = lines.slice(at, at + count).map((line, i) => {
    const rewritten = edits.find((edit) => edit.at === axis && edit.table === table.id && edit.index === at + i);
    return rewritten && (rewritten.at === 'row' || rewritten.at === 'column') && rewritten.after ? rewritten.after : line;
  });
  const out = moving.map((line) => lineEdit(table, axis, at, line, null));
  const back = moving.map((line, i) => lineEdit(table, axis, to + i, null, line));
  return { label, edits: [...edits, ...out, ...back] };
}
