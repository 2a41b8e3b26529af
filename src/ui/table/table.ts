/**
 * A table that can be moved about in, typed into and read aloud.
 *
 * One tab stop: an input that always lies over the chosen cell and always has the focus, so that no first character is ever lost, whatever
 * input method makes it. While nothing is being written it points at the chosen cell (aria-activedescendant); cells are real and carry their
 * names. Keys after the grid pattern of the ARIA Authoring Practices Guide, see grid-moves.ts.
 */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { classMap } from 'lit/directives/class-map.js';
import { type At, placeIn } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { columnHeading, titleOf, unitOf } from '../../book/look-up.ts';
import type { Address, Values } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { type TableValues, tableValues } from '../../values.ts';
import { choicesOf } from '../cells/index.ts';
import type { Lies } from '../formula/index.ts';
import { Part, type Place, readSpot, type Step, samePlace, type Wishes } from '../parts/index.ts';
import { Choosing } from './choosing.ts';
import { Grid } from './grid.ts';
import { moved, type Spot } from './grid-moves.ts';
import { hasMore, Laying } from './laying.ts';
import { Lines } from './lines.ts';
import { Pooling } from './pooling.ts';
import type { Refusal } from './refusal.ts';
import { isIn } from './selection.ts';
import { Sight } from './sight.ts';
import { comes, goes, type OpenTable } from './tables.ts';
import { CellWriting } from './writing.ts';

const NONE: ReadonlyMap<Address, string> = new Map();
const PAGE_ROWS = 12;

export class ObTable extends Part implements OpenTable {
  static override properties = {
    book: { attribute: false },
    table: { attribute: false },
    values: { attribute: false },
    chosen: { attribute: false },
    anchor: { attribute: false },
    letters: { attribute: false },
    pending: { attribute: false },
    refusal: { attribute: false },
    ask: { attribute: false },
  };
  declare book: Book;
  declare table: Table;
  declare values: Values;
  declare chosen: Place | undefined;
  /** Where choosing a block began; undefined while one cell is chosen. */
  declare anchor: Place | undefined;
  declare letters: ReadonlyMap<Address, string>;
  declare pending: ReadonlyMap<Address, string>;
  declare refusal: Refusal | undefined;
  declare ask: Session['ask'];

