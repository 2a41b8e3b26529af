/** Choosing a block of cells in a table, by keys and by pointer; what goes out and comes in through the clipboard; the handles of the chosen row and column. */
import { html, type ReactiveController, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { At } from '../../book/address.ts';
import { type Area, placesOf } from '../../book/area.ts';
import type { Book, Table } from '../../book/book.ts';
import { isLocked, lockedProblem } from '../../book/locked.ts';
import { titleOf } from '../../book/look-up.ts';
import type { Values } from '../../engine/types.ts';
import { type Place, readSpot, type Wishes } from '../parts/index.ts';
import { copyOut, cutFrom, giveUpCut } from './clipboard.ts';
import type { Spot } from './grid-moves.ts';
import { isOut } from './laying.ts';
import { areaOf, isBlock, isIn, whole } from './selection.ts';
import { drawTables } from './tables.ts';

/** Where cells are chosen. */
interface Chosen extends ReactiveControllerHost {
  readonly book: Book;
  readonly table: Table;
  readonly values: Values;
  readonly chosen: Place | undefined;
  readonly anchor: Place | undefined;
  /** The cell that has, or would have, the focus. */
  readonly at: At | undefined;
  readonly spot: Spot;
  /** The column's heading, for whoever names an action on it. */
  readonly columnName: string;
  readonly writing: { readonly isOpen: boolean };
  readonly root: ParentNode;
  placeAt(spot: Spot): Place;
  choose(spot: Spot, anchor?: Place): void;
  take(): void;
  say<K extends 'menu' | 'paste' | 'tell'>(name: K, detail: Wishes[K]): void;
}

export class Choosing implements ReactiveController {
  readonly #host: Chosen;
  /** The chosen cell, or the chosen block. */
  area: Area | undefined;
  /** Cells of this table that were cut and wait to be pasted. */
  taken: Area | undefined;
  /** Where the pointer was put down to draw a block. */
  #dragged: Place | undefined;

  constructor(host: Chosen) {
    this.#host = host;
    host.addController(this);
  }

  hostUpdate(): void {
    const { table, chosen, anchor } = this.#host;
    this.area = areaOf(table, chosen, anchor);
    const cut = cutFrom(this.#host.book);
    const here = cut?.table === table.id ? cut : undefined;
    // The same object as long as it is the same cells, so that the table is not drawn again.
    if (JSON.stringify(here) !== JSON.stringify(this.taken)) this.taken = here;
  }

  /** One of several chosen cells. */
  has(spot: Spot): boolean {
    return isBlock(this.area) && isIn(this.area, spot);
  }

  /** The other corner of the block that goes on from here. */
  get anchor(): Place {
    const { anchor, table, spot } = this.#host;
    return anchor?.table === table.id ? anchor : this.#host.placeAt(spot);
  }

  /** Shift Space: the row. Control Space: the column. Control A: the table. The menu key: what can be done. True where the key was taken. */
  press(event: KeyboardEvent, control: boolean): boolean {
    const { key, shiftKey } = event;
    const what = key === ' ' && shiftKey ? 'row' : key === ' ' && control ? 'column' : key.toLowerCase() === 'a' && control ? 'table' : undefined;
    if (what) this.#chooseWhole(what);
    else if (key === 'Escape' && giveUpCut(this.#host.book)) {
      // Another table may have been marked before.
      drawTables();
      this.#host.say('tell', { text: 'What was cut stays where it is.' });
    } else if (key === 'ContextMenu' || (key === 'F10' && shiftKey)) this.#host.say('menu', { what: 'row' });
    else return false;
    return true;
  }

  #chooseWhole(what: 'row' | 'column' | 'table'): void {
    const { table, spot } = this.#host;
    const { near, far } = whole(what, table, this.area ?? { table: table.id, ...spot, rows: 1, columns: 1 });
    this.#host.choose(near, this.#host.placeAt(far));
  }

  /** The pointer went down on a cell: with Shift the block goes on to it. A block is drawn with the mouse; a finger scrolls. */
  begin(event: PointerEvent, spot: Spot): void {
    this.#dragged = event.pointerType === 'touch' ? undefined : this.#host.placeAt(spot);
    this.#host.choose(spot, event.shiftKey ? this.anchor : undefined);
  }

  readonly drag = (event: PointerEvent): void => {
    if (!this.#dragged || event.buttons !== 1) return;
    const cell = (event.target as HTMLElement).closest<HTMLElement>('[data-spot]');
    const to = cell && readSpot(cell.dataset.spot ?? '');
    const { spot } = this.#host;
    if (!to || (to.row === spot.row && to.column === spot.column)) return;
    this.#host.choose(to, this.#dragged);
  };

  readonly copy = (event: ClipboardEvent): void => {
    const { writing, book, values } = this.#host;
    if (writing.isOpen || !this.area || !event.clipboardData) return;
    event.preventDefault();
    copyOut(event.clipboardData, book, values, this.area);
    // Another table may have been marked before.
    drawTables();
  };

  /** The chosen cells are moved to where they are pasted. Worked ones stay, as they do where cells are cleared. */
  readonly cut = (event: ClipboardEvent): void => {
    const { writing, book, values } = this.#host;
    if (writing.isOpen || !this.area || !event.clipboardData) return;
    event.preventDefault();
    const places = (placesOf(book, this.area)?.lines ?? []).flat().filter((at) => at.cell && at.cell.content !== '');
    const locked = places.find(isLocked);
    if (locked || places.length === 0) {
      this.#host.say('tell', { text: `${(locked && lockedProblem(locked, '')) ?? 'There is nothing in what is chosen.'} Nothing was cut.` });
      return;
    }
    copyOut(event.clipboardData, book, values, this.area, true);
    // Another table may have been marked before.
    drawTables();
    const [it, goes] = places.length === 1 ? [titleOf(places[0] as At), 'goes'] : [`${places.length} cells`, 'go'];
    this.#host.say('tell', { text: `Cut: ${it} ${goes} to where you paste. Until then nothing changes.` });
  };

  readonly paste = (event: ClipboardEvent): void => {
    const copied = event.clipboardData;
    if (this.#host.writing.isOpen || !copied) return;
    event.preventDefault();
    this.#host.say('paste', { text: copied.getData('text/plain'), html: copied.getData('text/html') });
  };

  /** Opens what can be done with the chosen row or column. Keys have the list of commands and Shift F10. */
  handle(what: 'row' | 'column'): TemplateResult {
    const { at, columnName } = this.#host;
    const name = `What can be done with ${at ? (what === 'row' ? `the row ${at.row.label ?? at.rowIndex + 1}` : `the column ${columnName}`) : `the ${what}`}`;
    return html`<button type="button" class="handle of-${what}" tabindex="-1" hidden aria-haspopup="dialog" aria-label=${name} @click=${() => {
      // What opens gives the focus back to where it was: to the cell.
      this.#host.take();
      this.#host.say('menu', { what });
    }}><span aria-hidden="true">${what === 'row' ? '⋮' : '⋯'}</span></button>`;
  }

  /** The handles stand at the chosen row's beginning and at the upper edge of the chosen column's heading. */
  layHandles(cell: DOMRect, frame: DOMRect, head: DOMRect | undefined, chosen: boolean): void {
    for (const handle of this.#host.root.querySelectorAll<HTMLElement>('.handle')) {
      const ofRow = handle.classList.contains('of-row');
      handle.hidden = !chosen || (ofRow ? isOut(cell, frame) : !head || cell.right < frame.left || cell.right > frame.right + 2);
      handle.style.top = `${ofRow ? cell.top + cell.height / 2 - frame.top : head ? head.top - frame.top : 0}px`;
      if (!ofRow) handle.style.left = `${cell.right - frame.left}px`;
    }
  }
}
