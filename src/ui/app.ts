/** The whole page: composes the elements, holds what is open and chosen, and turns their wishes into changes of the book. */
import { html, nothing, type TemplateResult } from 'lit';
import { cellAt, placeIn } from '../book/address.ts';
import type { Page } from '../book/book.ts';
import { clearCells } from '../book/commands/clear-cells.ts';
import { renameBook } from '../book/commands/rename.ts';
import { addressOf, baseColumn, columnHeading, standingOf, tableOfBlock, titleOf } from '../book/look-up.ts';
import { isRefused } from '../book/refused.ts';
import type { Address } from '../engine/types.ts';
import type { News, Session } from '../session.ts';
import { baseOf, lineOf, spokenValue, valueAt, viewOf } from './cell-view.ts';
import './command-list.ts';
import type { ObCommandList } from './command-list.ts';
import { command, commandFor, type Desk } from './commands.ts';
import './contents.ts';
import { Keeping } from './controllers/keeping.ts';
import { switchLight } from './controllers/light.ts';
import { Tracing } from './controllers/tracing.ts';
import { actions, cover } from './cover.ts';
import './page-view.ts';
import { Part, type Place, samePlace, type Wishes } from './part.ts';
import './picture.ts';
import './prose.ts';
import './start.ts';
import type { ShelfCard, TemplateCard } from './start.ts';
import './table.ts';
import type { Found } from './opening.ts';
import type { ObTable, Refusal } from './table.ts';
import './working.ts';
import { placeOfAt } from './working.ts';

/** Pages that every book has besides its own. */
const OWN_PAGES: readonly { readonly id: string; readonly title: string }[] = [
  { id: 'what-changed', title: 'What changed' },
  { id: 'functions', title: 'The functions' },
];

type Wish<K extends keyof Wishes> = CustomEvent<Wishes[K]>;

export class ObApp extends Part implements Desk {
  static override properties = {
    tick: { state: true },
    pageId: { state: true },
    chosen: { state: true },
    refusal: { state: true },
    told: { state: true },
    problem: { state: true },
  };
  declare tick: number;
  declare pageId: string;
  declare chosen: Place | undefined;
  declare refusal: Refusal | undefined;
  /** The last thing said aloud; shown as well where it is not plain from the page. */
  declare told: string;
  declare problem: string;

  session: Session | undefined;
  readonly #keeping = new Keeping(this);
  readonly #tracing = new Tracing(this);
  #templates: readonly TemplateCard[] = [];
  #shelf: readonly ShelfCard[] = [];
  #pending: ReadonlyMap<Address, string> = new Map();
  #trail: readonly Place[] = [];
  #quiet: ReturnType<typeof setTimeout> | undefined;
  #drawer = false;
  /** A book that can't be opened, as it is kept. */
  #damaged: string | undefined;
  #sheet = false;
  #unsubscribe: (() => void) | undefined;

  constructor() {
    super();
    this.tick = 0;
    this.pageId = '';
    this.told = '';
    this.problem = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('keydown', this.#press);
    void this.#arrive();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener('keydown', this.#press);
    this.#unsubscribe?.();
  }

  /** Opens what was open last, else shows where to begin. */
  async #arrive(): Promise<void> {
    const last = this.#keeping.lastOpen;
    if (last !== undefined && (await this.#open({ what: 'book', id: last }))) return;
    await this.#fillStart();
  }

  async #fillStart(): Promise<void> {
    const { cards, problem } = await this.#keeping.shelf();
    this.#shelf = cards;
    this.problem ||= problem;
    this.requestUpdate();
    const { templateCards } = await import('./opening.ts');
    this.#templates = await templateCards();
    this.requestUpdate();
  }

  async #open(wish: Wishes['open']): Promise<boolean> {
    const opening = await import('./opening.ts');
    const found = await opening.fetchBook(wish, this.#keeping);
    if (found === undefined) return false;
    if ('problem' in found) {
      this.problem = found.problem;
      this.#damaged = found.raw;
      if (this.session) this.#tell(found.problem, true);
      return false;
    }
    await this.#enter(found);
    return true;
  }

  async #enter(found: Found): Promise<void> {
    await this.#keeping.now();
    this.problem = '';
    this.#leave();
    const { startSession } = await import('./opening.ts');
    const session = await startSession(found.book, found.history);
    this.session = session;
    this.#unsubscribe = session.subscribe((news) => this.#hear(news));
    this.#keeping.follow(session, found.revision);
    this.pageId = found.view?.page ?? session.book.pages[0]?.id ?? '';
    this.chosen = found.view?.chosen;
    document.title = `${session.book.title} · Overbench`;
    if (found.notice) this.#tell(found.notice, true);
    this.#ask();
    this.requestUpdate();
  }

