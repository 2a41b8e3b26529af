/**
 * A table that can be moved about in, typed into and read aloud.
 *
 * One tab stop: an input that always lies over the chosen cell and always has the focus, so that no first character is ever lost, whatever
 * input method makes it. While nothing is being written it points at the chosen cell (aria-activedescendant); cells are real and carry their
 * names. Keys after the grid pattern of the ARIA Authoring Practices Guide, see grid-moves.ts.
 */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { classMap } from 'lit/directives/class-map.js';
import { guard } from 'lit/directives/guard.js';
import { repeat } from 'lit/directives/repeat.js';
import { type At, placeIn } from '../book/address.ts';
import type { Book, Row, Table } from '../book/book.ts';
import { addressOf, baseColumn, columnHeading, sourceOf, titleOf, unitOf } from '../book/look-up.ts';
import type { Address, Value, Values } from '../engine/types.ts';
import type { Session } from '../session.ts';
import { saidLine } from './brief.ts';
import { cellTemplate } from './cell.ts';
import { baseOf, spokenName, viewOf } from './cell-view.ts';
import { allowedText, choicesOf } from './choices.ts';
import { CellWriting } from './controllers/cell-writing.ts';
import { Choosing } from './controllers/choosing.ts';
import { Pooling } from './controllers/pooling.ts';
import { type Fold, foldsOf } from './folds.ts';
import { moved, type Spot } from './grid-moves.ts';
import { Part, type Place, type Step, samePlace } from './part.ts';

/** What was typed and could not be taken: it is kept until it is mended or given up. */
export interface Refusal {
  readonly place: Place;
  readonly typed: string;
  readonly message: string;
}

const NONE: ReadonlyMap<Address, string> = new Map();
const PAGE_ROWS = 12;
/** px that a slip may need. */
const SLIP_WIDTH = 345;

