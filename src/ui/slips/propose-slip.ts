/**
 * Scenarios proposed: the best arrangements of lights go into A, B and C, or the layouts that there are are looked through and one is taken. All is tried
 * on a copy of the book, in workers that stay as long as the book is open; the book is changed in one step, and by nothing before.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { joined } from '../../../functions/check-args.ts';
import { cellAt } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { putScenarios } from '../../book/commands/put-scenarios.ts';
import { setCell } from '../../book/commands/set-cell.ts';
import { standingOf } from '../../book/look-up.ts';
import { type Answer, isRefused, refused } from '../../book/refused.ts';
import type { Choices, Heard, Layout, Looked, Offered, Proposal, Proposed, Proposers, Way } from '../../engine/proposing/index.ts';
import type { Place } from '../parts/index.ts';
import type { Taken } from './found-layouts.ts';
import { choiceFields, choicesIn } from './layout-choices.ts';
import './found-layouts.ts';
import { inWords, type Units, unitsOf } from './layouts-shown.ts';
import { binding, counted, letterOf, reasons } from './proposals-view.ts';
import { Slip } from './slip.ts';
import '../styles/propose.css';

/** `fill`: what is found goes into the scenarios at once; `try`: it is looked through. */
type Mode = 'fill' | 'try';

/** Why nothing is searched for yet, and the question whose answer lacks. */
interface NotYet {
  readonly why: string;
  readonly question?: { readonly place: Place; readonly title: string };
}

/** ms between two drawings of what was found, while more is. */
const DRAWN = 250;
/** ms between two sayings of how far a search is: more would be talked over. */
const TOLD = 5_000;
/** Scenarios that are proposed for. */
const FILLED = 3;
const NONE: readonly Proposal[] = [];
const TAKEN_BACK = 'Taken back: the scenarios are as they were.';

export class ObProposeSlip extends Slip<Mode | NotYet> {
  static override properties = {
    mode: { state: true },
    heard: { state: true },
    offered: { state: true },
    layouts: { state: true },
    proposed: { state: true },
    found: { state: true },
    trouble: { state: true },
    wrong: { state: true },
    said: { state: true },
    filled: { state: true },
    notYet: { state: true },
  };
  declare mode: Mode;
  /** What stands in the way before anything is searched for: it stays until it is read. */
  declare notYet: NotYet | undefined;
  /** How far the search is; undefined while none is at work. */
  declare heard: Heard | undefined;
  declare offered: Offered | undefined;
  /** In the space that is searched. */
  declare layouts: number;
  declare proposed: Proposed | undefined;
  /** Of a search for all: those that there are so far. */
  declare found: readonly Layout[];
  declare trouble: string;
  /** What is amiss with the choices, or with what was to be changed. */
  declare wrong: string;
  /** Said aloud. */
  declare said: string;
  /** The book as it was filled, for as long as it is that. */
  declare filled: Book | undefined;

  #proposers: Proposers | undefined;
  #work = new AbortController();
  #choices: Choices = {};
  /** Found, and not drawn yet. */
  #fresh: Layout[] = [];
  #drawn = 0;
  /** When it was last said how far the search is. */
  #told = 0;

  constructor() {
    super();
    this.mode = 'fill';
    this.layouts = 0;
    this.found = [];
    this.trouble = '';
    this.wrong = '';
    this.said = '';
  }

