/** Where one is in the open book: which page is shown, which cell is chosen, which block with it, and how one comes to others and back. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { type At, placeIn } from '../../book/address.ts';
import type { Area } from '../../book/area.ts';
import type { Book, Page } from '../../book/book.ts';
import { tableOfBlock } from '../../book/look-up.ts';
import type { Session } from '../../session.ts';
import { loadOwnPage, OWN_PAGES } from '../own-pages/index.ts';
import { type Place, samePlace, type Wishes } from '../parts/index.ts';
import { areaOf, placeAt } from '../table/index.ts';
import type { View } from './found.ts';

/** What is shown one's way. */
interface Shown extends ReactiveControllerHost {
  readonly session: Session | undefined;
  /** Another cell is chosen. */
  chose(): void;
  /** A page is turned to. */
  turned(): void;
}

interface Chosen {
  readonly book: Book | undefined;
  readonly chosen: Place | undefined;
  readonly anchor: Place | undefined;
  readonly at: At | undefined;
  readonly area: Area | undefined;
}

export class Whereabouts implements ReactiveController {
  readonly #host: Shown;
  pageId = '';
  chosen: Place | undefined;
  /** The word at which the glossary was opened; another object each time. */
  word: { readonly id: string } | undefined;
  /** The other corner of the chosen block. */
  anchor: Place | undefined;
  /** The piece of a page that was last in hand. */
  piece: string | undefined;
  #now: Chosen = { book: undefined, chosen: undefined, anchor: undefined, at: undefined, area: undefined };
  /** The cells from which others were followed. */
  #trail: readonly Place[] = [];
  /** The next cell that is chosen is the other corner of a block. */
  #choosingOn = false;

  constructor(host: Shown) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {}

  /** Takes up a book where it was left. */
  enter(view: View | undefined): void {
    this.pageId = view?.page ?? this.#host.session?.book.pages[0]?.id ?? '';
    this.chosen = view?.chosen;
    loadOwnPage(this.pageId);
  }

  leave(): void {
    this.chosen = undefined;
    this.#trail = [];
  }

  /** Where one is, to be kept. */
  get view(): View {
    return { page: this.pageId, ...(this.chosen ? { chosen: this.chosen } : {}) };
  }

  get #found(): Chosen {
    const { chosen, anchor } = this;
    const book = this.#host.session?.book;
    const was = this.#now;
    if (was.book !== book || was.chosen !== chosen || was.anchor !== anchor) {
      const at = was.book === book && was.chosen === chosen ? was.at : chosen && this.atPlace(chosen);
      this.#now = { book, chosen, anchor, at, area: at && areaOf(at.table, chosen, anchor) };
    }
    return this.#now;
  }

  /** The same object as long as it is the same cell in the same book, so that what shows it is not drawn again. */
  get at(): At | undefined {
    return this.#found.at;
  }

  get area(): Area | undefined {
    return this.#found.area;
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

  choose({ place, anchor, follow, focus }: Wishes['choose']): void {
    const from = this.#choosingOn && !anchor && this.chosen?.table === place.table ? (this.anchor ?? this.chosen) : anchor;
    this.#choosingOn = false;
    const other = samePlace(place, from) ? undefined : from;
    // The one that is chosen already may stand on another page.
    if (follow || focus) this.reveal(place);
    if (samePlace(place, this.chosen) && samePlace(other, this.anchor)) return;
    this.anchor = other;
    if (follow && this.chosen) this.#trail = [...this.#trail, this.chosen];
    this.chosen = place;
    this.#host.requestUpdate();
    this.#host.chose();
  }

  /** The next cell that is chosen is the other corner of a block. */
  chooseOn(): void {
    this.#choosingOn = true;
  }

  show(page: string, word?: string): void {
    this.pageId = page;
    this.word = word === undefined ? undefined : { id: word };
    loadOwnPage(page);
    this.#host.requestUpdate();
    this.#host.turned();
  }

  /** The book changed: where the chosen cell was taken away, the one is chosen that stands there now, and a page that is gone is not shown any longer. */
  stay(): void {
    const was = this.#now.at;
    const pages = [...(this.#host.session?.book.pages ?? []), ...OWN_PAGES];
    if (!pages.some((page) => page.id === this.pageId)) this.pageId = pages[0]?.id ?? '';
    if (!this.chosen || this.at) return;
    const table = was && this.#host.session?.book.tables.find((t) => t.id === was.table.id);
    this.anchor = undefined;
    this.chosen = table && placeAt(table, { row: Math.min(was.rowIndex, table.rows.length - 1), column: Math.min(was.columnIndex, table.columns.length - 1) });
  }

  /** Goes to the page on which a cell's table stands. */
  reveal(place: Place): void {
    const { book } = this.#host.session ?? {};
    const holds = (page: Page): boolean => page.blocks.some((b) => b.kind === 'table' && book && tableOfBlock(book, b.table)?.id === place.table);
    const pages = book?.pages ?? [];
    const here = pages.find((p) => p.id === this.pageId);
    if (here && holds(here)) return;
    const page = pages.find(holds);
    if (page) this.pageId = page.id;
    this.#host.requestUpdate();
  }

  get canReturn(): boolean {
    return this.#trail.length > 0;
  }

  goBack(): void {
    const place = this.#trail.at(-1);
    if (!place) return;
    this.#trail = this.#trail.slice(0, -1);
    this.choose({ place, focus: true });
  }
}