  readonly writing = new CellWriting(this);
  readonly choosing = new Choosing(this);
  readonly pooling: Pooling = new Pooling(this, () => this.#grid.drawRows());
  readonly lines = new Lines(this);
  readonly sight = new Sight(this);
  readonly #laying = new Laying(this);
  readonly #grid = new Grid(this);
  #spot: Spot = { row: 0, column: 0 };
  /** Since the focus came a cell was chosen, or gone to with Tab: then Tab goes along the row, as whoever fills it in means it. */
  #along: 'chosen' | 'tabbed' | undefined;
  /** What it lies in, from the inside out. */
  #above: readonly Element[] = [];

  constructor() {
    super();
    this.letters = NONE;
    this.pending = NONE;
  }

  get ownValues(): TableValues {
    return tableValues(this.values, this.table);
  }

  get root(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#above = ancestors(this);
    comes(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    goes(this);
  }

  /** Off the page, what it lay in tells it on: the page may have been turned while a formula was written. */
  override say<K extends keyof Wishes>(name: K, detail: Wishes[K]): void {
    const from = this.isConnected ? this : this.#above.find((each) => each.isConnected);
    from?.dispatchEvent(new CustomEvent(`ob-${name}`, { detail, bubbles: true, composed: true }));
  }

  /** The cell that has, or would have, the focus. */
  get at(): At | undefined {
    return placeIn(this.table, this.#spot.column, this.#spot.row);
  }

  get input(): HTMLInputElement | null {
    return this.querySelector<HTMLInputElement>('.over > input');
  }

  override willUpdate(changed: PropertyValues): void {
    // Focus follows the cell, not the spot: it may have moved.
    if (this.chosenSpot) {
      const row = this.table.rows.findIndex((r) => r.id === this.chosen?.row);
      const column = this.table.columns.findIndex((c) => c.id === this.chosen?.column);
      if (row >= 0 && column >= 0) this.#spot = { row, column };
    }
    const { rows, columns } = this.table;
    this.#spot = { row: Math.min(this.#spot.row, rows.length - 1), column: Math.min(this.#spot.column, columns.length - 1) };
    if (changed.has('refusal') && this.refusal?.place.table === this.table.id) this.writing.reopen(this.refusal);
  }

  /** What was written last must not stand before what is written next. */
  #emptyInput(): void {
    const { input } = this;
    if (input && !this.writing.isOpen && input.value !== '') input.value = '';
  }

  override updated(changed: PropertyValues): void {
    this.#emptyInput();
    this.#grid.drawRows();
    if (this.table.form === 'scenarios') this.#grid.shareDigits();
    this.#laying.nextFrame(changed.has('chosen') || changed.has('refusal'));
  }

  /** Only what is scrolled aside needs headings that stay: each is a layer of its own to the browser. */
  #scrolled = (event: Event): void => {
    const scroll = event.currentTarget as HTMLElement;
    scroll.classList.toggle('aside', scroll.scrollLeft > 0);
    scroll.parentElement?.classList.toggle('more', hasMore(scroll));
    this.pooling.look();
    // The input lies within what is scrolled; only what hangs on the chosen cell from outside has to follow.
    if (this.chosenSpot) this.#laying.nextFrame();
  };

  cellId({ row, column }: Spot): string {
    return `cell-${this.book.tables.indexOf(this.table)}-${row}-${column}`;
  }

  placeAt(spot: Spot): Place {
    return { table: this.table.id, row: this.table.rows[spot.row]?.id ?? '', column: this.table.columns[spot.column]?.id ?? '' };
  }

  /** Takes the focus, where the cell just chosen is to be worked on. */
  take(): void {
    this.input?.focus({ preventScroll: true });
  }

  /** Brings the chosen cell, and what is written in it, into sight again. */
  showCell(): void {
    this.#laying.nextFrame(true);
  }

  showSpot(spot: Spot): void {
    this.querySelector(`#${this.cellId(spot)}`)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }

  lies(): Lies | undefined {
    return this.#laying.lies();
  }

  choose(spot: Spot, anchor?: Place): void {
    this.#spot = spot;
    this.say('choose', { place: this.placeAt(spot), anchor });
    this.requestUpdate();
  }

  get spot(): Spot {
    return this.#spot;
  }

  /** The chosen cell, where it is one of this table. */
  get chosenSpot(): Spot | undefined {
    return this.chosen?.table === this.table.id ? this.#spot : undefined;
  }

  /** `on`: it is the chosen cell. `among`: it is one of those chosen. `cut`: it goes to where it is pasted. */
  marks(spot: Spot): { readonly on: boolean; readonly among: boolean; readonly cut: boolean } {
    const on = this.chosenSpot?.row === spot.row && this.chosenSpot.column === spot.column;
    return { on, among: on || this.choosing.has(spot), cut: isIn(this.choosing.taken, spot) };
  }

  /** Goes to another row where the one that was last worked on is put away. */
  leaveRows(rows: readonly number[], to: number): void {
    if (rows.includes(this.#spot.row)) this.#spot = { ...this.#spot, row: to };
  }

  /** Asks who gave an answer of the brief. */
  askAbout(spot: Spot): void {
    this.say('question', { place: this.placeAt(spot) });
  }

  /** Where a key leads among the rows in sight. */
  stepFrom(from: Spot, key: string, control: boolean): Spot | undefined {
    const rows = this.lines.shown;
    const next = moved({ row: rows.indexOf(from.row), column: from.column }, key, control, {
      rows: rows.length,
      columns: this.table.columns.length,
      page: PAGE_ROWS,
    });
    return next && { row: rows[next.row] ?? 0, column: next.column };
  }

  /** One step on after a commit. False where there is nowhere to go. */
  go(step: Step): boolean {
    const key = { down: 'ArrowDown', up: 'ArrowUp', right: 'ArrowRight', left: 'ArrowLeft', stay: '' }[step];
    const next = this.stepFrom(this.#spot, key, false);
    if (!next || (next.row === this.#spot.row && next.column === this.#spot.column)) return false;
    this.choose(next);
    this.#along = step === 'left' || step === 'right' ? 'tabbed' : 'chosen';
    return true;
  }

  #press(event: KeyboardEvent): void {
    if (event.isComposing || this.writing.press(event)) return;
    const control = event.ctrlKey || event.metaKey;
    if (event.altKey) return;
    if (event.key === 'Tab') {
      // A cell that holds something, and was only chosen, is left together with the table.
      const along = this.#along === 'tabbed' || (this.#along && !this.at?.cell?.content);
      if (along && this.go(event.shiftKey ? 'left' : 'right')) event.preventDefault();
      return;
    }
    const next = this.stepFrom(this.#spot, event.key, control);
    if (next) {
      event.preventDefault();
      this.#along = 'chosen';
      this.choose(next, event.shiftKey ? this.choosing.anchor : undefined);
    } else if (this.choosing.press(event, control)) {
      event.preventDefault();
    } else if (!control && (event.key === 'Enter' || event.key === 'F2')) {
      event.preventDefault();
      void this.writing.open();
    } else if (!control && (event.key === 'Delete' || event.key === 'Backspace')) {
      event.preventDefault();
      this.say('clear', { place: this.placeAt(this.#spot) });
    }
  }

  #point(event: PointerEvent): void {
    const cell = (event.target as HTMLElement).closest<HTMLElement>('[data-spot]');
    if (!cell || event.button !== 0 || (event.target as HTMLElement).closest('button, a')) return;
    event.preventDefault();
    const spot = readSpot(cell.dataset.spot ?? '');
    const again = this.marks(spot).on;
    this.writing.commit();
    const soft = event.pointerType === 'touch';
    this.choosing.begin(event, spot);
    this.take();
    this.#along = 'chosen';
    if ((again && soft) || event.detail === 2 || (soft && this.table.form === 'brief')) void this.writing.open();
  }

  override render(): TemplateResult {
    const { table } = this;
    return html`<div class="frame ${table.form} ${this.lines.labelled ? '' : 'bare'} ${this.pooling.isLarge(table) ? 'large' : ''}">
      <div class="scroll" @pointerdown=${this.#point} @pointermove=${this.choosing.drag} @dblclick=${() => void this.writing.open()} @scroll=${this.#scrolled}>
        ${this.#grid.render()}
        <div class="over ${classMap({ writing: this.writing.isOpen, handed: this.writing.inFormula })}">${this.#inputTemplate()}</div>
      </div>
      <div class="under"><div class="formula-here"></div>${this.writing.slip()}</div>
      <i class="tie" hidden></i>
      ${this.pooling.printing && this.pooling.printed(table) < table.rows.length ? html`<p class="prose">On paper stand the first ${this.pooling.printed(table)} rows of ${table.rows.length}. All of them go out as CSV.</p>` : nothing}
      ${table.form === 'brief' ? nothing : (['row', 'column'] as const).map((what) => this.choosing.handle(what))}
    </div>`;
  }

  #left = (): void => {
    this.#along = undefined;
    this.writing.left();
  };

  #inputTemplate(): TemplateResult {
    const at = this.at;
    const writing = this.writing.isOpen;
    const choices = writing && this.writing.choices.length > 0;
    return html`<input
      type="text" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="done"
      inputmode=${writing ? 'text' : 'none'}
      role=${choices ? 'combobox' : nothing}
      aria-expanded=${choices ? 'true' : nothing}
      aria-autocomplete=${choices ? 'list' : nothing}
      aria-label=${at ? (writing ? `Write ${titleOf(at)}${unitOf(at) ? `, in ${unitOf(at)}` : ''}` : `${this.table.name}, table`) : this.table.name}
      aria-controls=${choices ? `${this.cellId({ row: 0, column: 0 })}-choices` : `grid-${this.book.tables.indexOf(this.table)}`}
      aria-activedescendant=${choices ? this.writing.choiceId : writing ? nothing : this.cellId(this.#spot)}
      aria-describedby=${writing ? `${this.cellId({ row: 0, column: 0 })}-slip` : nothing}
      @keydown=${this.#press}
      @beforeinput=${() => this.#emptyInput()}
      @input=${(event: Event) => this.writing.typed(event)}
      @compositionend=${(event: Event) => this.writing.typed(event)}
      @focus=${() => !samePlace(this.chosen, this.placeAt(this.#spot)) && this.choose(this.#spot)}
      @blur=${this.#left}
      @copy=${this.choosing.copy}
      @cut=${this.choosing.cut}
      @paste=${this.choosing.paste}
    />`;
  }

  /** The column's heading, for whoever names an action on it. */
  get columnName(): string {
    return this.at ? columnHeading(this.at) : '';
  }

  /** What may be written here, for the slip. */
  choicesHere(): readonly string[] {
    return (this.at && choicesOf(this.book, this.values, this.at)) ?? [];
  }
}

function ancestors(element: Element): readonly Element[] {
  const above: Element[] = [];
  for (let each = element.parentElement; each; each = each.parentElement) above.push(each);
  return above;
}
customElements.define('ob-table', ObTable);
