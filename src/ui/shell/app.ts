/** The whole page: composes the elements, holds what is open and chosen, and turns their wishes into changes of the book. */
import { html, nothing, type TemplateResult } from 'lit';
import type { At } from '../../book/address.ts';
import type { Area } from '../../book/area.ts';
import { renameBook } from '../../book/commands/rename.ts';
import { addressOf } from '../../book/look-up.ts';
import { isRefused } from '../../book/refused.ts';
import type { Address } from '../../engine/types.ts';
import type { News, Session } from '../../session.ts';
import type { ObArranging } from '../blocks/arranging.ts';
import type { Verb } from '../blocks/verbs.ts';
import type { ObBriefSlip } from '../slips/brief-slip.ts';
import type { ObBringIn } from '../slips/bring-in.ts';
import '../commands/command-list.ts';
import type { ObCommandList } from '../commands/command-list.ts';
import { command, commandFor } from '../commands/commands.ts';
import { loadOwnPage, OWN_PAGES, PageDesk } from '../commands/desk.ts';
import { cover, drawerActions } from './cover.ts';
import { Entering } from './entering.ts';
import { Fetching } from './fetching.ts';
import type { View } from './found.ts';
import { Keeping } from './keeping.ts';
import type { Room } from './room.ts';
import { Tracing } from './tracing.ts';
import { Typing } from './typing.ts';
import { Whereabouts } from './whereabouts.ts';
import './naming.ts';
import type { ObPage } from '../blocks/page-view.ts';
import { Part, type Place, type Wishes } from '../parts/part.ts';
import type { ObNaming } from './naming.ts';
import './start.ts';
import { slips } from '../slips/slips.ts';
import type { ObUnitSlip } from '../slips/unit-slip.ts';
import { chosenTable } from '../table/selection.ts';
import type { ObTable } from '../table/table.ts';
import type { Refusal } from '../table/table-host.ts';

type Wish<K extends keyof Wishes> = CustomEvent<Wishes[K]>;

export class ObApp extends Part implements Room {
  static override properties = {
    tick: { state: true },
    pageId: { state: true },
    chosen: { state: true },
    anchor: { state: true },
    refusal: { state: true },
    told: { state: true },
  };
  declare tick: number;
  declare pageId: string;
  declare chosen: Place | undefined;
  /** The other corner of the chosen block. */
  declare anchor: Place | undefined;
  declare refusal: Refusal | undefined;
  /** The last thing said aloud; shown as well where it is not plain from the page. */
  declare told: string;

  session: Session | undefined;
  readonly #desk = new PageDesk(this);
  readonly #keeping = new Keeping(this);
  readonly #entering = new Entering(this, this.#keeping);
  readonly #typing = new Typing(this);
  readonly #whereabouts = new Whereabouts(this);
  readonly #tracing = new Tracing(this);
  readonly #fetching = new Fetching(this);
  /** The same function at every turn, so that elements are not told that it changed. */
  readonly #asking: Session['ask'] = (question) => this.session?.ask(question) ?? Promise.reject(new Error('No book is open.'));
  #quiet: ReturnType<typeof setTimeout> | undefined;
  #drawer = false;
  #sheet = false;
  /** Letters of the formula that is being written. */
  #citing: ReadonlyMap<Address, string> | undefined;
  #unsubscribe: (() => void) | undefined;

  constructor() {
    super();
    this.tick = 0;
    this.pageId = '';
    this.told = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('keydown', this.#press);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener('keydown', this.#press);
    this.#unsubscribe?.();
  }

  /** Shows a book that was opened. */
  enter(session: Session, view: View | undefined): void {
    this.session = session;
    this.#unsubscribe = session.subscribe((news) => this.#hear(news));
    this.pageId = view?.page ?? session.book.pages[0]?.id ?? '';
    loadOwnPage(this.pageId);
    this.chosen = view?.chosen;
    document.title = `${session.book.title} · Overbench`;
    this.#ask();
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('main h2')?.focus({ preventScroll: true }));
  }

  /** Puts the book away. */
  leave(): void {
    this.#unsubscribe?.();
    this.session?.close();
    this.session = undefined;
    this.chosen = undefined;
    this.refusal = undefined;
    this.#whereabouts.forget();
    this.#typing.forget();
    document.title = 'Overbench';
  }

