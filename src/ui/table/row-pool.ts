/**
 * The rows of a large table that are on the page. One that comes into sight is written on the element of one that went, which stays where it is in
 * the document: an element that is moved is laid out from nothing. Once scrolling rests they are put in order, for whoever has the page read aloud.
 */
import { render } from 'lit';
import { whenIdle } from '../parts/index.ts';
import { insideOf, looksOf, type Turn } from './row-templates.ts';
import type { LineModel } from './rows.ts';

/** ms without another row, after which the rows are put in order. */
const REST = 150;

/** Rows that are given other columns in one frame, where these come into sight later: all of them at once take longer than a frame has. */
const AT_ONCE = 14;

/** What a line is drawn from, with these columns. The same function as before: no line is drawn from anything else. */
export type Models = (line: number, columns: readonly number[], before: LineModel | undefined) => LineModel;

export interface Viewport {
  /** Lines to draw, in order. */
  readonly lines: readonly number[];
  readonly columns: readonly number[];
  /** Whether all that is seen is among these columns. */
  readonly show: (columns: readonly number[]) => boolean;
}

interface Drawn {
  readonly element: HTMLTableRowElement;
  columns: readonly number[];
  models?: Models;
  model?: LineModel;
}

export class RowPool {
  readonly #turn: Turn;
  #body: HTMLElement | undefined;
  /** By line, in order. */
  #rows = new Map<number, Drawn>();
  #resting: ReturnType<typeof setTimeout> | undefined;

  constructor(turn: Turn) {
    this.#turn = turn;
  }

  /** Draws lines. One whose data say the same as when it was drawn stays as it is. True where some are still to get other columns. */
  draw(body: HTMLElement, models: Models, { lines, columns, show }: Viewport): boolean {
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
      const row: Drawn = known ?? free.shift() ?? { element: body.appendChild(document.createElement('tr')), columns };
      this.#rows.set(at, row);
      others ||= !known;
      if (known && same(known, at, models)) {
        row.models = models;
        if (row.columns === columns || (turned++ >= AT_ONCE && show(row.columns))) continue;
      }
      const model = models(at, columns, known?.model);
      this.#write(row.element, model);
      Object.assign(row, { columns, models, model });
    }
    for (const { element } of free) element.remove();
    if (others) {
      clearTimeout(this.#resting);
      this.#resting = setTimeout(() => whenIdle(() => this.#order(), REST), REST);
    }
    return turned > AT_ONCE;
  }

  #write(element: HTMLTableRowElement, line: LineModel): void {
    element.className = looksOf(line);
    element.role = 'row';
    if (line.lies) element.ariaRowIndex = String(line.lies.nth);
    element.style.top = line.lies ? `${line.lies.top}px` : '';
    render(insideOf(line, this.#turn), element);
  }

  /** What its rows were drawn from. */
  get drawn(): readonly LineModel[] {
    return [...this.#rows.values()].flatMap(({ model }) => (model ? [model] : []));
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

/** With the columns that it has, a line says what it said. */
const same = (row: Drawn, at: number, models: Models): boolean =>
  row.models === models || (row.model !== undefined && models(at, row.columns, row.model) === row.model);