export class ObTable extends Part {
  static override properties = {
    book: { attribute: false },
    table: { attribute: false },
    values: { attribute: false },
    tick: { attribute: false },
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
  /** Counts up when values come: the object that holds them is the same one. */
  declare tick: number;
  declare chosen: Place | undefined;
  /** Where choosing a block began; undefined while one cell is chosen. */
  declare anchor: Place | undefined;
  declare letters: ReadonlyMap<Address, string>;
  declare pending: ReadonlyMap<Address, string>;
  declare refusal: Refusal | undefined;
  declare ask: Session['ask'];

  readonly writing = new CellWriting(this);
  readonly choosing = new Choosing(this);
  readonly #pooling = new Pooling(this);
  #spot: Spot = { row: 0, column: 0 };
  #folds: readonly Fold[] = [];
  #printing = false;
  #layLater = 0;
  /** The chosen cell is to be brought into view when the input is laid over it. */
  #show = false;
  /** Groups of rows that were put away and taken out again. */
  readonly #unfolded = new Set<string>();
  /** Rows in sight, in order. */
  #shown: readonly number[] = [];
  /** Digits before and after the point, by cell. */
  readonly #digits = new Map<string, readonly [number, number]>();

  constructor() {
    super();
    this.letters = NONE;
    this.pending = NONE;
    this.tick = 0;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener('beforeprint', this.#print);
    addEventListener('afterprint', this.#print);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener('beforeprint', this.#print);
    removeEventListener('afterprint', this.#print);
  }

  /** On paper every row stands. */
  #print = (event: Event): void => {
    this.#printing = event.type === 'beforeprint';
    this.requestUpdate();
  };

  /** The cell that has, or would have, the focus. */
  get at(): At | undefined {
    return placeIn(this.table, this.#spot.column, this.#spot.row);
  }

  get input(): HTMLInputElement | null {
    return this.querySelector<HTMLInputElement>('.over > input');
  }

  override willUpdate(changed: PropertyValues): void {
    // Focus follows the cell, not the spot: it may have moved.
    if (this.chosen?.table === this.table.id) {
      const row = this.table.rows.findIndex((r) => r.id === this.chosen?.row);
      const column = this.table.columns.findIndex((c) => c.id === this.chosen?.column);
      if (row >= 0 && column >= 0) this.#spot = { row, column };
    }
    const { rows, columns } = this.table;
    this.#spot = { row: Math.min(this.#spot.row, rows.length - 1), column: Math.min(this.#spot.column, columns.length - 1) };
    this.#fold();
    if (changed.has('refusal') && this.refusal?.place.table === this.table.id) this.writing.reopen(this.refusal);
  }

  #fold(): void {
    const folds = this.#printing ? [] : foldsOf(this.table, this.values);
    // A row that is chosen is never put away.
    const own = this.chosen?.table === this.table.id ? folds.find((fold) => fold.rows.includes(this.#spot.row)) : undefined;
    if (own) this.#unfolded.add(own.id);
    this.#folds = folds;
    const away = new Set(folds.filter((fold) => !this.#unfolded.has(fold.id)).flatMap((fold) => fold.rows));
    const { all } = linesOf(this.table.rows);
    this.#shown = away.size === 0 ? all : all.filter((row) => !away.has(row));
  }

  /** What stands under the heading, in order: rows, and the lines of folds. */
  get #lines(): readonly (number | Fold)[] {
    const { all, body, head } = linesOf(this.table.rows);
    if (this.#folds.length === 0 && this.#shown === all) return body;
    const lines: (number | Fold)[] = this.#shown.filter((row) => row !== head);
    for (const fold of this.#folds) {
      const next = lines.findIndex((line) => typeof line === 'number' && line >= fold.before);
      lines.splice(next < 0 ? lines.length : next, 0, fold);
    }
    return lines;
  }

  get #large(): boolean {
    return !this.#printing && this.#pooling.isLarge(this.table);
  }

  #turnFold(fold: Fold): void {
    if (!this.#unfolded.delete(fold.id)) this.#unfolded.add(fold.id);
    else if (fold.rows.includes(this.#spot.row)) this.#spot = { ...this.#spot, row: this.#shown.find((row) => !fold.rows.includes(row)) ?? 0 };
    this.requestUpdate();
  }

  /** What was written last must not stand before what is written next. */
  #emptyInput(): void {
    const { input } = this;
    if (input && !this.writing.isOpen && input.value !== '') input.value = '';
  }

  override updated(changed: PropertyValues): void {
    this.#emptyInput();
    if (this.table.form === 'scenarios') this.#shareDigits();
    // Where things lie is asked once the page is laid out anyway: asking at once would have it laid out again for every turn.
    this.#show ||= changed.has('chosen');
    this.#layNextFrame();
  }

  #layNextFrame(): void {
    this.#layLater ||= requestAnimationFrame(() => {
      const show = this.#show;
      this.#layLater = 0;
      this.#show = false;
      this.layInput(show);
    });
  }

  /** Only what is scrolled aside needs headings that stay: each is a layer of its own to the browser. */
  #scrolled = (event: Event): void => {
    const scroll = event.currentTarget as HTMLElement;
    scroll.classList.toggle('aside', scroll.scrollLeft > 0);
    this.#pooling.look();
    this.#layNextFrame();
  };

  /** Numbers of a comparing table have their points under one another: the table says how wide wholes and decimals are. */
  #shareDigits(): void {
    let [whole, part] = [2, 0];
    for (const [w, f] of this.#digits.values()) [whole, part] = [Math.max(whole, w), Math.max(part, f)];
    const widths = `--whole:${Math.min(whole, 4) * 8}px;--part:${Math.min(part, 3) * 7.8}px;--count:${this.table.columns.length}`;
    const grid = this.querySelector<HTMLElement>('table.cells');
    if (grid && grid.getAttribute('style') !== widths) grid.setAttribute('style', widths);
  }

  /** Puts the input over the chosen cell, and that cell into view where it was just chosen. */
  layInput(show: boolean): void {
    const over = this.querySelector<HTMLElement>('.over');
    const cell = this.querySelector<HTMLElement>(`#${this.cellId(this.#spot)}`);
    if (!over || !cell) return;
    const box = cell.querySelector<HTMLElement>(':scope > div') ?? cell;
    const scroll = this.querySelector<HTMLElement>('.scroll');
    const under = this.querySelector<HTMLElement>('.under');
    const frame = this.querySelector('.frame')?.getBoundingClientRect();
    if (!frame || !scroll || !under) return;
    const own = box.getBoundingClientRect();
    const inside = scroll.getBoundingClientRect();
    over.style.translate = `${own.left - inside.left + scroll.scrollLeft}px ${own.top - inside.top + scroll.scrollTop}px`;
    over.style.width = `${own.width}px`;
    over.style.height = `${own.height}px`;
    under.style.translate = `${own.left - frame.left}px ${own.bottom - frame.top}px`;
    under.style.width = `${own.width}px`;
    // A slip near the right edge opens to the left.
    under.classList.toggle('leftward', frame.right - own.left < SLIP_WIDTH);
    const chosen = this.chosen?.table === this.table.id;
    const tie = this.querySelector<HTMLElement>('.tie');
    if (tie) {
      tie.hidden = !chosen || this.table.form === 'list';
      tie.style.left = `${own.right - frame.left}px`;
      tie.style.top = `${cell.getBoundingClientRect().bottom - frame.top}px`;
    }
    this.choosing.layHandles(cell.getBoundingClientRect(), frame, chosen);
    if (!show || !chosen) return;
    cell.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    this.#pooling.look();
  }

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

  choose(spot: Spot, anchor?: Place): void {
    this.#spot = spot;
    this.say('choose', { place: this.placeAt(spot), anchor });
    this.requestUpdate();
  }

  get spot(): Spot {
    return this.#spot;
  }

  /** Where a key leads among the rows in sight. */
  stepFrom(from: Spot, key: string, control: boolean): Spot | undefined {
    const rows = this.#shown;
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
    return true;
  }

  #press(event: KeyboardEvent): void {
    if (event.isComposing || this.writing.press(event)) return;
    const control = event.ctrlKey || event.metaKey;
    if (event.altKey) return;
    const next = this.stepFrom(this.#spot, event.key, control);
    if (next) {
      event.preventDefault();
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
    const [row = 0, column = 0] = (cell.dataset.spot ?? '').split(',').map(Number);
    const spot = { row, column };
    const again = this.chosen?.table === this.table.id && row === this.#spot.row && column === this.#spot.column;
    this.writing.commit();
    const soft = event.pointerType === 'touch';
    this.choosing.begin(event, spot);
    this.take();
    if ((again && soft) || event.detail === 2 || (soft && this.table.form === 'brief')) void this.writing.open();
  }

  override render(): TemplateResult {
    const { table } = this;
    return html`<div class="frame ${table.form} ${table.rows.some((row) => row.label) ? '' : 'bare'} ${this.#large ? 'large' : ''}">
      <div class="scroll" @pointerdown=${this.#point} @pointermove=${this.choosing.drag} @dblclick=${() => void this.writing.open()} @scroll=${this.#scrolled}>
        ${table.form === 'brief' ? this.#brief() : this.#grid()}
        <div class="over ${classMap({ writing: this.writing.isOpen, handed: this.writing.inFormula })}">${this.#inputTemplate()}</div>
      </div>
      <div class="under"><div class="formula-here"></div>${this.writing.slip()}</div>
      <i class="tie" hidden></i>
      ${this.#printing && this.#pooling.printed(table) < table.rows.length ? html`<p class="prose">On paper stand the first ${this.#pooling.printed(table)} rows of ${table.rows.length}. All of them go out as CSV.</p>` : nothing}
      ${table.form === 'brief' ? nothing : (['row', 'column'] as const).map((what) => this.choosing.handle(what))}
    </div>`;
  }

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
      @blur=${() => this.writing.left()}
      @copy=${this.choosing.copy}
      @paste=${this.choosing.paste}
    />`;
  }

  #grid(): TemplateResult {
    const { table } = this;
    const large = this.#large;
    const { head } = linesOf(table.rows);
    const labelled = table.rows.some((row) => row.label);
    const base = table.columns[baseColumn(table)];
    const comparing = table.form === 'scenarios';
    const titled = comparing || table.columns.some((column) => column.label);
    const width = table.columns.length + (labelled ? 1 : 0);
    const lines = this.#lines;
    // The heading has rows of its own before them.
    const above = (titled ? 1 : 0) + (head >= 0 ? 1 : 0);
    const chosen = this.chosen?.table === table.id ? this.#spot : undefined;
    const edges = large ? this.#pooling.edges(table, labelled) : undefined;
    const across = edges && { edges, columns: this.#pooling.columns(edges, chosen?.column ?? -1) };
    const place = (at: number): string | typeof nothing => (edges ? `left:${edges[at]}px;width:${(edges[at + 1] ?? 0) - (edges[at] ?? 0)}px` : nothing);
    const line = (at: number): unknown => {
      const found = lines[at];
      if (found === undefined) return nothing;
      const where = across && { ...across, nth: at + above + 1, top: at * this.#pooling.rowHeight };
      return typeof found === 'number' ? this.#row(found, labelled, where) : this.#foldLine(found, width, where?.top);
    };
    return html`<table id="grid-${this.book.tables.indexOf(table)}" class="cells ${table.form}" role="grid" aria-label=${table.name} aria-multiselectable="true" aria-colcount=${width} aria-rowcount=${large ? lines.length + above : nothing}>
      <thead role="rowgroup" style=${edges ? `width:${edges.at(-1)}px` : nothing}>
        ${
          titled
            ? html`<tr role="row" aria-rowindex=${large ? 1 : nothing}>
              ${labelled ? html`<th scope="col" role="columnheader" class="corner">${comparing && base && table.columns.length > 1 ? `compared with ${base.label ?? 'the first'}` : html`<span class="unseen">row</span>`}</th>` : nothing}
              ${table.columns.map(
                (column, at) =>
                  html`<th scope="col" role="columnheader" style=${edges ? place(at) : column.width ? `width:${column.width}px` : nothing}><span class=${comparing ? 'L' : 'h'}>${column.label ?? ''}</span>${column.note ? html`<span class="nm">${column.note}</span>` : nothing}${!comparing && column.unit ? html`<span class="u">${column.unit}</span>` : nothing}</th>`,
              )}
            </tr>`
            : nothing
        }
        ${head >= 0 ? this.#row(head, labelled, across && { ...across, nth: above, top: 0 }) : nothing}
      </thead>
      <tbody role="rowgroup" style=${edges ? `width:${edges.at(-1)}px;height:${lines.length * this.#pooling.rowHeight}px` : nothing}>${large ? this.#someLines(lines, chosen?.row ?? -1, line) : this.#allLines(lines, line)}</tbody>
    </table>`;
  }

  #allLines(lines: readonly (number | Fold)[], line: (at: number) => unknown): unknown {
    const printed = this.#printing ? lines.slice(0, this.#pooling.printed(this.table)) : lines;
    return repeat(
      printed,
      (found) => (typeof found === 'number' ? this.table.rows[found]?.id : `fold ${found.id}`),
      (_, at) => line(at),
    );
  }

  #someLines(lines: readonly (number | Fold)[], chosen: number, line: (at: number) => unknown): unknown {
    const at = chosen < 0 ? -1 : lines === linesOf(this.table.rows).all ? chosen : lines.indexOf(chosen);
    // By their place: rows that stay in sight are left alone, and none is moved, which would have all of them laid out again.
    return repeat(this.#pooling.rows(lines.length, at), (row) => row, line);
  }

  #foldLine(fold: Fold, width: number, top: number | undefined): TemplateResult {
    const open = this.#unfolded.has(fold.id);
    return html`<tr class="fold" style=${top === undefined ? nothing : `top:${top}px`}><th scope="row" colspan=${width}><button type="button" aria-expanded=${open} @click=${() => this.#turnFold(fold)}>${open ? `Put away again: ${fold.words}` : fold.words}</button></th></tr>`;
  }

  /** `where`: in a table of which not all is drawn, what is, and where. */
  #row(index: number, labelled: boolean, where: Where | undefined): TemplateResult {
    const row = this.table.rows[index] as Row;
    const head = row.head === true;
    const on = this.chosen?.table === this.table.id && this.#spot.row === index;
    return html`<tr role="row" class=${classMap({ parted: row.parted === true, strong: row.strong === true, sel: on })} aria-rowindex=${where?.nth ?? nothing} style=${where ? `top:${where.top}px` : nothing}>
      ${labelled ? (head ? html`<th scope="col" role="columnheader"><span class="unseen">row</span></th>` : html`<th scope="row" role="rowheader"><span class="n" aria-hidden="true">${index + 1}</span><span class="lab">${row.label ?? ''}</span></th>`) : nothing}
      ${
        where
          ? where.columns.map((column) => {
              const left = where.edges[column] ?? 0;
              return this.#cell({ row: index, column }, head, {
                nth: column + (labelled ? 2 : 1),
                style: `left:${left}px;width:${(where.edges[column + 1] ?? 0) - left}px`,
              });
            })
          : this.table.columns.map((_, column) => this.#cell({ row: index, column }, head))
      }
    </tr>`;
  }

  #cell(spot: Spot, head: boolean, where?: { readonly nth: number; readonly style: string }): unknown {
    const at = placeIn(this.table, spot.column, spot.row);
    if (!at) return nothing;
    const address = addressOf(at);
    const base = baseOf(at);
    const on = this.chosen?.table === this.table.id && spot.row === this.#spot.row && spot.column === this.#spot.column;
    const among = on || this.choosing.has(spot);
    const value: Value | undefined = this.values[address];
    const deps = [
      at.cell,
      at.row,
      at.column,
      spot.row,
      value,
      base?.cell,
      base && this.values[addressOf(base)],
      this.letters.get(address),
      this.pending.get(address),
      on,
      among,
      where?.style,
    ];
    return guard(deps, () => {
      const view = viewOf(at, this.values);
      const key = `${at.row.id} ${at.column.id}`;
      if (view.number) this.#digits.set(key, [view.number.sign.length + view.number.whole.length, view.number.fraction.length]);
      else this.#digits.delete(key);
      const inner = cellTemplate(view, { letter: this.letters.get(address), pending: this.pending.get(address), list: this.table.form !== 'scenarios' });
      const name = spokenName(at, view);
      const id = this.cellId(spot);
      const place = `${spot.row},${spot.column}`;
      if (head)
        return html`<th scope="col" role="columnheader" id=${id} data-spot=${place} class="c ${on ? 'on' : ''} ${among ? 'among' : ''}" aria-selected=${among} aria-colindex=${where?.nth ?? nothing} style=${where?.style ?? (at.column.width ? `width:${at.column.width}px;min-width:${at.column.width}px` : nothing)}>${inner}</th>`;
      return html`<td role="gridcell" id=${id} data-spot=${place} class="c ${on ? 'on' : ''} ${among ? 'among' : ''}" aria-selected=${among} aria-colindex=${where?.nth ?? nothing} style=${where?.style ?? nothing} aria-label=${name}>${inner}</td>`;
    });
  }

  /** The brief: questions down the page, one answer each. */
  #brief(): TemplateResult {
    const { table } = this;
    return html`<div id="grid-${this.book.tables.indexOf(table)}" class="asks" role="grid" aria-label=${table.name} aria-multiselectable="true">
      ${repeat(
        table.rows,
        (row) => row.id,
        (row, index) => html`<div role="row" class="ask ${row.parted ? 'parted' : ''}">
          <div role="rowheader"><div class="q">${row.label ?? ''}</div>${row.help ? html`<div class="why">${row.help}</div>` : nothing}</div>
          ${table.columns.map((_, column) => this.#answer({ row: index, column }))}
        </div>`,
      )}
    </div>`;
  }

  #answer(spot: Spot): TemplateResult {
    const at = placeIn(this.table, spot.column, spot.row);
    if (!at) return html``;
    const address = addressOf(at);
    const on = this.chosen?.table === this.table.id && spot.row === this.#spot.row && spot.column === this.#spot.column;
    const among = on || this.choosing.has(spot);
    const view = viewOf(at, this.values);
    const allowed = allowedText(at);
    const name = [spokenName(at, view), at.row.help, sourceOf(at), allowed && `allowed: ${allowed}`].filter(Boolean).join('. ');
    return html`<div role="gridcell" id=${this.cellId(spot)} data-spot="${spot.row},${spot.column}" class="c ${on ? 'on' : ''} ${among ? 'among' : ''}" aria-selected=${among} aria-label=${name}>
      ${cellTemplate(view, { letter: this.letters.get(address), pending: this.pending.get(address), list: true })}
      ${saidLine(at, () => this.say('question', { place: this.placeAt(spot) }))}
    </div>`;
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
customElements.define('ob-table', ObTable);

/** Of a row: the columns to draw, where each begins, the row's place in the grid (from 1) and from the top (px). */
interface Where {
  readonly edges: readonly number[];
  readonly columns: readonly number[];
  readonly nth: number;
  readonly top: number;
}

interface Lines {
  readonly all: readonly number[];
  /** Without the row of headings. */
  readonly body: readonly number[];
  /** The row of headings, or -1. */
  readonly head: number;
}

/** Asked at every turn, and of tables with thousands of rows. */
const known = new WeakMap<readonly Row[], Lines>();

function linesOf(rows: readonly Row[]): Lines {
  const found = known.get(rows);
  if (found) return found;
  const all = rows.map((_, row) => row);
  const head = rows.findIndex((row) => row.head);
  const made = { all, body: head < 0 ? all : all.filter((row) => row !== head), head };
  known.set(rows, made);
  return made;
}