  #hear(news: News): void {
    if (news.kind === 'busy') {
      if (!news.busy) this.#typing.release();
      return;
    }
    if (news.kind === 'values') {
      this.tick++;
      this.#typing.settle((address) => news.changed.has(address));
      this.#ask();
    } else if (news.kind === 'book') {
      this.tick++;
      this.#whereabouts.stayNear();
      this.#stayOnPage();
      // The chosen cell may stand elsewhere now, though no value differs.
      this.#ask();
    }
    this.requestUpdate();
  }

  get at(): At | undefined {
    return this.#whereabouts.at;
  }

  get area(): Area | undefined {
    return this.#whereabouts.area;
  }

  atPlace(place: Place): At | undefined {
    return this.#whereabouts.atPlace(place);
  }

  #ask(): void {
    const at = this.at;
    void this.#tracing.ask(this.session, at && addressOf(at));
  }

  /** A page that an undone change takes away is not shown any longer. */
  #stayOnPage(): void {
    const pages = [...(this.session?.book.pages ?? []), ...OWN_PAGES];
    if (!pages.some((page) => page.id === this.pageId)) this.pageId = pages[0]?.id ?? '';
  }

  // ---- wishes of the elements

  async type(wish: Wishes['type']): Promise<void> {
    await this.#typing.type(wish);
  }

  #cite({ letters }: Wishes['letters']): void {
    this.#citing = letters;
    this.toggleAttribute('citing', letters !== undefined);
    this.requestUpdate();
  }

  /** Opens a cell of any page with a text that is put forward to be kept. */
  async write({ place, text }: Wishes['write']): Promise<void> {
    this.choose({ place, focus: true });
    this.#whereabouts.reveal(place);
    await this.updateComplete;
    await (this.querySelector('ob-page') as Part | null)?.updateComplete;
    const table = [...this.querySelectorAll<ObTable>('ob-table')].find((t) => t.table.id === place.table);
    if (!table) return;
    await table.updateComplete;
    table.take();
    await table.writing.open(text);
  }

  /** Says something through the live region; `show` puts it on the page too, for a while. */
  tell(text: string, show = false): void {
    this.told = text;
    clearTimeout(this.#quiet);
    this.toggleAttribute('telling', show);
    if (show) this.#quiet = setTimeout(() => this.removeAttribute('telling'), 9000);
  }

  async #menu(what: 'row' | 'column'): Promise<void> {
    const { ObLineMenu } = await import('../table/line-menu.ts');
    const menu = this.slip('ob-line-menu');
    if (menu instanceof ObLineMenu) await menu.open(what);
  }

  // ---- what the desk needs of the page

  slip<T extends Element>(tag: string): T | null {
    return this.querySelector<T>(tag);
  }

  choose(wish: Wishes['choose']): void {
    if (!this.#whereabouts.choose(wish)) return;
    this.#keeping.look({ page: this.pageId, ...(this.chosen ? { chosen: this.chosen } : {}) });
    this.#ask();
  }

  chooseOn(): void {
    this.#whereabouts.chooseOn();
    this.tell('Point at the other corner of the block.', true);
  }

  get canReturn(): boolean {
    return this.#whereabouts.canReturn;
  }

  goBack(): void {
    this.#whereabouts.goBack();
  }

  toWorking(): void {
    const working = this.querySelector<HTMLElement>('.working');
    if (working?.contains(document.activeElement)) chosenTable()?.take();
    else working?.focus();
  }

  bringIn(): void {
    void this.#entering.open({ what: 'file' });
  }

  find(): void {
    this.querySelector<ObCommandList>('ob-command-list')?.open();
  }

  nameIt(): void {
    this.querySelector<ObNaming>('ob-naming')?.open();
  }

  async askUnit(what: 'cell' | 'row'): Promise<void> {
    await import('../slips/unit-slip.ts');
    await this.querySelector<ObUnitSlip>('ob-unit-slip')?.open(what);
  }

  async askQuestions(place = this.chosen): Promise<void> {
    await import('../slips/brief-slip.ts');
    this.querySelector<ObBriefSlip>('ob-brief-slip')?.open(place);
  }

  async arrange(verb: Verb): Promise<void> {
    await import('../blocks/arranging.ts');
    await this.querySelector<ObArranging>('ob-arranging')?.arrange(verb);
  }

  async bringTable(file: File): Promise<void> {
    await import('../slips/bring-in.ts');
    await this.querySelector<ObBringIn>('ob-bring-in')?.open({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) });
  }

  toShelf(): Promise<void> {
    return this.#entering.toShelf();
  }

  showPage(page: string): void {
    this.pageId = page;
    this.#drawer = false;
    this.requestUpdate();
    this.#keeping.look({ page, ...(this.chosen ? { chosen: this.chosen } : {}) });
    this.#fetching.forget();
    loadOwnPage(page);
    void this.updateComplete.then(() => {
      this.querySelector('main')?.scrollTo({ top: 0 });
      this.querySelector<HTMLElement>('main h2')?.focus();
    });
  }

  #press = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    const field = event.target instanceof HTMLInputElement ? event.target : undefined;
    // A table's own input is asked of the table: what is drawn may be behind what was pressed.
    const writing = event.target instanceof HTMLTextAreaElement || (field !== undefined && (field.closest<ObTable>('ob-table')?.writing.isOpen ?? true));
    // Inside a field that is being written in, Ctrl Z and its like belong to the text.
    if (writing && /^[zy]$/i.test(event.key)) return;
    const found = commandFor(event, this.#desk);
    if (!found) return;
    event.preventDefault();
    found.run(this.#desk);
  };

  // ---- what is seen

  override render(): TemplateResult {
    const { session } = this;
    const saved = this.#keeping.word;
    const entering = this.#entering;
    return html`<div
        class="book ${session ? '' : 'closed'} ${this.#drawer ? 'drawer' : ''} ${this.#sheet ? 'raised' : ''}"
        @ob-choose=${(e: Wish<'choose'>) => this.choose(e.detail)}
        @ob-type=${(e: Wish<'type'>) => void this.type(e.detail)}
        @ob-paste=${(e: Wish<'paste'>) => void this.#desk.paste(e.detail)}
        @ob-clear=${() => this.#desk.clear()}
        @ob-menu=${(e: Wish<'menu'>) => void this.#menu(e.detail.what)}
        @ob-tell=${(e: Wish<'tell'>) => this.tell(e.detail.text, true)}
        @ob-page=${(e: Wish<'page'>) => this.showPage(e.detail.page)}
        @ob-letters=${(e: Wish<'letters'>) => this.#cite(e.detail)}
        @ob-change=${(e: Wish<'change'>) => this.#desk.change(e.detail)}
        @ob-text=${(e: Wish<'text'>) => void this.querySelector<ObPage>('ob-page')?.write(e.detail)}
        @ob-piece-focus=${(e: Wish<'piece-focus'>) => void this.updateComplete.then(() => this.querySelector<ObPage>('ob-page')?.focusPiece(e.detail.block))}
        @ob-do=${(e: Wish<'do'>) => command(e.detail.command).run(this.#desk)}
        @ob-open=${(e: Wish<'open'>) => void this.#entering.open(e.detail)}
        @ob-remove=${(e: Wish<'remove'>) => void this.#entering.remove(e.detail)}
        @ob-write=${(e: Wish<'write'>) => void this.write(e.detail)}
        @ob-question=${(e: Wish<'question'>) => void this.askQuestions(e.detail.place)}
      >
        ${cover({ desk: this.#desk, title: session?.book.title ?? '', client: session?.book.client ?? '', saved, busy: false, openDrawer: () => this.#toggleDrawer() })}
        ${session ? this.#openBook(session) : html`<main class="page"><ob-start .templates=${entering.templates} .shelf=${entering.shelf} .problem=${entering.problem}></ob-start>${entering.damaged === undefined ? nothing : html`<div class="do"><button type="button" class="btn" @click=${() => void this.#entering.sendDamaged()}>Send out what is kept of it as a file</button></div>`}</main>`}
        ${session ? html`<ob-arranging .session=${session} .desk=${this.#desk} .pageId=${this.pageId} .tick=${this.tick}></ob-arranging>` : nothing}
      </div>
      <ob-command-list .desk=${this.#desk}></ob-command-list>
      ${
        session
          ? html`<ob-naming .book=${session.book} @ob-name=${(e: Wish<'name'>) => this.#name(e.detail)}></ob-naming>
        <ob-bring-in .session=${session} @ob-bring=${(e: Wish<'bring'>) => this.#desk.take(e.detail.change)} @ob-page=${(e: Wish<'page'>) => this.showPage(e.detail.page)}></ob-bring-in>
        <ob-brief-slip .book=${session.book} .values=${session.values} .tick=${this.tick} .take=${this.#desk.answer} @ob-choose=${(e: Wish<'choose'>) => this.choose(e.detail)} @ob-tell=${(e: Wish<'tell'>) => this.tell(e.detail.text, true)}></ob-brief-slip>
        <ob-unit-slip .at=${this.at} .values=${session.values} @ob-unit=${(e: Wish<'unit'>) => void this.#desk.showIn(e.detail)}></ob-unit-slip>`
          : nothing
      }
      ${session ? slips(this.#desk) : nothing}
      <div class="told" role="status" aria-live="polite">${this.told}</div>`;
  }

  #openBook(session: Session): TemplateResult {
    const { book, values } = session;
    const page = book.pages.find((p) => p.id === this.pageId);
    const own = OWN_PAGES.find((p) => p.id === this.pageId);
    const title = page?.title ?? own?.title ?? '';
    const { told } = this.#tracing;
    const letters = this.#citing ?? this.#tracing.letters;
    return html`
      <nav class="contents" aria-label="Contents">
        <div class="drawer-head"><b>Contents</b><button type="button" @click=${() => this.#toggleDrawer()}>Close</button></div>
        <ob-contents .book=${book} .values=${values} .tick=${this.tick} .page=${this.pageId} .changes=${session.history.done.length}></ob-contents>
        <div class="drawer-acts">${this.#drawer ? drawerActions(this.#desk) : nothing}</div>
      </nav>
      <main class="page">
        <div class="print-head">${book.title}${book.client ? `, ${book.client}` : ''}</div>
        <h2 class="title" tabindex="-1">${title}</h2>
        ${session.trouble ? html`<p class="trouble" role="alert">${session.trouble}</p>` : nothing}
        ${this.#keepingTrouble()}${this.#fetching.trouble(this.#keeping)}
        ${
          page
            ? html`<ob-page .book=${book} .page=${page} .values=${values} .tick=${this.tick} .chosen=${this.chosen} .anchor=${this.anchor} .letters=${letters} .pending=${this.#typing.pending} .refusal=${this.refusal} .desk=${this.#desk} .ask=${this.#asking}></ob-page>`
            : own?.id === 'functions'
              ? html`<ob-functions .ask=${this.#asking} .at=${this.at}></ob-functions>`
              : own?.id === 'hand-over'
                ? html`<ob-handover .book=${book} .values=${values} .tick=${this.tick} .ask=${this.#asking}></ob-handover>`
                : html`<ob-changes .history=${session.history}></ob-changes>`
        }
        <p class="print-foot">A planning estimate, to be confirmed by measurement. Mains wiring and protective devices: local codes and a licensed electrician.</p>
      </main>
      <aside class="working" aria-label="The working" tabindex="0">
        <button type="button" class="grab" aria-expanded=${this.#sheet} aria-label="The working, ${this.#sheet ? 'lower it' : 'raise it'}" @click=${() => this.#toggleSheet()}></button>
        <ob-working .book=${book} .values=${values} .tick=${this.tick} .at=${this.at} .told=${told} .letters=${this.#citing ? UNLETTERED : letters} .desk=${this.#desk}></ob-working>
      </aside>
      ${this.#drawer ? html`<div class="shade" @click=${() => this.#toggleDrawer()}></div>` : nothing}`;
  }

  /** What is amiss with saving, and the ways out. */
  #keepingTrouble(): TemplateResult | typeof nothing {
    const { miss, news } = this.#keeping;
    if (!miss) return news ? html`<p class="trouble" role="status">${news}</p>` : nothing;
    return html`<div class="trouble" role="alert"><p>Not saved. ${miss.message}</p>
      <div class="do">
        <button type="button" class="btn" @click=${() => void this.#desk.sendOut('book')}>Send out the book as a file</button>
        ${miss.problem === 'changed elsewhere' ? nothing : html`<button type="button" class="btn" @click=${() => void this.#keeping.now()}>Try again</button>`}
        ${miss.problem === 'changed elsewhere' ? html`<button type="button" class="btn" @click=${() => void this.#entering.keepAsAnother()}>Keep this one as another book</button>` : nothing}
        ${miss.kept ? html`<button type="button" class="btn" @click=${() => void this.#entering.open({ what: 'book', id: miss.kept?.id ?? '' })}>Open the one that was saved</button>` : nothing}
      </div></div>`;
  }

  #name({ title, client }: Wishes['name']): void {
    const { session } = this;
    if (!session) return;
    const answer = session.run((book) => renameBook(book, { title, client }));
    if (isRefused(answer)) this.tell(answer.message, true);
    document.title = `${session.book.title} · Overbench`;
  }

  #toggleDrawer(): void {
    this.#drawer = !this.#drawer;
    this.removeAttribute('telling');
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(this.#drawer ? '.drawer-head button' : '.drawer-button')?.focus());
  }

  #toggleSheet(): void {
    this.#sheet = !this.#sheet;
    this.requestUpdate();
  }
}

/** While a formula is written its letters are on the page, and the margin has none. */
const UNLETTERED: ReadonlyMap<Address, string> = new Map();

customElements.define('ob-app', ObApp);
