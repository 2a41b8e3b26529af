/** Answers that are picked together (goes-with.ts), as edits of many cells have them, and those that do not go together. */
import { type At, placeIn } from './address.ts';
import type { Book, Table } from './book.ts';
import type { Change, Edit } from './change.ts';
import { cellEdit } from './commands/set-cell.ts';
import { isFormula, plainText } from './content.ts';
import { pickersOf, picksOf, same, standingLine, together } from './goes-with.ts';
import { sourceIn, titleOf } from './look-up.ts';

/** All that are picked together with a given, the first of them first; none where it is picked alone. */
export function pickedTogether(book: Book, at: At): readonly At[] {
  const all = pickersOf(book, at);
  return new Set(all.map(({ column }) => column)).size < 2 ? [] : all.map((one) => one.at);
}

/** Row ids with their places: rows stay the same objects while cells are written. */
const places = new WeakMap<Table['rows'], ReadonlyMap<string, number>>();

/** Where a cell's edit is; undefined in a look-up list, whose cells are no answers. */
export function editedAt(book: Book, edit: Edit): At | undefined {
  const table = edit.at === 'cell' ? book.tables.find(({ id }) => id === edit.table) : undefined;
  if (edit.at !== 'cell' || !table || table.form === 'list') return undefined;
  const known = places.get(table.rows) ?? new Map(table.rows.map(({ id }, i) => [id, i]));
  places.set(table.rows, known);
  const column = table.columns.findIndex(({ id }) => id === edit.column);
  return placeIn(table, column, known.get(edit.row) ?? -1);
}

/** Whether edits touch answers that may be picked together. */
export const touchesPicks = (book: Book, edits: readonly Edit[]): boolean =>
  edits.some((edit) => {
    const at = editedAt(book, edit);
    return at !== undefined && sourceIn(book, at) !== undefined;
  });

/** The edits, each first answer with what follows upon it. */
export function allTogether(book: Book, edits: readonly Edit[]): readonly Edit[] {
  const isEdited = (at: At): boolean =>
    edits.some((edit) => edit.at === 'cell' && edit.table === at.table.id && edit.row === at.row.id && edit.column === at.column.id);
  return edits.flatMap((edit) => {
    const at = edit.at === 'cell' && edit.after ? editedAt(book, edit) : undefined;
    if (!at || edit.at !== 'cell' || !edit.after || !sourceIn(book, at)) return [edit];
    return together(book, { at, after: edit.after }, undefined, isEdited).flatMap((one) => cellEdit(one.at, one.after));
  });
}

/** What a change has left that does not go with its answers, and what would: sentences without their stops. `book` has the change in it. */
export function misfits(book: Book, { edits }: Change): readonly string[] {
  const told = edits.flatMap((edit) => {
    const at = edit.at === 'cell' && edit.after ? editedAt(book, edit) : undefined;
    // A follower is judged with the answer that it follows.
    return at ? pickedTogether(book, at).flatMap((one) => misfit(book, one) ?? []) : [];
  });
  return [...new Set(told)];
}

/** What does not go with what stands in the given, and what would: a sentence without its stop. */
export function misfit(book: Book, at: At): string | undefined {
  const picks = picksOf(book, at);
  const first = at.cell?.content ?? '';
  if (!picks || first === '' || isFormula(first) || standingLine(book, at) !== undefined) return undefined;
  const [follower] = picks.followers;
  const now = plainText(follower?.cell?.content ?? '');
  if (!follower || isFormula(now)) return undefined;
  const may = [...new Set(picks.lines.filter((line) => same(line[0] ?? '', first)).map((line) => plainText(line[1] ?? '')))];
  if (may.length === 0) return undefined;
  const other = may.length === 1 ? may[0] : `${may.slice(0, -1).join(', ')} or ${may.at(-1)}`;
  return `${titleOf(follower)}: ${now === '' ? 'not answered yet' : `“${now}” does not go with ${plainText(first)}`}. Pick ${other}`;
}
