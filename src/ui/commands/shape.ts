/** What is chosen in a table, as far as the commands that reshape it ask. */
import type { At } from '../../book/address.ts';
import { type Area, placesOf } from '../../book/area.ts';
import type { Book, Table } from '../../book/book.ts';
import { isFormula } from '../../book/content.ts';
import { isLocked } from '../../book/locked.ts';
import { namesOf, standingOf } from '../../book/look-up.ts';
import { cellsChosen, type PageState } from './command.ts';

export interface Shape {
  readonly form: Table['form'];
  readonly row: number;
  readonly rows: number;
  readonly allRows: number;
  /** The headings of a list are among the chosen rows. */
  readonly head: boolean;
  readonly column: number;
  readonly columns: number;
  readonly allColumns: number;
  readonly locked: number;
  /** Worked cells that may be written over. */
  readonly unlocked: number;
  /** The names of the chosen cell. */
  readonly names: readonly string[];
}

/** Reckoned once for all commands that ask. */
const known = new WeakMap<Area, { readonly book: Book; readonly shape: Shape }>();

export function shapeIn(state: PageState): Shape | undefined {
  if (!cellsChosen(state)) return undefined;
  const { book, at, area } = state;
  const found = known.get(area);
  if (found?.book === book) return found.shape;
  const shape = shapeOf(book, at, area);
  known.set(area, { book, shape });
  return shape;
}

function shapeOf(book: Book, at: At, area: Area): Shape {
  let locked = 0;
  let unlocked = 0;
  for (const each of (placesOf(book, area)?.lines ?? []).flat()) {
    if (isLocked(each)) locked++;
    else if (isFormula(each.cell?.content ?? '') && standingOf(each) === 'worked') unlocked++;
  }
  const { row, rows, column, columns } = area;
  return {
    form: at.table.form,
    row,
    rows,
    allRows: at.table.rows.length,
    head: at.table.rows.slice(row, row + rows).some((each) => each.head),
    column,
    columns,
    allColumns: at.table.columns.length,
    locked,
    unlocked,
    names: namesOf(book, at),
  };
}
