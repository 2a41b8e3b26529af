/** Which rows of a table are in sight, and in what order they stand: the rows of a group that is put away make room for one line that says so. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Book, Row, Table } from '../../book/book.ts';
import type { TableValues } from '../../values.ts';
import { type Fold, foldsOf, openGroups, setOpen } from './folds.ts';
import type { Spot } from './grid-moves.ts';

/** Whose lines they are. */
interface Lined extends ReactiveControllerHost {
  readonly book: Book;
  readonly table: Table;
  readonly ownValues: TableValues;
  /** The chosen cell, where it is one of this table. */
  readonly chosenSpot: Spot | undefined;
  /** On paper every row stands. */
  readonly pooling: { readonly printing: boolean };
  /** Goes to another row where the one that was last worked on is put away. */
  leaveRows(rows: readonly number[], to: number): void;
}

export class Lines implements ReactiveController {
  readonly #host: Lined;
  #folds: readonly Fold[] = [];
  /** What the folds were found from. */
  #read: readonly unknown[] = [];
  /** Rows in sight, in order. */
  shown: readonly number[] = [];
  /** Counts up when a group is put away or taken out. */
  turned = 0;

  constructor(host: Lined) {
    this.#host = host;
    host.addController(this);
  }

  hostUpdate(): void {
    const { table, chosenSpot } = this.#host;
    const folds = this.#foldsNow();
    // A row that is chosen is never put away.
    const own = chosenSpot && folds.find((fold) => fold.rows.includes(chosenSpot.row));
    if (own) setOpen(this.#host.book.id, [own.id], true);
    const away = new Set(folds.filter((fold) => !this.isOpen(fold)).flatMap((fold) => fold.rows));
    const { all } = rowsOf(table.rows);
    this.shown = away.size === 0 ? all : all.filter((row) => !away.has(row));
  }

  /** Asked of every row and value, so only where one of them is other than before. */
  #foldsNow(): readonly Fold[] {
    const { table, ownValues, pooling } = this.#host;
    const read = [table, ownValues, pooling.printing];
    if (read.some((each, i) => each !== this.#read[i])) {
      this.#read = read;
      const { folds, short } = foldsOf(table, ownValues);
      this.#folds = pooling.printing ? [] : folds;
      // What stands open now stays so when it grows.
      setOpen(this.#host.book.id, short, true);
    }
    return this.#folds;
  }

  /** The row of headings, or -1. */
  get head(): number {
    return rowsOf(this.#host.table.rows).head;
  }

  /** Whether rows have labels. */
  get labelled(): boolean {
    return rowsOf(this.#host.table.rows).labelled;
  }

  /** What stands under the heading, in order: rows, and the lines of folds. */
  get body(): readonly (number | Fold)[] {
    const { all, body, head } = rowsOf(this.#host.table.rows);
    if (this.#folds.length === 0 && this.shown === all) return body;
    const lines: (number | Fold)[] = this.shown.filter((row) => row !== head);
    for (const fold of this.#folds) {
      const next = lines.findIndex((line) => typeof line === 'number' && line >= fold.before);
      lines.splice(next < 0 ? lines.length : next, 0, fold);
    }
    return lines;
  }

  /** Where a row stands among these lines, or -1. */
  placeOf(row: number, lines: readonly (number | Fold)[]): number {
    return lines === rowsOf(this.#host.table.rows).all ? row : lines.indexOf(row);
  }

  isOpen(fold: Fold): boolean {
    return openGroups(this.#host.book.id).has(fold.id);
  }

  turn(fold: Fold): void {
    const open = !this.isOpen(fold);
    setOpen(this.#host.book.id, [fold.id], open);
    if (!open) this.#host.leaveRows(fold.rows, this.shown.find((row) => !fold.rows.includes(row)) ?? 0);
    this.turned++;
    this.#host.requestUpdate();
  }
}

interface Rows {
  readonly all: readonly number[];
  /** Without the row of headings. */
  readonly body: readonly number[];
  /** The row of headings, or -1. */
  readonly head: number;
  readonly labelled: boolean;
}

/** Asked at every turn, and of tables with thousands of rows. */
const known = new WeakMap<readonly Row[], Rows>();

function rowsOf(rows: readonly Row[]): Rows {
  const found = known.get(rows);
  if (found) return found;
  const all = rows.map((_, row) => row);
  const head = rows.findIndex((row) => row.head);
  const made = { all, body: head < 0 ? all : all.filter((row) => row !== head), head, labelled: rows.some((row) => row.label) };
  known.set(rows, made);
  return made;
}
