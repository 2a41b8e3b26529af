/**
 * A large table draws only the rows and columns in and near what is seen of it, and the chosen ones; the rest is room of the same size.
 * It scrolls in a frame of its own, and all its rows have one height and its columns set widths, so that where a cell lies is reckoned, not measured.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Table } from '../../book/book.ts';

/** Rows from which a table is drawn in part. */
const LARGE = 200;
/** Rows drawn above and below what is seen, and columns on either side. */
const ROWS_MORE = 6;
const COLUMNS_MORE = 1;
/** Columns out of sight that may stay drawn. */
const COLUMNS_LEFT = 4;
/** px. Text needs more than numbers, and the first column says what a row is about. */
const COLUMN_WIDTH = 112;
const FIRST_WIDTH = 180;
/** A number with its unit and its difference. */
const SCENARIO_WIDTH = 190;
/** What is printed of a large table: more would keep the browser busy for minutes. */
const PRINTED_CELLS = 40_000;

/** What is drawn in part. */
interface Framed extends ReactiveControllerHost {
  /** What it lies in. */
  readonly root: HTMLElement;
  readonly hasUpdated: boolean;
  readonly isUpdatePending: boolean;
}

export class Pooling implements ReactiveController {
  readonly #host: Framed;
  readonly #drawRows: () => void;
  #top = 0;
  #left = 0;
  #height = 900;
  #width = 1200;
  /** px of a row: the style sheet says it, and more to a finger. */
  rowHeight = 24;
  /** What is seen across, in words that differ where other columns are drawn; and down. */
  seen = '';
  #rows = '';
  #edges: readonly number[] = [0];
  /** The columns that are drawn, from the first to before the second. */
  #drawn: readonly [number, number] = [0, 0];
  /** On paper every row stands. */
  printing = false;
  #sized: ResizeObserver | undefined;

  /** `drawRows` is called where only other rows are in sight than before: the table itself is as it was. */
  constructor(host: Framed, drawRows: () => void) {
    this.#host = host;
    this.#drawRows = drawRows;
    host.addController(this);
  }

  hostConnected(): void {
    this.#sized = new ResizeObserver(() => {
      this.rowHeight = Number.parseFloat(getComputedStyle(this.#host.root).getPropertyValue('--row')) || 24;
      this.look();
    });
    this.#sized.observe(this.#host.root);
    addEventListener('beforeprint', this.#print);
    addEventListener('afterprint', this.#print);
  }

  hostDisconnected(): void {
    this.#sized?.disconnect();
    removeEventListener('beforeprint', this.#print);
    removeEventListener('afterprint', this.#print);
  }

  #print = (event: Event): void => {
    this.printing = event.type === 'beforeprint';
    this.#host.requestUpdate();
  };

  isLarge(table: Table): boolean {
    return !this.printing && table.form !== 'brief' && table.rows.length > LARGE;
  }

  /** How many rows of a large table come on paper. */
  printed(table: Table): number {
    return Math.min(table.rows.length, Math.ceil(PRINTED_CELLS / Math.max(table.columns.length, 1)));
  }

  /** Takes note of what is seen now, and has it drawn where that is other than before. */
  look(): void {
    const scroll = this.#host.root.querySelector<HTMLElement>('.large > .scroll');
    if (!scroll) return;
    [this.#top, this.#left, this.#height, this.#width] = [scroll.scrollTop, scroll.scrollLeft, scroll.clientHeight, scroll.clientWidth];
    const row = this.rowHeight;
    const seen = [...this.columns(this.#edges, -1), row].join();
    const rows = [this.#top / row, this.#height / row].map(Math.floor).join();
    if (seen === this.seen && rows === this.#rows) return;
    if (seen === this.seen && this.#host.hasUpdated && !this.#host.isUpdatePending) this.#drawRows();
    else this.#host.requestUpdate();
    this.seen = seen;
    this.#rows = rows;
  }

  /** The lines to draw of so many, in order; that of the chosen cell is among them wherever it is. */
  rows(count: number, chosen: number): readonly number[] {
    const row = this.rowHeight;
    const from = Math.max(0, Math.floor(this.#top / row) - ROWS_MORE);
    const to = Math.min(count, Math.ceil((this.#top + this.#height) / row) + ROWS_MORE);
    return drawn(count, Math.min(from, count), to, [chosen]);
  }

  /** Where each column begins, and at the end where the last one ends. */
  edges(table: Table, labelled: boolean): readonly number[] {
    const edges = [labelled ? FIRST_WIDTH : 0];
    const usual = table.form === 'scenarios' ? SCENARIO_WIDTH : COLUMN_WIDTH;
    for (const [i, column] of table.columns.entries()) edges.push((edges[i] ?? 0) + (column.width ?? (i === 0 && !labelled ? FIRST_WIDTH : usual)));
    this.#edges = edges;
    return edges;
  }

  /**
   * The columns to draw. The first stays: a row is known by it. The others stay until one at their edge comes into sight: then those of both edges
   * change in one go, while there is still time to draw them.
   */
  columns(edges: readonly number[], chosen: number): readonly number[] {
    const count = edges.length - 1;
    const [from, to] = this.#inSight(edges);
    const [first, end] = this.#drawn;
    const ahead = (first < from || first === 0) && (end > to || end === count);
    if (!ahead || end > count || end - first > to - from + COLUMNS_LEFT) this.#drawn = [Math.max(0, from - COLUMNS_MORE), Math.min(count, to + COLUMNS_MORE)];
    return drawn(count, ...this.#drawn, [0, chosen]);
  }

  /** Whether all columns in sight are among these. */
  show(columns: readonly number[]): boolean {
    const [from, to] = this.#inSight(this.#edges);
    return columns.filter((column) => column >= from && column < to).length === to - from;
  }

  #inSight(edges: readonly number[]): readonly [number, number] {
    const beyond = edges.findIndex((edge) => edge >= this.#left + this.#width);
    return [Math.max(0, edges.findIndex((edge) => edge > this.#left) - 1), beyond < 0 ? edges.length - 1 : beyond];
  }
}

function drawn(count: number, from: number, to: number, also: readonly number[]): readonly number[] {
  const all = Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
  for (const at of new Set(also)) if (at >= 0 && at < count && (at < from || at >= to)) all.push(at);
  return all.sort((a, b) => a - b);
}
