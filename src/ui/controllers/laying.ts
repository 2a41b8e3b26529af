/** Where the input of a table lies: over the chosen cell, with the slip, the tie to the margin and the handles beside it. */
import type { ObTable } from '../table.ts';

/** px that a slip may need. */
const SLIP_WIDTH = 345;
/** px that it keeps from the page's edge. */
const EDGE = 6;

export class Laying {
  readonly #host: ObTable;
  #later = 0;
  /** The chosen cell is to be brought into view when the input is laid over it. */
  #show = false;

  constructor(host: ObTable) {
    this.#host = host;
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
    const over = host.querySelector<HTMLElement>('.over');
    const cell = host.querySelector<HTMLElement>(`#${host.cellId(host.spot)}`);
    if (!over || !cell) return;
    const box = cell.querySelector<HTMLElement>(':scope > div') ?? cell;
    const scroll = host.querySelector<HTMLElement>('.scroll');
    const under = host.querySelector<HTMLElement>('.under');
    const chosen = host.chosenSpot !== undefined;
    // First what scrolls, then what is asked, then what is set: each question after a setting would have the page laid out once more.
    if (show && chosen) {
      cell.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      host.pooling.look();
    }
    const frame = host.querySelector('.frame')?.getBoundingClientRect();
    if (!frame || !scroll || !under) return;
    const own = box.getBoundingClientRect();
    const whole = cell.getBoundingClientRect();
    const inside = scroll.getBoundingClientRect();
    const head = host.querySelector('thead')?.getBoundingClientRect();
    const aside = scroll.scrollLeft;
    const down = scroll.scrollTop;
    over.style.translate = `${own.left - inside.left + aside}px ${own.top - inside.top + down}px`;
    over.style.width = `${own.width}px`;
    over.style.height = `${own.height}px`;
    under.style.translate = `${own.left - frame.left}px ${own.bottom - frame.top}px`;
    under.style.width = `${own.width}px`;
    // A slip near the right edge begins further left, but never off the page.
    const room = Math.min(frame.right, document.documentElement.clientWidth) - own.left;
    under.style.setProperty('--aside', `${Math.max(EDGE - own.left, Math.min(0, room - SLIP_WIDTH))}px`);
    const tie = host.querySelector<HTMLElement>('.tie');
    if (tie) {
      tie.hidden = !chosen || host.table.form === 'list';
      tie.style.left = `${own.right - frame.left}px`;
      tie.style.top = `${whole.bottom - frame.top}px`;
    }
    host.choosing.layHandles(whole, frame, head, chosen);
  }
}
