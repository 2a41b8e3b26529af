/** The layouts that a search found, to be looked through: what is asked for of them, a picture, a list to pick from, and the picked one in full. */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Table } from '../../book/book.ts';
import type { Layout, Looked, Proposal } from '../../engine/proposing/index.ts';
import { Part } from '../parts/index.ts';
import { ANY, inWords, listed, ORDERS, type Order, type Sorting, sameLayout, type Units, type Wanted } from './layouts-shown.ts';
import { layoutList, layoutPicture, type Picked } from './layouts-view.ts';
import { inFull, letterOf } from './proposals-view.ts';

/** A layout that goes into a scenario, by its place from 0. */
export interface Taken {
  readonly layout: Layout;
  readonly cells: Looked['cells'];
  readonly column: number;
}

/** Rows of the list to begin with, and as many again whenever more are asked for. */
const SHOWN = 40;
/** Scenarios that a layout may be taken for: there are three at least, the others where the book has them. */
const LEAST = 3;
const MOST = 6;
/** px from which the picture stands beside the list, what parts them, and its share of the room. */
const WIDE = 820;
const GAP = 20;
const SHARE = 9 / 20;

export class ObFoundLayouts extends Part {
  static override properties = {
    found: { attribute: false },
    proposals: { attribute: false },
    table: { attribute: false },
    units: { attribute: false },
    look: { attribute: false },
    take: { attribute: false },
    picked: { state: true },
    looked: { state: true },
    wrong: { state: true },
    wanted: { state: true },
    sorting: { state: true },
    shown: { state: true },
    width: { state: true },
  };
  declare found: readonly Layout[];
  /** The best of each kind, once they are known. */
  declare proposals: readonly Proposal[];
  declare table: Table | undefined;
  declare units: Units;
  declare look: (layout: Layout) => Promise<Looked>;
  declare take: (taken: Taken) => void;
  declare picked: Layout | undefined;
  /** The picked one in full, once it is worked out. */
  declare looked: Looked | undefined;
  declare wrong: string;
  declare wanted: Wanted;
  declare sorting: Sorting;
  declare shown: number;
  declare width: number;

  readonly #sized = new ResizeObserver(([entry]) => {
    this.width = Math.floor(entry?.contentRect.width ?? 0);
  });
  /** Those that are asked for, sorted: kept until another of what they hang on comes. */
  #listed: readonly Layout[] = [];

  constructor() {
    super();
    this.wrong = '';
    this.wanted = ANY;
    this.sorting = { by: 'cost', turned: false };
    this.shown = SHOWN;
    this.width = 0;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#sized.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#sized.disconnect();
  }

  override willUpdate(changed: PropertyValues<this>): void {
    const another = changed.has('found') || changed.has('proposals') || changed.has('wanted') || changed.has('sorting');
    if (another) this.#listed = listed(this.#all, this.units, this.wanted, this.sorting);
  }

  /** A proposal hangs by a finer step than those that were tried first. */
  get #all(): readonly Layout[] {
    const finer = this.proposals.map(({ layout }) => layout).filter((layout, i, all) => all.findIndex((one) => sameLayout(one, layout)) === i);
    return [...finer.filter((layout) => !this.found.some((one) => one.place === layout.place && sameLayout(one, layout))), ...this.found];
  }

  async #pick(layout: Layout): Promise<void> {
    this.picked = layout;
    this.looked = undefined;
    this.wrong = '';
    try {
      const looked = await this.look(layout);
      if (this.picked === layout) this.looked = looked;
    } catch (error) {
      if (this.picked === layout) this.wrong = error instanceof Error ? error.message : String(error);
    }
  }

  #want(more: Partial<Wanted>): void {
    this.wanted = { ...this.wanted, ...more };
    this.shown = SHOWN;
  }

  override render(): TemplateResult {
    const { picked, sorting, shown, units, width } = this;
    const list: Picked = {
      ...{ layouts: this.#listed, shown, picked, sorting, units },
      named: this.proposals.map(({ aim, layout }) => [aim, layout]),
      pick: (layout) => void this.#pick(layout),
      sort: (by) => {
        this.sorting = { by, turned: sorting.by === by && !sorting.turned };
      },
      more: () => {
        this.shown += SHOWN;
      },
    };
    return html`${this.#sieve()}
      ${layoutPicture(list, width > WIDE ? Math.floor((width - GAP) * SHARE) : width)}
      ${layoutList(list)}
      ${picked ? this.#picked(picked) : html`<p class="hint one">Pick a layout, in the list or in the picture, to read about it and to take it.</p>`}`;
  }

  #sieve(): TemplateResult {
    const { wanted, sorting, units } = this;
    const [count, all] = [this.#listed.length.toLocaleString('en-GB'), this.found.length.toLocaleString('en-GB')];
    const number = (e: Event): number | undefined => {
      const { value } = e.target as HTMLInputElement;
      return value.trim() === '' || Number.isNaN(Number(value)) ? undefined : Number(value);
    };
    return html`<div class="sieve begin">
      <label>With these words <input type="text" autocomplete="off" spellcheck="false" .value=${wanted.words} @input=${(e: Event) => this.#want({ words: (e.target as HTMLInputElement).value })} /></label>
      ${units.hasCost ? html`<label>At most, ${units.cost} <input type="number" min="0" step="any" @input=${(e: Event) => this.#want({ most: number(e) })} /></label>` : nothing}
      ${units.hasEvenness ? html`<label>Evenness at least <input type="number" min="0" max="1" step="0.01" @input=${(e: Event) => this.#want({ least: number(e) })} /></label>` : nothing}
      <label class="order">Order <select @change=${(e: Event) => {
        this.sorting = { by: (e.target as HTMLSelectElement).value as Order, turned: false };
      }}>${(Object.keys(ORDERS) as Order[]).map((by) => html`<option value=${by} ?selected=${by === sorting.by}>${ORDERS[by].first}</option>`)}</select></label>
      <p role="status">${wanted === ANY ? '' : `${count} of ${all} shown.`}</p>
    </div>`;
  }

  #picked(picked: Layout): TemplateResult {
    const { looked, table, units, wrong } = this;
    const columns = Math.min(Math.max(LEAST, table?.columns.length ?? 0), MOST);
    const take = (column: number): void => {
      if (looked) this.take({ layout: picked, cells: looked.cells, column });
    };
    return html`<section class="one" aria-label="The picked layout"><h3>${inWords(picked, units)}</h3>
      ${looked ? inFull(looked, table) : html`<p class="hint">${wrong || 'Working it out …'}</p>`}
      <div class="do" role="group" aria-label="Take it as a scenario">${Array.from({ length: columns }, (_, n) => html`<button type="button" class="btn" ?disabled=${!looked} @click=${() => take(n)}>Take this as ${letterOf(table, n)}</button>`)}</div></section>`;
  }
}
customElements.define('ob-found-layouts', ObFoundLayouts);
