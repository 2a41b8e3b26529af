/**
 * Answers that are picked together. Of one list (Crops) a given takes a text of one column, and others beside it, its followers, take texts of later columns: a
 * crop and its stage. Whoever answers the first may pick a whole line, "tomato, fruiting"; or says the first alone, and what can only be meant follows.
 */
import { type At, placeIn, readReference, tableNamed } from './address.ts';
import type { Book, Cell, Table } from './book.ts';
import type { Change, Edit } from './change.ts';
import { isFormula, plainText } from './content.ts';
import { rangeOf, titleOf } from './look-up.ts';
import { tellerOver } from './said-by.ts';

interface Picks {
  readonly followers: readonly At[];
  /** Contents of the list, row by row: of the first given's column, then of each follower's. */
  readonly lines: readonly (readonly string[])[];
}

/** The list that a given takes its text from, the column, and the rows. */
function sourceIn(book: Book, at: At) {
  const from = rangeOf(at)?.from;
  const reference = from === undefined ? undefined : readReference(from);
  const list = reference && tableNamed(book, reference.table ?? at.table.name);
  return reference && list && { list, column: reference.from.column, rows: [reference.from.row, reference.to.row] as const };
}

/** Undefined where nothing follows upon the given, or the list is worked out. */
function picksOf(book: Book, at: At): Picks | undefined {
  const own = sourceIn(book, at);
  if (!own) return undefined;
  const later = at.table.rows
    .flatMap((_, row) => {
      const other = placeIn(at.table, at.columnIndex, row);
      const its = other && sourceIn(book, other);
      return its && its.list === own.list && its.column > own.column ? [{ at: other, column: its.column }] : [];
    })
    .toSorted((a, b) => a.column - b.column);
  if (later.length === 0) return undefined;
  const lines: string[][] = [];
  for (let row = own.rows[0]; row <= own.rows[1]; row++) {
    const line = [own.column, ...later.map(({ column }) => column)].map((column) => placeIn(own.list, column, row)?.cell?.content ?? '');
    if (line.some(isFormula)) return undefined;
    if (line[0] !== '') lines.push(line);
  }
  return { followers: later.map((one) => one.at), lines };
}

/** All that are picked together with a given, the first of them first; none where it is picked alone. */
export function pickedTogether(book: Book, at: At): readonly At[] {
  const own = sourceIn(book, at);
  if (!own) return [];
  const all = at.table.rows.flatMap((_, row) => {
    const other = placeIn(at.table, at.columnIndex, row);
    const its = other && sourceIn(book, other);
    return its?.list === own.list ? [{ at: other as At, column: its.column }] : [];
  });
  const columns = new Set(all.map(({ column }) => column));
  return columns.size < 2 ? [] : all.toSorted((a, b) => a.column - b.column).map((one) => one.at);
}

const same = (a: string, b: string): boolean => plainText(a).trim().toLowerCase() === plainText(b).trim().toLowerCase();
const textOfLine = (line: readonly string[]): string =>
  line
    .filter((content) => content !== '')
    .map(plainText)
    .join(', ');

/** The lines that may be picked whole, in words; undefined where nothing follows upon the given. */
export const wholeLines = (book: Book, at: At): readonly string[] | undefined => picksOf(book, at)?.lines.map(textOfLine);

/** The line that the given and its followers stand at, in words. */
export function standingLine(book: Book, at: At): string | undefined {
  const picks = picksOf(book, at);
  const stands = picks && [at, ...picks.followers].map(({ cell }) => cell?.content ?? '');
  const line = stands && picks.lines.find((each) => each.every((content, i) => same(content, stands[i] ?? '')));
  return line && textOfLine(line);
}

/** Those that hold every word, plural or not, in whatever order; first those that begin as what is wanted does. */
export function fitting(texts: readonly string[], wanted: string): readonly string[] {
  const lower = wanted.trim().toLowerCase();
  const words = lower.split(/[\s,]+/u).filter(Boolean);
  const found = texts.filter((text) => words.every((word) => text.toLowerCase().includes(word.length > 3 ? word.replace(/s$/u, '') : word)));
  const starts = (text: string): boolean => text.toLowerCase().startsWith(lower);
  return [...found.filter(starts), ...found.filter((text) => !starts(text))];
}

