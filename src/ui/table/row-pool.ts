/**
 * The rows of a large table that are on the page. One that comes into sight is written on the element of one that went, which stays where it is in
 * the document: an element that is moved is laid out from nothing. Once scrolling rests they are put in order, for whoever has the page read aloud.
 */
import { render } from 'lit';
import { whenIdle } from '../parts/part.ts';

/** A line of a grid: its place in it (from 1) and from the top (px), where not all of them are on the page. */
export interface Line {
  readonly looks: string;
  readonly nth?: number | undefined;
  readonly top?: number | undefined;
  readonly inside: unknown;
}

/** ms without another row, after which the rows are put in order. */
const REST = 150;

/** Rows that are given other columns in one frame, where these come into sight later: all of them at once take longer than a frame has. */
const AT_ONCE = 14;

export interface Drawing {
  /** Lines to draw, in order. */
  readonly lines: readonly number[];
  readonly columns: readonly number[];
  /** What a line with these columns is drawn from. The same function as before: what every line is drawn from is the same, too. */
  readonly readsOf: (at: number, columns: readonly number[]) => readonly unknown[];
  readonly line: (at: number) => Line;
  /** Whether all that is seen is among these columns. */
  readonly show: (columns: readonly number[]) => boolean;
}

interface Drawn {
  readonly element: HTMLTableRowElement;
  columns: readonly number[];
  readsOf?: Drawing['readsOf'];
  reads: readonly unknown[];
}

export class RowPool {
  #body: HTMLElement | undefined;
  /** By line, in order. */
  #rows = new Map<number, Drawn>();
  #resting: ReturnType<typeof setTimeout> | undefined;

  /** Draws lines. One that is read from the same as when it was drawn stays as it is. True where some are still to get other columns. */
  draw(body: HTMLElement, { lines, columns, readsOf, line, show }: Drawing): boolean {
    if (body !== this.#body) this.clear();
    this.#body = body;
    const wanted = new Set(lines);
    const before = this.#rows;
    const free = [...before].flatMap(([at, row]) => (wanted.has(at) ? [] : [row]));
    this.#rows = new Map();
    let others = false;
    let turned = 0;
    for (const at of lines) {
      const known = before.get(at);
      const row: Drawn = known ?? free.shift() ?? { element: body.appendChild(document.createElement('tr')), columns, reads: [] };
      this.#rows.set(at, row);
      others ||= !known;
      if (known && same(known, at, readsOf)) {
        row.readsOf = readsOf;
        if (row.columns === columns || (turned++ >= AT_ONCE && show(row.columns))) continue;
      }
      write(row.element, line(at));
      Object.assign(row, { columns, readsOf, reads: readsOf(at, columns) });
    }
    for (const { element } of free) element.remove();
    if (others) {
      clearTimeout(this.#resting);
      this.#resting = setTimeout(() => whenIdle(() => this.#order(), REST), REST);
    }
    return turned > AT_ONCE;
  }

  /** Puts the elements in the order of their lines. Scrolling leaves them in two runs, each in order: the shorter one is moved. */
  #order(): void {
    const elements = [...this.#rows.values()].map((row) => row.element);
    const first = elements[0];
    if (!first) return;
    const runBegins = [...(this.#body?.children ?? [])].indexOf(first);
    if (runBegins > elements.length / 2) {
      let next = this.#body?.firstElementChild;
      for (const element of elements)
        if (element === next) next = element.nextElementSibling;
        else next?.before(element);
    } else {
      let last = this.#body?.lastElementChild;
      for (const element of elements.toReversed())
        if (element === last) last = element.previousElementSibling;
        else last?.after(element);
    }
  }

  /** Takes all of them off the page. */
  clear(): void {
    clearTimeout(this.#resting);
    for (const { element } of this.#rows.values()) element.remove();
    this.#rows.clear();
    this.#body = undefined;
  }
}

const same = ({ columns, reads, readsOf }: Drawn, at: number, now: Drawing['readsOf']): boolean =>
  readsOf === now || now(at, columns).every((each, i) => each === reads[i]);

function write(element: HTMLTableRowElement, { looks, nth, top, inside }: Line): void {
  element.className = looks;
  element.role = 'row';
  if (nth !== undefined) element.ariaRowIndex = String(nth);
  element.style.top = top === undefined ? '' : `${top}px`;
  render(inside, element);
}
