/** The whole page: composes what stands on it with what keeps, opens, chooses, types and does, and hears the news of the open book. */
import { html, nothing, type TemplateResult } from 'lit';
import { addressOf } from '../../book/look-up.ts';
import type { Address } from '../../engine/types.ts';
import type { News, Session } from '../../session.ts';
import type { ObPage } from '../blocks/index.ts';
import { ObCommandList } from '../commands/index.ts';
import { beginDrafts, Part, type Wishes } from '../parts/index.ts';
import { ObSlips } from '../slips/index.ts';
import { chosenTable, writesIn } from '../table/index.ts';
import { cover } from './cover.ts';
import { Doing } from './doing.ts';
import { Entering } from './entering.ts';
import { Fetching } from './fetching.ts';
import type { View } from './found.ts';
import { Keeping } from './keeping.ts';
import type { Shell } from './shell.ts';
import './start.ts';
import { Telling } from './telling.ts';
import { Tracing } from './tracing.ts';
import { Typing } from './typing.ts';
import { Whereabouts } from './whereabouts.ts';
import { hearWishes } from './wishes.ts';

export class ObApp extends Part implements Shell {
  session: Session | undefined;
  drawer = false;
  sheet = false;
  citing: ReadonlyMap<Address, string> | undefined;
  shownPage: ObPage | undefined;

  readonly slips = new ObSlips();
  readonly list = new ObCommandList();
  readonly telling = new Telling(this);
  readonly whereabouts = new Whereabouts(this);
  readonly keeping = new Keeping(this);
  readonly typing = new Typing(this);
  readonly tracing = new Tracing(this);
  readonly fetching = new Fetching(this);
  readonly entering = new Entering(this, this.keeping);
  readonly doing = new Doing(this);
  readonly ask: Session['ask'] = (question) => this.session?.ask(question) ?? Promise.reject(new Error('No book is open.'));
  #openBook: typeof import('./open-book.ts').openBook | undefined;
  #unsubscribe: (() => void) | undefined;

  constructor() {
    super();
    hearWishes(this);
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

  async prepare(): Promise<void> {
    ({ openBook: this.#openBook } = await import('./open-book.ts'));
  }

  /** Shows a book that was opened. */
  enter(session: Session, view: View | undefined): void {
    this.session = session;
    this.#unsubscribe = session.subscribe((news) => this.#hear(news));
    this.whereabouts.enter(view);
    this.#name();
    this.#trace();
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('main h2')?.focus({ preventScroll: true }));
  }

  /** Puts the book away. */
  leave(): void {
    this.#unsubscribe?.();
    this.session?.close();
    this.session = undefined;
    this.whereabouts.leave();
    this.typing.forget();
    this.doing.leave();
    this.#name();
    this.requestUpdate();
  }

  #name(): void {
    document.title = this.session ? `${this.session.book.title} · Overbench` : 'Overbench';
  }

  #hear(news: News): void {
    if (news.kind === 'busy') {
      if (!news.busy) this.typing.release();
      return;
    }
    if (news.kind === 'values') {
      this.typing.settle((address) => news.changed.has(address));
      this.#trace();
    } else if (news.kind === 'book') {
      this.whereabouts.stay();
      this.#name();
      // The chosen cell may stand elsewhere now, though no value differs.
      this.#trace();
    }
    this.requestUpdate();
  }

  #trace(): void {
    const { at } = this.whereabouts;
    void this.tracing.ask(this.session, at && addressOf(at));
  }

  chose(): void {
    this.keeping.look(this.whereabouts.view);
    this.#trace();
  }

  turned(): void {
    this.drawer = false;
    this.keeping.look(this.whereabouts.view);
    this.fetching.forget();
    void this.updateComplete.then(() => {
      this.querySelector('main')?.scrollTo({ top: 0 });
      this.querySelector<HTMLElement>('main h2')?.focus();
    });
  }

  readonly takePage = (page: Element | undefined): void => {
    this.shownPage = page as ObPage | undefined;
  };

  cite(letters: ReadonlyMap<Address, string> | undefined): void {
    this.citing = letters;
    this.toggleAttribute('citing', letters !== undefined);
    this.requestUpdate();
  }

  async write({ place, text }: Wishes['write']): Promise<void> {
    this.whereabouts.choose({ place, focus: true });
    this.whereabouts.reveal(place);
    await (await this.takeCell())?.writing.open(text);
  }

  /** The chosen cell has the focus once its page is drawn. */
  async takeCell() {
    await this.updateComplete;
    await this.shownPage?.updateComplete;
    const table = chosenTable();
    await table?.updateComplete;
    table?.take();
    return table;
  }

  #press = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    // A table's own input is asked of the table: what is drawn may be behind what was pressed.
    const writing = event.target instanceof HTMLTextAreaElement || (event.target instanceof HTMLInputElement && (writesIn(event.target) ?? true));
    // Inside a field that is being written in, Ctrl Z and its like belong to the text.
    if (writing && /^[zy]$/i.test(event.key)) return;
    if (this.doing.press(event)) event.preventDefault();
  };

  toggleDrawer(): void {
    this.drawer = !this.drawer;
    this.telling.hush();
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(this.drawer ? '.drawer-head button' : '.drawer-button')?.focus());
  }

  toggleSheet(): void {
    this.sheet = !this.sheet;
    this.requestUpdate();
  }

  override willUpdate(): void {
    const { session } = this;
    this.slips.lieOn(session && { session, at: this.whereabouts.at });
  }

  override render(): TemplateResult {
    const { session, keeping, entering, doing, drawer, sheet } = this;
    const { title = '', client = '' } = session?.book ?? {};
    return html`<div class="book ${session ? '' : 'closed'} ${drawer ? 'drawer' : ''} ${sheet ? 'raised' : ''}">
        ${cover({ acts: doing.acts, bookOpen: session !== undefined, title, client, saved: keeping.word, openDrawer: () => this.toggleDrawer() })}
        ${session ? this.#openBook?.(this, session) : shelf(entering)}
      </div>
      ${this.list}${this.slips}
      <div class="told" role="status" aria-live="polite">${this.telling.text}</div>`;
  }
}

/** Where no book is open: what there is to open. */
const shelf = (entering: Entering): TemplateResult =>
  html`<main class="page"><ob-start .templates=${entering.templates} .fetchTemplate=${entering.fetchTemplate} .shelf=${entering.shelf} .problem=${entering.problem}></ob-start>${entering.damaged === undefined ? nothing : html`<div class="do"><button type="button" class="btn" @click=${() => void entering.sendDamaged()}>Send out what is kept of it as a file</button></div>`}</main>`;

beginDrafts();
customElements.define('ob-app', ObApp);