/** Whether a text is all that is asked for by itself, and several lines begin with it: a crop that has several stages. It means itself then, and none of them. */
export const isWhole = (lines: readonly string[], text: string): boolean =>
  lines.filter((line) => line.toLowerCase().startsWith(`${text.trim().toLowerCase()}, `)).length > 1;

/** The edits, each first answer with what follows upon it. `said`: who answered. */
export function together(book: Book, edits: readonly Edit[], said?: string): readonly Edit[] {
  const isEdited = (at: At): boolean =>
    edits.some((edit) => edit.at === 'cell' && edit.table === at.table.id && edit.row === at.row.id && edit.column === at.column.id);
  return edits.flatMap((edit) => {
    const at = edit.at === 'cell' && edit.after ? placeOf(book, edit) : undefined;
    const picks = at && picksOf(book, at);
    if (!picks || edit.at !== 'cell' || !edit.after) return [edit];
    const { content } = edit.after;
    const whole = picks.lines.find((line) => same(textOfLine(line), content));
    const own = whole ? changed(at, whole[0] ?? '', edit.after) : [edit];
    const first = whole?.[0] ?? content;
    let left = picks.lines.filter((line) => same(line[0] ?? '', first));
    const follow = picks.followers.flatMap((follower, i) => {
      const now = follower.cell?.content ?? '';
      const may = [...new Set(left.map((line) => line[i + 1] ?? ''))];
      const [only] = may;
      const stays = isEdited(follower) || isFormula(now) || may.some((one) => same(one, now));
      const next = whole?.[i + 1] ?? (stays || may.length !== 1 || only === undefined ? now : only);
      left = left.filter((line) => same(line[i + 1] ?? '', next));
      if (isEdited(follower) || isFormula(now) || (!whole && next === now)) return [];
      const teller = whole ? (said ?? tellerOver(follower)) : `default: there is no other for ${plainText(first)}`;
      return changed(follower, next, { ...(follower.cell ?? { content: '' }), ...(teller === undefined ? {} : { source: teller }) });
    });
    return [...own, ...follow];
  });
}

function changed(at: At, content: string, rest: Cell): readonly Edit[] {
  const { typed: _, ...kept } = rest;
  const after = { ...kept, content };
  const before = at.cell ?? null;
  if (before && JSON.stringify(Object.entries(before).toSorted()) === JSON.stringify(Object.entries(after).toSorted())) return [];
  return [{ at: 'cell', table: at.table.id, row: at.row.id, column: at.column.id, before, after }];
}

/** Row ids with their places: rows stay the same objects while cells are written. */
const places = new WeakMap<Table['rows'], ReadonlyMap<string, number>>();

/** Where a cell's edit is; undefined in a look-up list, whose cells are no answers. */
export function placeOf(book: Book, edit: { readonly table: string; readonly row: string; readonly column: string }): At | undefined {
  const table = book.tables.find(({ id }) => id === edit.table);
  if (!table || table.form === 'list') return undefined;
  const known = places.get(table.rows) ?? new Map(table.rows.map(({ id }, i) => [id, i]));
  places.set(table.rows, known);
  return placeIn(
    table,
    table.columns.findIndex(({ id }) => id === edit.column),
    known.get(edit.row) ?? -1,
  );
}

/** Whether an edit touches answers that are picked together, or might be. */
export const touchesPicks = (book: Book, edits: readonly Edit[]): boolean =>
  edits.some((edit) => {
    const at = edit.at === 'cell' ? placeOf(book, edit) : undefined;
    return at !== undefined && sourceIn(book, at) !== undefined;
  });

/** What a change has left that does not go with its answers, and what would: sentences without their stops. `book` has the change in it. */
export function misfits(book: Book, { edits }: Change): readonly string[] {
  const told = edits.flatMap((edit) => {
    const at = edit.at === 'cell' && edit.after ? placeOf(book, edit) : undefined;
    if (!at) return [];
    // A follower is judged with the answer that it follows.
    return pickedTogether(book, at).flatMap((one) => misfit(book, one) ?? []);
  });
  return [...new Set(told)];
}

/** What does not go with what stands in the given, and what would: a sentence. */
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