  #leave(): void {
    this.#unsubscribe?.();
    this.#keeping.leave();
    this.session?.close();
    this.session = undefined;
    this.chosen = undefined;
    this.refusal = undefined;
    this.#trail = [];
    this.#pending = new Map();
    document.title = 'Overbench';
  }

  #hear(news: News): void {
    if (news.kind === 'values') {
      this.tick++;
      this.#ask();
    } else if (news.kind === 'book') {
      this.tick++;
      if (this.chosen && !this.at) this.chosen = undefined;
    }
    this.requestUpdate();
  }

  get at() {
    const { chosen, session } = this;
    const table = chosen && session?.book.tables.find((t) => t.id === chosen.table);
    if (!table || !chosen) return undefined;
    return placeIn(
      table,
      table.columns.findIndex((c) => c.id === chosen.column),
      table.rows.findIndex((r) => r.id === chosen.row),
    );
  }

  #atPlace(place: Place) {
    const table = this.session?.book.tables.find((t) => t.id === place.table);
    return (
      table &&
      placeIn(
        table,
        table.columns.findIndex((c) => c.id === place.column),
        table.rows.findIndex((r) => r.id === place.row),
      )
    );
  }

  #ask(): void {
    const at = this.at;
    void this.#tracing.ask(this.session, at && addressOf(at));
  }

  // ---- wishes of the elements

  #choose({ place, follow, focus }: Wishes['choose']): void {
    if (samePlace(place, this.chosen)) return;
    if (follow && this.chosen) this.#trail = [...this.#trail, this.chosen];
    this.chosen = place;
    this.#keeping.look({ page: this.pageId, chosen: place });
    if (follow || focus) this.#reveal(place);
    this.#ask();
  }

  /** Goes to the page on which a cell's table stands. */
  #reveal(place: Place): void {
    const holds = (page: Page): boolean =>
      page.blocks.some((b) => b.kind === 'table' && this.session && tableOfBlock(this.session.book, b.table)?.id === place.table);
    const pages = this.session?.book.pages ?? [];
    const here = pages.find((p) => p.id === this.pageId);
    if (here && holds(here)) return;
    const page = pages.find(holds);
    if (page) this.pageId = page.id;
  }

  async #type({ place, typed }: Wishes['type']): Promise<void> {
    const { session } = this;
    const at = this.#atPlace(place);
    if (!session || !at) return;
    const address = addressOf(at);
    this.#pending = new Map([...this.#pending, [address, typed]]);
    if (samePlace(this.refusal?.place, place)) this.refusal = undefined;
    this.requestUpdate();
    try {
      const result = await session.type(address, typed);
      if (result.ok) {
        await session.settled();
        const after = this.#atPlace(place);
        this.#tell(
          [after && `${titleOf(after)}: ${spokenValue(viewOf(after, session.values))}.`, result.said && `${result.said}.`].filter(Boolean).join(' '),
          result.said !== undefined,
        );
      } else this.#refuse(place, typed, result.message);
    } catch (error) {
      this.#refuse(place, typed, error instanceof Error ? error.message : String(error));
    } finally {
      const pending = new Map(this.#pending);
      pending.delete(address);
      this.#pending = pending;
      this.requestUpdate();
    }
  }

  /** What could not be taken is kept, and shown where it was written unless something else is being written by now. */
  #refuse(place: Place, typed: string, message: string): void {
    const busy = this.querySelector('.over.writing') !== null;
    this.#tell(message, busy);
    if (busy) return;
    this.#choose({ place, focus: true });
    this.refusal = { place, typed, message };
  }

  #clear({ place }: Wishes['clear']): void {
    const at = this.#atPlace(place);
    if (!at) return;
    const standing = standingOf(at);
    if (standing === 'worked' || standing === 'check')
      this.#tell(`${titleOf(at)} is ${standing === 'check' ? 'a check' : 'worked out'} and is not cleared. Write over it if you mean to.`, true);
    else if (at.cell) {
      const answer = this.session?.run((book) => clearCells(book, { addresses: [addressOf(at)] }));
      if (answer) this.#tell(isRefused(answer) ? answer.message : `${titleOf(at)} cleared.`, isRefused(answer));
    }
  }

  async #write({ place }: Wishes['write']): Promise<void> {
    this.#choose({ place, focus: true });
    await this.updateComplete;
    await (this.querySelector('ob-page') as Part | null)?.updateComplete;
    const table = [...this.querySelectorAll<ObTable>('ob-table')].find((t) => t.table.id === place.table);
    if (!table) return;
    await table.updateComplete;
    table.take();
    await table.writing.open();
  }

  async #remove({ id, title }: Wishes['remove']): Promise<void> {
    if (!confirm(`Throw away “${title}”? It is not kept anywhere else, unless it was sent out as a file.`)) return;
    this.problem = await this.#keeping.remove(id);
    await this.#fillStart();
  }

  /** Says something through the live region; `show` puts it on the page too, for a while. */
  #tell(text: string, show = false): void {
    this.told = text;
    clearTimeout(this.#quiet);
    this.toggleAttribute('telling', show);
    if (show) this.#quiet = setTimeout(() => this.removeAttribute('telling'), 9000);
  }

  // ---- the desk: what commands work on

  get bookOpen(): boolean {
    return this.session !== undefined;
  }
  get canUndo(): boolean {
    return (this.session?.history.done.length ?? 0) > 0;
  }
  get canRedo(): boolean {
    return (this.session?.history.undone.length ?? 0) > 0;
  }
  get scenario(): string | undefined {
    const at = this.at;
    return at?.table.form === 'scenarios' ? columnHeading(at) : undefined;
  }
  get sameAs(): string | undefined {
    const at = this.at;
    const base = at && baseOf(at);
    if (!at || !base || standingOf(at) !== 'given') return undefined;
    return columnHeading(base);
  }
  get canDrop(): boolean {
    const at = this.at;
    return at?.table.form === 'scenarios' && at.table.columns.length > 1 && at.columnIndex !== baseColumn(at.table);
  }
  get hasMend(): boolean {
    const mend = this.#mend;
    return mend !== undefined && (mend.content !== undefined || mend.unit !== undefined);
  }
  get canReturn(): boolean {
    return this.#trail.length > 0;
  }
  get pages(): readonly { readonly id: string; readonly title: string }[] {
    return [...(this.session?.book.pages ?? []), ...(this.session ? OWN_PAGES : [])];
  }
  get #mend() {
    const at = this.at;
    const value = at && this.session && valueAt(this.session.values, addressOf(at));
    return value?.kind === 'error' ? value.mend : undefined;
  }

  undo(): void {
    const change = this.session?.undo();
    if (change) this.#tell(`Taken back: ${change.label}.`, true);
  }
  redo(): void {
    const change = this.session?.redo();
    if (change) this.#tell(`Made again: ${change.label}.`, true);
  }
  async sendOut(what: 'book' | 'wide' | 'tidy'): Promise<void> {
    const { session } = this;
    if (!session) return;
    await session.settled();
    const { sendOut } = await import('./sending.ts');
    this.#tell(`Sent out ${await sendOut(what, session.book, session.values)}.`, true);
  }
  async #sendDamaged(): Promise<void> {
    const { handOver } = await import('./sending.ts');
    handOver('damaged book.json', this.#damaged ?? '', 'application/json');
  }
  bringIn(): void {
    void this.#open({ what: 'file' });
  }
  print(): void {
    window.print();
  }
  find(): void {
    this.querySelector<ObCommandList>('ob-command-list')?.open();
  }
  async shelf(): Promise<void> {
    await this.#keeping.now();
    this.#leave();
    this.#keeping.forget();
    await this.#fillStart();
  }
  show(page: string): void {
    this.pageId = page;
    this.#drawer = false;
    this.#keeping.look({ page, ...(this.chosen ? { chosen: this.chosen } : {}) });
    if (page === 'functions') void import('./functions-page.ts');
    if (page === 'what-changed') void import('./changes.ts');
    void this.updateComplete.then(() => {
      this.querySelector('main')?.scrollTo({ top: 0 });
      this.querySelector<HTMLElement>('main h2')?.focus();
    });
  }
  async scenarioDo(verb: 'add' | 'drop' | 'same' | 'base'): Promise<void> {
    const { session } = this;
    if (!session) return;
    const { scenarioChange } = await import('./scenario-change.ts');
    const table = this.at?.table.form === 'scenarios' ? this.at.table : session.book.tables.find((t) => t.form === 'scenarios');
    const answer = table && session.run((book) => scenarioChange(verb, book, table, this.at));
    if (!answer) return;
    this.#tell('refused' in answer ? answer.message : `${answer.label}.`, true);
  }
  mend(): void {
    const { session, at } = this;
    const mend = this.#mend;
    if (!session || !at || !mend) return;
    const target = (mend.cell && cellAt(session.book, mend.cell)) || at;
    if (mend.content !== undefined) void this.#type({ place: placeOfAt(target), typed: mend.content });
    else if (mend.unit !== undefined && target.cell)
      void this.#type({ place: placeOfAt(target), typed: `${lineOf(valueAt(session.values, addressOf(target))).replace(/[^\d.,−-].*$/, '')} ${mend.unit}` });
  }
  light(): void {
    this.#tell(switchLight() === 'night' ? 'Night look.' : 'Day look.');
  }
  goBack(): void {
    const place = this.#trail.at(-1);
    if (!place) return;
    this.#trail = this.#trail.slice(0, -1);
    this.#choose({ place, focus: true });
  }
  rename(): void {
    this.querySelector<HTMLDialogElement>('dialog.naming')?.showModal();
  }

  #press = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    const field = event.target instanceof HTMLInputElement;
    const writing = field && (event.target.closest('.over')?.classList.contains('writing') ?? true);
    // Inside a field that is being written in, Ctrl Z and its like belong to the text.
    if (writing && /^[zy]$/i.test(event.key)) return;
    const found = commandFor(event, this);
    if (!found) return;
    event.preventDefault();
    found.run(this);
  };

  // ---- what is seen

  override render(): TemplateResult {
    const { session } = this;
    const saved = this.#keeping.word;
    return html`<div
        class="book ${session ? '' : 'closed'} ${this.#drawer ? 'drawer' : ''} ${this.#sheet ? 'raised' : ''}"
        @ob-choose=${(e: Wish<'choose'>) => this.#choose(e.detail)}
        @ob-type=${(e: Wish<'type'>) => void this.#type(e.detail)}
        @ob-clear=${(e: Wish<'clear'>) => this.#clear(e.detail)}
        @ob-tell=${(e: Wish<'tell'>) => this.#tell(e.detail.text, true)}
        @ob-page=${(e: Wish<'page'>) => this.show(e.detail.page)}
        @ob-do=${(e: Wish<'do'>) => command(e.detail.command).run(this)}
        @ob-open=${(e: Wish<'open'>) => void this.#open(e.detail)}
        @ob-remove=${(e: Wish<'remove'>) => void this.#remove(e.detail)}
        @ob-write=${(e: Wish<'write'>) => void this.#write(e.detail)}
      >
        ${cover({ desk: this, title: session?.book.title ?? '', client: session?.book.client ?? '', saved, busy: false, openDrawer: () => this.#toggleDrawer() })}
        ${session ? this.#openBook(session) : html`<main class="page"><ob-start .templates=${this.#templates} .shelf=${this.#shelf} .problem=${this.problem}></ob-start>${this.#damaged === undefined ? nothing : html`<div class="do"><button type="button" class="btn" @click=${() => void this.#sendDamaged()}>Send out what is kept of it as a file</button></div>`}</main>`}
      </div>
      <ob-command-list .desk=${this as Desk}></ob-command-list>
      ${session ? this.#naming(session) : nothing}
      <div class="told" role="status" aria-live="polite">${this.told}</div>`;
  }

  #openBook(session: Session): TemplateResult {
    const { book, values } = session;
    const page = book.pages.find((p) => p.id === this.pageId);
    const own = OWN_PAGES.find((p) => p.id === this.pageId);
    const title = page?.title ?? own?.title ?? '';
    const { letters, told } = this.#tracing;
    return html`
      <nav class="contents" aria-label="Contents">
        <div class="drawer-head"><b>Contents</b><button type="button" @click=${() => this.#toggleDrawer()}>Close</button></div>
        <ob-contents .book=${book} .values=${values} .tick=${this.tick} .page=${this.pageId} .changes=${session.history.done.length}></ob-contents>
        <div class="drawer-acts">${this.#drawer ? actions(this) : nothing}</div>
      </nav>
      <main class="page">
        <div class="print-head">${book.title}${book.client ? `, ${book.client}` : ''}</div>
        <h2 class="title" tabindex="-1">${title}</h2>
        ${session.trouble ? html`<p class="trouble" role="alert">${session.trouble}</p>` : nothing}
        ${this.#keepingTrouble()}
        ${
          page
            ? html`<ob-page .book=${book} .page=${page} .values=${values} .tick=${this.tick} .chosen=${this.chosen} .letters=${letters} .pending=${this.#pending} .refusal=${this.refusal} .desk=${this as Desk} .ask=${session.ask.bind(session)}></ob-page>`
            : own?.id === 'functions'
              ? html`<ob-functions></ob-functions>`
              : html`<ob-changes .history=${session.history}></ob-changes>`
        }
        <p class="print-foot">A planning estimate, to be confirmed by measurement. Mains wiring and protective devices: local codes and a licensed electrician.</p>
      </main>
      <aside class="working" aria-label="The working" tabindex="0">
        <button type="button" class="grab" aria-expanded=${this.#sheet} aria-label="The working, ${this.#sheet ? 'lower it' : 'raise it'}" @click=${() => this.#toggleSheet()}></button>
        <ob-working .book=${book} .values=${values} .tick=${this.tick} .at=${this.at} .told=${told} .letters=${letters} .desk=${this as Desk}></ob-working>
      </aside>
      ${this.#drawer ? html`<div class="shade" @click=${() => this.#toggleDrawer()}></div>` : nothing}`;
  }

  /** What is amiss with saving, and the ways out. */
  #keepingTrouble(): TemplateResult | typeof nothing {
    const { miss, news } = this.#keeping;
    if (!miss) return news ? html`<p class="trouble" role="status">${news}</p>` : nothing;
    return html`<div class="trouble" role="alert"><p>Not saved: ${miss.message}</p>
      <div class="do">
        <button type="button" class="btn" @click=${() => void this.sendOut('book')}>Send out the book as a file</button>
        ${miss.problem === 'changed elsewhere' ? html`<button type="button" class="btn" @click=${() => void this.#keepAsAnother()}>Keep this one as another book</button>` : nothing}
        ${miss.kept ? html`<button type="button" class="btn" @click=${() => void this.#open({ what: 'book', id: miss.kept?.id ?? '' })}>Open the one that was saved</button>` : nothing}
      </div></div>`;
  }

  async #keepAsAnother(): Promise<void> {
    const { session } = this;
    if (session) await this.#enter({ book: { ...session.book, id: crypto.randomUUID() }, history: session.history, revision: 0 });
  }

  #naming(session: Session): TemplateResult {
    return html`<dialog class="slip-box naming" aria-label="Name the plan and its client">
      <form method="dialog" class="begin" @submit=${(e: Event) => this.#rename(e)}>
        <label>Plan <input name="title" type="text" required autocomplete="off" .value=${session.book.title} /></label>
        <label>Client <input name="client" type="text" autocomplete="off" .value=${session.book.client} /></label>
        <div class="do"><button type="submit" class="btn first">Keep</button><button type="button" class="btn" @click=${(e: Event) => (e.target as HTMLElement).closest('dialog')?.close()}>Leave as it was</button></div>
      </form>
    </dialog>`;
  }

  #rename(event: Event): void {
    const { session } = this;
    if (!session) return;
    const data = new FormData(event.target as HTMLFormElement);
    const [title, client] = [String(data.get('title') ?? '').trim(), String(data.get('client') ?? '').trim()];
    const { book } = session;
    if (title === '' || (title === book.title && client === book.client)) return;
    session.dispatch({
      label: `Plan named ${title}${client ? `, for ${client}` : ''}`,
      edits: [{ at: 'book', before: { title: book.title, client: book.client }, after: { title, client } }],
    });
    document.title = `${title} · Overbench`;
  }

  #toggleDrawer(): void {
    this.#drawer = !this.#drawer;
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(this.#drawer ? '.drawer-head button' : '.drawer-button')?.focus());
  }

  #toggleSheet(): void {
    this.#sheet = !this.#sheet;
    this.requestUpdate();
  }
}
customElements.define('ob-app', ObApp);
