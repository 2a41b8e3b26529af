/**
 * Cells put into a formula from the page: by a click, also on another page that is turned to, or by the arrows. Up and down begin at the cell that is being written; while a
 * reference is the one last put in, all arrows move it, and with Shift they make it a range.
 */
import { cellText, placeIn, tablePrefix } from '../../book/address.ts';
import type { Spot } from '../parts/index.ts';
import type { Found, Home } from './home.ts';
import { headingOf } from './letters.ts';

/** Where pages are turned to. */
export const PAGES = '.contents :is(ol, .contents-acts)';

/** What picking needs of the editor. */
export interface Picker {
  /** The table in which the formula is written. */
  readonly table: Home;
  readonly caret: number;
  /** A reference can stand where the caret is. */
  readonly takes: boolean;
  put(from: number, to: number, text: string): void;
  /** Another page is about to be turned to, for a cell of it. */
  turn(): void;
  cellAt(element: Element): Found | undefined;
}

interface Live {
  readonly table: Home;
  readonly from: number;
  readonly to: number;
  /** Where a range begins. */
  readonly anchor: Spot;
  readonly head: Spot;
}

export class Picking {
  readonly #picker: Picker;
  #live: Live | undefined;
  /** The pointer went down on a cell that was, or will be, picked. */
  #pressed = false;

  constructor(picker: Picker) {
    this.#picker = picker;
    for (const name of EVENTS) document.addEventListener(name, this.#point, true);
  }

  end(): void {
    for (const name of EVENTS) document.removeEventListener(name, this.#point, true);
  }

  /** What was written or where the caret went has nothing to do with the last pick. */
  drop(): void {
    this.#live = undefined;
  }

  get isLive(): boolean {
    return this.#live !== undefined;
  }

  /** What was picked last, for the ear. */
  get said(): string {
    const at = this.#live && placeIn(this.#live.table.table, this.#live.head.column, this.#live.head.row);
    return at ? `${headingOf(at, at)}, put in as ${this.#text(this.#live as Live)}.` : '';
  }

  /** True where the key was taken for picking. */
  press(key: string, extend: boolean): boolean {
    const live = this.#live;
    if (!live && (extend || !/Up|Down/.test(key) || !this.#picker.takes)) return false;
    const { table } = live ?? this.#picker;
    const next = table.stepFrom(live?.head ?? table.spot, key, false);
    if (next) this.#pick(table, next, extend);
    return true;
  }

  #pick(table: Home, head: Spot, extend: boolean): void {
    const live = this.#live;
    const anchor = extend && live?.table === table ? live.anchor : head;
    const [from, to] = live ? [live.from, live.to] : [this.#picker.caret, this.#picker.caret];
    const text = this.#text({ table, anchor, head });
    this.#picker.put(from, to, text);
    this.#live = { table, from, to: from + text.length, anchor, head };
    table.showSpot(head);
  }

  #text({ table, anchor, head }: Pick<Live, 'table' | 'anchor' | 'head'>): string {
    const prefix = table.table.id === this.#picker.table.table.id ? '' : tablePrefix(table.table.name);
    const first = cellText(Math.min(anchor.column, head.column), Math.min(anchor.row, head.row));
    const last = cellText(Math.max(anchor.column, head.column), Math.max(anchor.row, head.row));
    return first === last ? `${prefix}${first}` : `${prefix}${first}:${last}`;
  }

  /** A mouse picks as it goes down; a finger may only be scrolling, so it picks when it has tapped. */
  #point = (event: Event): void => {
    const { target } = event as PointerEvent & { target: Element };
    const cell = this.#picker.cellAt(target);
    if (event.type === 'pointerdown' && target.closest(`${PAGES} button`) && (this.isLive || this.#picker.takes)) this.#picker.turn();
    const touch = 'pointerType' in event && event.pointerType === 'touch';
    if (event.type === 'pointerdown') this.#pressed = cell !== undefined && (this.isLive || this.#picker.takes);
    if (!this.#pressed || !cell) return;
    event.stopPropagation();
    // The focus stays in the editor.
    if (event.type !== 'pointerdown' || !touch) event.preventDefault();
    if (event.type !== (touch ? 'click' : 'pointerdown')) return;
    this.#pick(cell.home, cell.spot, (event as PointerEvent).shiftKey);
  };
}

const EVENTS = ['pointerdown', 'mousedown', 'click', 'dblclick'];
