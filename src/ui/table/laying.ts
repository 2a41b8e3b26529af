/** Where the input of a table lies: over the chosen cell, with the slip, the tie to the margin and the handles beside it. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Column, Table } from '../../book/book.ts';
import type { Lies } from '../formula/index.ts';
import type { Spot } from './grid-moves.ts';

/** px that a slip may need. */
const SLIP_WIDTH = 345;
const SLIP_HEIGHT = 160;
/** px that it keeps from the page's edge. */
const EDGE = 6;

/** What is laid out. */
interface Laid extends ReactiveControllerHost {
  readonly root: HTMLElement;
  readonly table: Table;
  readonly spot: Spot;
  /** The chosen cell, where it is one of this table. */
  readonly chosenSpot: Spot | undefined;
  readonly pooling: { isLarge(table: Table): boolean; look(): void };
  readonly choosing: { layHandles(cell: DOMRect, frame: DOMRect, head: DOMRect | undefined, chosen: boolean): void };
  cellId(spot: Spot): string;
}

export class Laying implements ReactiveController {
  readonly #host: Laid;
  #later = 0;
  /** The chosen cell is to be brought into view when the input is laid over it. */
  #show = false;
  /** For which columns, in a window how wide (px), the least widths are that the headings have. */
  #kept: readonly [columns: readonly Column[], window: number] = [[], 0];

  constructor(host: Laid) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    window.addEventListener('resize', this.#resized);
  }

  hostDisconnected(): void {
    window.removeEventListener('resize', this.#resized);
  }

  /** Nothing is drawn anew when the window changes, but everything lies elsewhere. */
  #resized = (): void => this.nextFrame();

  /** Where the slip of a formula is to lie. */
  lies(): Lies | undefined {
    const { root } = this.#host;
    const [cell, under, frame] = ['.over', '.under', '.frame'].map((part) => root.querySelector(part)?.getBoundingClientRect());
    if (!cell || !under || !frame) return undefined;
    return {
      cell,
      under,
      frame,
      label: root.querySelector('tr.sel > th')?.getBoundingClientRect(),
      roof: root.closest('main')?.getBoundingClientRect().top ?? 0,
      read: [...root.querySelectorAll('.keyed')].map((each) => each.getBoundingClientRect()),
    };
  }

  /** Where things lie is asked once the page is laid out anyway: asking at once would have it laid out again for every turn. */
  nextFrame(show = false): void {
    this.#show ||= show;
    this.#later ||= requestAnimationFrame(() => {
      const shown = this.#show;
      this.#later = 0;
      this.#show = false;
      this.#lay(shown);
    });
  }

  /** Puts the input over the chosen cell, and that cell into view where it was just chosen. */
  #lay(show: boolean): void {
    const host = this.#host;
    const { root } = host;
    const over = root.querySelector<HTMLElement>('.over');
    const cell = root.querySelector<HTMLElement>(`#${host.cellId(host.spot)}`);
    if (!over || !cell) return;
    const box = cell.querySelector<HTMLElement>(':scope > div') ?? cell;
    const scroll = root.querySelector<HTMLElement>('.scroll');
    const under = root.querySelector<HTMLElement>('.under');
    const chosen = host.chosenSpot !== undefined;
    // First what scrolls, then what is asked, then what is set: each question after a setting would have the page laid out once more.
    if (show && chosen) {
      cell.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      host.pooling.look();
    }
    const frame = root.querySelector('.frame')?.getBoundingClientRect();
    if (!frame || !scroll || !under) return;
    const own = box.getBoundingClientRect();
    const whole = cell.getBoundingClientRect();
    const inside = scroll.getBoundingClientRect();
    const head = root.querySelector('thead')?.getBoundingClientRect();
    const aside = scroll.scrollLeft;
    const down = scroll.scrollTop;
    const widths = this.#growth();
    const more = hasMore(scroll);
    root.querySelector('.frame')?.classList.toggle('more', more);
    over.style.translate = `${own.left - inside.left + aside}px ${own.top - inside.top + down}px`;
    over.style.width = `${own.width}px`;
    over.style.height = `${own.height}px`;
    // What is written in a cell that was scrolled out of the frame stays at the edge over which it went.
    const left = Math.max(inside.left, Math.min(own.left, inside.right - own.width));
    const hangs = own.top >= inside.bottom ? inside.bottom - SLIP_HEIGHT : Math.max(own.bottom, inside.top + own.height);
    under.style.translate = `${left - frame.left}px ${hangs - frame.top}px`;
    under.style.width = `${own.width}px`;
    if (show && chosen) root.querySelector('.under > .slip')?.scrollIntoView({ block: 'nearest' });
    // A slip near the right edge begins further left, but never off the page.
    const room = Math.min(frame.right, document.documentElement.clientWidth) - left;
    under.style.setProperty('--aside', `${Math.max(EDGE - left, Math.min(0, room - SLIP_WIDTH))}px`);
    const tie = root.querySelector<HTMLElement>('.tie');
    if (tie) {
      tie.hidden = !chosen || host.table.form === 'list' || isOut(whole, frame);
      tie.style.left = `${own.right - frame.left}px`;
      tie.style.top = `${whole.bottom - frame.top}px`;
    }
    host.choosing.layHandles(whole, frame, head, chosen);
    for (const [th, width] of widths) th.style.minWidth = width;
    // Columns that are fitted anew have moved what was just laid over them.
    if (widths.some(([, width]) => width === '')) this.nextFrame();
  }

  /**
   * The headings of a list whose column is wider than it was, with its width. While a list is on the page its columns only grow: each that gave way
   * to a shorter value would have all the others move, and the whole list painted anew.
   */
  #growth(): [HTMLElement, string][] {
    const { table } = this.#host;
    if (table.form === 'scenarios' || this.#host.pooling.isLarge(table)) return [];
    const heads = [...this.#host.root.querySelectorAll<HTMLElement>('thead tr:first-child > th')];
    const [columns, wide] = this.#kept;
    if (columns !== table.columns || wide !== window.innerWidth) {
      this.#kept = [table.columns, window.innerWidth];
      return heads.flatMap((th): [HTMLElement, string][] => (th.style.minWidth === '' ? [] : [[th, '']]));
    }
    return heads.flatMap((th): [HTMLElement, string][] => {
      const width = th.getBoundingClientRect().width;
      return width > Number.parseFloat(th.style.minWidth || '0') ? [[th, `${width}px`]] : [];
    });
  }
}

/** Whether columns lie beyond the right edge: where no bar to scroll with is drawn, nothing else says so. */
export const hasMore = ({ scrollWidth, clientWidth, scrollLeft }: Element): boolean => scrollWidth - clientWidth - scrollLeft > 1;

/** Scrolled out over the upper or the lower edge. What hangs on it would make the page as long as the table. */
export const isOut = (cell: DOMRect, frame: DOMRect): boolean => cell.bottom < frame.top || cell.top > frame.bottom;