  /** The book is put away. */
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#work.abort();
    this.#proposers?.close();
  }

  async open(asked: Mode | NotYet): Promise<void> {
    this.notYet = typeof asked === 'string' ? undefined : asked;
    if (typeof asked === 'string') return this.#begin(asked);
    this.#work.abort();
    await this.updateComplete;
    if (!this.isOpen) this.dialog?.showModal();
    // What has the focus is read aloud, and what describes it: the reason.
    this.querySelector<HTMLElement>('.do .btn')?.focus();
  }

  #answer({ place }: NonNullable<NotYet['question']>): void {
    this.close();
    this.say('question', { place });
  }

  #waiting({ why, question }: NotYet): TemplateResult {
    return html`<dialog class="slip-box propose" aria-labelledby="propose-name" aria-describedby="propose-not-yet">
      <h2 id="propose-name" tabindex="-1">Propose scenarios</h2>
      <p id="propose-not-yet" role="alert">${why}</p>
      <div class="do">
        ${question ? html`<button type="button" class="btn first" @click=${() => this.#answer(question)}>Answer it: ${question.title}</button>` : nothing}
        <button type="button" class="btn" @click=${() => this.close()}>Close</button>
      </div>
    </dialog>`;
  }

  async #begin(mode: Mode): Promise<void> {
    this.mode = mode;
    this.#choices = {};
    this.offered = undefined;
    await this.updateComplete;
    if (!this.isOpen) this.dialog?.showModal();
    this.querySelector<HTMLElement>('h2')?.focus();
    // What else is asked for does not wait for it.
    void this.#search();
  }

  async #search(): Promise<void> {
    this.#work.abort();
    const own = new AbortController();
    this.#work = own;
    Object.assign(this, { proposed: undefined, found: [], trouble: '', wrong: '', filled: undefined });
    this.#fresh = [];
    this.heard = { tried: 0, of: 0, hold: 0, found: [] };
    this.#tell('Trying layouts.', performance.now());
    try {
      this.#proposers ??= (await import('../../engine/proposing/index.ts')).createProposers();
      await this.around.session.settled();
      const { book } = this.around.session;
      const proposed = await this.#proposers.search(book, { ...this.#choices, ...(this.mode === 'try' ? { all: true } : {}) }, this.#hearing(own));
      if (this.#work === own) this.#done(proposed, book, own.signal.aborted);
    } catch (error) {
      if (this.#work !== own) return;
      this.trouble = error instanceof Error ? error.message : String(error);
      this.said = '';
    } finally {
      if (this.#work === own) this.heard = undefined;
    }
  }

  #hearing(own: AbortController): Parameters<Proposers['search']>[2] {
    return {
      signal: own.signal,
      offered: (offered) => {
        if (this.#work !== own) return;
        // What may be chosen is what was offered first, of which later searches may have less.
        this.offered ??= offered;
        this.layouts = offered.plan.layouts;
      },
      heard: (heard) => {
        if (this.#work !== own) return;
        const now = performance.now();
        if (heard.hold > 0 && this.heard?.hold === 0) this.#tell('The first are found.', now);
        else if (now - this.#told > TOLD) this.#tell(`${heard.tried.toLocaleString('en-GB')} of ${heard.of.toLocaleString('en-GB')} tried.`, now);
        this.heard = heard;
        this.#fresh.push(...heard.found);
        if (now - this.#drawn > DRAWN) this.#draw(now);
      },
    };
  }

  #tell(text: string, now: number): void {
    this.said = text;
    this.#told = now;
  }

  #draw(now: number): void {
    this.#drawn = now;
    if (this.#fresh.length > 0) this.found = [...this.found, ...this.#fresh.splice(0)];
  }

  #done(proposed: Proposed, book: Book, stopped: boolean): void {
    this.proposed = proposed;
    this.found = proposed.all;
    this.said = `${stopped ? 'Stopped. ' : ''}${counted(proposed.counts, this.mode === 'try')}`;
    if (this.mode === 'fill' && !stopped && proposed.proposals.length > 0) this.#fill(proposed, book);
  }

  #fill({ table, proposals }: Proposed, book: Book): void {
    const letters = proposals.slice(0, FILLED).map((_, n) => letterOf(this.#table, n));
    const label = `Proposed: ${proposals.map(({ aim }, n) => `${letters[n]} ${aim}`).join(', ')}`;
    const scenarios = proposals.slice(0, FILLED).map(({ cells, why }) => ({ givens: cells, why }));
    this.#change(book, (now) => putScenarios(now, { table, scenarios, label }), `${joined(letters)} ${letters.length === 1 ? 'is' : 'are'} filled.`);
  }

  #change(book: Book, command: (book: Book) => Answer, done: string, then?: () => void): void {
    this.say('change', {
      command: (now) => (now === book ? command(now) : refused('The book changed meanwhile: try once more.')),
      answered: (answer) => {
        this.wrong = isRefused(answer) ? answer.message : '';
        this.said = isRefused(answer) ? '' : done;
        this.filled = isRefused(answer) ? undefined : this.around.session.book;
        if (isRefused(answer)) return;
        if (then) then();
        else this.#proposers?.prepare(this.around.session.book);
      },
      plain: true,
    });
  }

  /** The scenarios that it is about. */
  get #table(): Table | undefined {
    const { tables } = this.around.session.book;
    return tables.find(({ id }) => id === (this.proposed?.table ?? this.offered?.plan.table));
  }

  readonly #look = (layout: Layout): Promise<Looked> => this.#proposers?.look(layout) ?? Promise.reject(new Error('Nothing was searched yet.'));

  readonly #take = ({ layout, cells, column }: Taken): void => {
    const table = this.#table;
    if (!table) return;
    const words = inWords(layout, this.#units);
    const letter = letterOf(table, column);
    const scenarios = Array.from({ length: column + 1 }, (_, n) =>
      n === column ? { givens: cells, why: `taken from the layouts that were tried: ${words}.` } : undefined,
    );
    this.#change(
      this.around.session.book,
      (now) => putScenarios(now, { table: table.id, scenarios, label: `Scenario ${letter}: ${words}` }),
      `${letter} is now ${words}.`,
    );
  };

  /** Writes what would let something through, and tries again. */
  #let(way: Way): (() => void) | undefined {
    const { session } = this.around;
    const at = cellAt(session.book, way.address);
    if (!at || standingOf(at) !== 'given') return undefined;
    return () => {
      this.#change(
        session.book,
        (now) => setCell(now, { address: way.address, content: way.content }),
        way.said,
        () => void this.#search(),
      );
    };
  }

  #tryThese(event: Event): void {
    event.preventDefault();
    const { offered } = this;
    if (!offered) return;
    const choices = choicesIn(new FormData(event.target as HTMLFormElement), offered, this.#units);
    this.wrong = typeof choices === 'string' ? choices : '';
    if (typeof choices === 'string') return;
    this.#choices = choices;
    void this.#search();
  }

  get #units(): Units {
    const { book } = this.around.session;
    return unitsOf(book, this.#table ?? book.tables.find(({ form }) => form === 'scenarios'));
  }

  #leave(): void {
    this.#work.abort();
    this.close();
  }

  override willUpdate(): void {
    if (this.filled === undefined || this.filled === this.around.session.book) return;
    this.filled = undefined;
    if (this.mode === 'fill' && this.said !== TAKEN_BACK) this.said = 'The scenarios are another way by now than they were filled.';
  }

  /** A button that was pressed and is gone has lost the focus, and with it the slip its keys. */
  override updated(): void {
    if (this.isOpen && document.activeElement === document.body) this.querySelector<HTMLElement>('h2')?.focus();
  }

  override render(): TemplateResult {
    const { mode, trouble, wrong, notYet } = this;
    if (notYet) return this.#waiting(notYet);
    return html`<dialog class="slip-box propose" aria-labelledby="propose-name" @close=${() => this.#work.abort()}>
      <h2 id="propose-name" tabindex="-1">${mode === 'fill' ? 'Propose scenarios' : 'Try layouts'}</h2>
      ${mode === 'try' ? this.#asked() : nothing}
      ${this.#progress()}
      ${trouble || wrong ? html`<p class="wrong" role="alert">${trouble || wrong}</p>` : nothing}
      <div role="status"><p>${this.said}</p>${mode === 'fill' ? this.#reasons() : nothing}${this.proposed?.said.map((one) => html`<p>${one}</p>`)}${this.#binds()}</div>
      ${mode === 'try' && this.found.length > 0 ? html`<ob-found-layouts .found=${this.found} .proposals=${this.proposed?.proposals ?? NONE} .table=${this.#table} .units=${this.#units} .look=${this.#look} .take=${this.#take}></ob-found-layouts>` : nothing}
      <div class="do">
        ${this.#acts()}
        <button type="button" class="btn" @click=${() => this.#leave()}>Close</button>
      </div>
      <p class="hint">Each is a planning estimate. What is wired, protected and hung is for a licensed electrician and for whoever installs it to confirm, by the code of the place.</p>
    </dialog>`;
  }

  #progress(): TemplateResult | typeof nothing {
    const { heard } = this;
    if (!heard) return nothing;
    const { tried, of, hold } = heard;
    const n = (count: number): string => count.toLocaleString('en-GB');
    const going = `${n(tried)} of ${n(of)} tried${this.mode === 'try' ? `, ${n(hold)} hold` : ''}`;
    const words = of === 0 ? 'Getting ready …' : tried < of ? going : `All ${n(of)} tried. Working out what comes of it …`;
    return html`<div class="going"><progress aria-label="Layouts tried" max="1" value=${of === 0 ? 0 : tried / of}></progress><span>${words}</span>
      <button type="button" class="btn" @click=${() => this.#work.abort()}>Stop</button></div>`;
  }

  #reasons(): TemplateResult | typeof nothing {
    const { proposed } = this;
    if (!proposed || proposed.proposals.length === 0) return nothing;
    return html`${reasons(proposed.proposals.slice(0, FILLED), this.#table, this.#units)}
      ${this.filled ? html`<p class="hint">${counted(proposed.counts, this.mode === 'try')}</p>` : nothing}`;
  }

  #binds(): TemplateResult | typeof nothing {
    const { proposed } = this;
    if (!proposed?.binds || proposed.counts.hold > 0) return nothing;
    return binding(proposed.binds, (way) => this.#let(way));
  }

  #acts(): TemplateResult | typeof nothing {
    const { mode, heard, proposed, filled } = this;
    const { book } = this.around.session;
    if (mode === 'try' || heard) return nothing;
    const some = proposed !== undefined && proposed.proposals.length > 0;
    return html`
      ${filled === book ? html`<button type="button" class="btn" @click=${() => this.#back()}>Take it back</button>` : nothing}
      ${some && filled === undefined ? html`<button type="button" class="btn first" @click=${() => this.#fill(proposed, book)}>Fill the scenarios with these</button>` : nothing}
      <button type="button" class="btn" @click=${() => void this.#begin('try')}>Try layouts</button>`;
  }

  #back(): void {
    this.filled = undefined;
    this.said = TAKEN_BACK;
    this.say('take-back', {});
  }

  /** What may be tried; folded, for what is found is looked at first. */
  #asked(): TemplateResult | typeof nothing {
    const { offered } = this;
    if (!offered) return nothing;
    return html`<details class="tried"><summary>What is tried: ${this.layouts.toLocaleString('en-GB')} layouts. Choose …</summary>
      <form class="begin" @submit=${(e: Event) => this.#tryThese(e)}>${choiceFields(offered, this.#units)}
        <div class="do"><button type="submit" class="btn first">Try these</button></div></form></details>`;
  }
}
customElements.define('ob-propose-slip', ObProposeSlip);
