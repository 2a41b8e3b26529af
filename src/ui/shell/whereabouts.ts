/** Which cell is chosen, which block with it, and how one comes to other cells and back. */
import { type At, placeIn } from '../../book/address.ts';
import type { Area } from '../../book/area.ts';
import type { Book, Page } from '../../book/book.ts';
import { tableOfBlock } from '../../book/look-up.ts';
import type { Session } from '../../session.ts';
import { type Place, samePlace, type Wishes } from '../parts/part.ts';
import { areaOf, placeAt } from '../table/selection.ts';

/** What is chosen and shown on the page. */
interface Shown {
  readonly session: Session | undefined;
  pageId: string;
  chosen: Place | undefined;
  anchor: Place | undefined;
  choose(wish: Wishes['choose']): void;
}

export class Whereabouts {
  readonly #host: Shown;
  #place: { readonly book: Book | undefined; readonly chosen: Place | undefined; readonly at: At | undefined } = {
    book: undefined,
    chosen: undefined,
    at: undefined,
  };
  /** The cells from which others were followed. */
  #trail: readonly Place[] = [];
  /** The next cell that is chosen is the other corner of a block. */
  #choosingOn = false;

  constructor(host: Shown) {
    this.#host = host;
  }

  forget(): void {
    this.#trail = [];
  }

  /** The same object as long as it is the same cell in the same book, so that what shows it is not drawn again. */
  get at(): At | undefined {
    const { chosen, session } = this.#host;
    const book = session?.book;
    if (this.#place.book !== book || this.#place.chosen !== chosen) this.#place = { book, chosen, at: chosen && this.atPlace(chosen) };
    return this.#place.at;
  }

  get area(): Area | undefined {
    const table = this.at?.table;
    return table && areaOf(table, this.#host.chosen, this.#host.anchor);
  }

  atPlace(place: Place): At | undefined {
    const table = this.#host.session?.book.tables.find((t) => t.id === place.table);
    return (
      table &&
      placeIn(
        table,
        table.columns.findIndex((c) => c.id === place.column),
        table.rows.findIndex((r) => r.id === place.row),
      )
    );
  }

  /** False where the same is chosen as before. */
  choose({ place, anchor, follow, focus }: Wishes['choose']): boolean {
    const host = this.#host;
    const from = this.#choosingOn && !anchor && host.chosen?.table === place.table ? (host.anchor ?? host.chosen) : anchor;
    this.#choosingOn = false;
    const other = samePlace(place, from) ? undefined : from;
    if (samePlace(place, host.chosen) && samePlace(other, host.anchor)) return false;
    host.anchor = other;
    if (follow && host.chosen) this.#trail = [...this.#trail, host.chosen];
    host.chosen = place;
    if (follow || focus) this.reveal(place);
    return true;
  }

  /** Where the chosen cell was taken away, the one is chosen that stands there now. */
  stayNear(): void {
    const host = this.#host;
    const was = this.#place.at;
    if (!host.chosen || this.at) return;
    const table = was && host.session?.book.tables.find((t) => t.id === was.table.id);
    host.anchor = undefined;
    host.chosen = table && placeAt(table, { row: Math.min(was.rowIndex, table.rows.length - 1), column: Math.min(was.columnIndex, table.columns.length - 1) });
  }

  /** Goes to the page on which a cell's table stands. */
  reveal(place: Place): void {
    const holds = (page: Page): boolean =>
      page.blocks.some((b) => b.kind === 'table' && this.#host.session && tableOfBlock(this.#host.session.book, b.table)?.id === place.table);
    const pages = this.#host.session?.book.pages ?? [];
    const here = pages.find((p) => p.id === this.#host.pageId);
    if (here && holds(here)) return;
    const page = pages.find(holds);
    if (page) this.#host.pageId = page.id;
  }

  /** The next cell that is chosen is the other corner of a block. */
  chooseOn(): void {
    this.#choosingOn = true;
  }

  get canReturn(): boolean {
    return this.#trail.length > 0;
  }

  goBack(): void {
    const place = this.#trail.at(-1);
    if (!place) return;
    this.#trail = this.#trail.slice(0, -1);
    this.#host.choose({ place, focus: true });
  }
}
