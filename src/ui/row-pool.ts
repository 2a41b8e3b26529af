/**
 * The rows of a large table that are on the page. One that comes into sight is written on the element of one that went, and put where it belongs
 * among the others: what stays in sight is neither moved nor drawn again.
 */
import { render } from 'lit';

/** A line of a grid: its place in it (from 1) and from the top (px), where not all of them are on the page. */
export interface Line {
  readonly looks: string;
  readonly nth?: number | undefined;
  readonly top?: number | undefined;
  readonly inside: unknown;
}

interface Drawn {
  readonly element: HTMLTableRowElement;
  /** What it was drawn from. */
  reads: readonly unknown[];
}

export class RowPool {
  #body: HTMLElement | undefined;
  #rows = new Map<number, Drawn>();

  /** Draws these lines, which are in order. One whose `reads` are the same as when it was drawn stays as it is. */
  draw(body: HTMLElement, lines: readonly number[], reads: readonly unknown[], line: (at: number) => Line): void {
    if (body !== this.#body) this.clear();
    this.#body = body;
    const wanted = new Set(lines);
    const before = this.#rows;
    const free = [...before].flatMap(([at, row]) => (wanted.has(at) ? [] : [row]));
    this.#rows = new Map();
    let next: HTMLTableRowElement | null = null;
    for (const at of lines.toReversed()) {
      const known = before.get(at);
      const row: Drawn = known ?? free.pop() ?? { element: document.createElement('tr'), reads: [] };
      if (!known || reads.some((each, i) => each !== row.reads[i])) write(row.element, line(at));
      if (!known) body.insertBefore(row.element, next);
      row.reads = reads;
      this.#rows.set(at, row);
      next = row.element;
    }
    for (const { element } of free) element.remove();
  }

  /** Takes all of them off the page. */
  clear(): void {
    for (const { element } of this.#rows.values()) element.remove();
    this.#rows.clear();
    this.#body = undefined;
  }
}

function write(element: HTMLTableRowElement, { looks, nth, top, inside }: Line): void {
  element.className = looks;
  element.role = 'row';
  if (nth !== undefined) element.ariaRowIndex = String(nth);
  element.style.top = top === undefined ? '' : `${top}px`;
  render(inside, element);
}
