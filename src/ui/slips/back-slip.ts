/** A slip on which one says what a worked cell should come to and which givens may move for it; what is found can be put in with one press. */
import { html, nothing, type TemplateResult } from 'lit';
import { counted } from '../../../functions/number-text.ts';
import { cellAt } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { setCell } from '../../book/commands/set-cell.ts';
import { titleOf } from '../../book/look-up.ts';
import { isRefused, refused } from '../../book/refused.ts';
import type { Address, Stay, Tried, WayBack, WorkedBack } from '../../engine/types.ts';
import { BLANK, checkOf } from '../../shown.ts';
import { allowedText } from '../cells/index.ts';
import '../styles/back.css';
import { exactText, givesText, sentenceOf, shownAt, titleAt, turnsOf } from './back-words.ts';
import { Slip } from './slip.ts';

/** Givens that are listed at first: those that lie nearest. */
const SHOWN = 6;
/** Work that takes so long, ms, shows how far it is. */
const SHOW_AFTER = 500;
/** Cells that change which are listed. */
const LISTED = 60;

interface Found {
  readonly given: Address;
  readonly worked: WorkedBack;
}

export class ObBackSlip extends Slip<{ readonly cell: Address }> {
  static override properties = {
    cell: { state: true },
    givens: { state: true },
    all: { state: true },
    found: { state: true },
    share: { state: true },
    slow: { state: true },
    wrong: { state: true },
  };
  declare cell: Address | undefined;
  declare givens: readonly Address[];
  declare all: boolean;
  declare found: readonly Found[];
  /** From 0 to 1 while it is worked back. */
  declare share: number | undefined;
  declare slow: boolean;
  declare wrong: string;
  #wanted = '';
  /** The book that it was worked back for. */
  #book: Book | undefined;
  #work = new AbortController();

  constructor() {
    super();
    this.#clear();
  }

  #clear(): void {
    this.givens = [];
    this.all = false;
    this.found = [];
    this.share = undefined;
    this.slow = false;
    this.wrong = '';
  }

  async open({ cell }: { readonly cell: Address }): Promise<void> {
    this.#work.abort();
    this.#clear();
    this.cell = cell;
    await this.updateComplete;
    const input = this.querySelector<HTMLInputElement>('[name=wanted]');
    if (input) input.value = checkOf(this.#now) ? 'holds' : '';
    this.dialog?.showModal();
    input?.focus();
    input?.select();
    const { session } = this.around;
    try {
      this.givens = await session.ask((engine) => engine.givensOf(cell));
      if (this.givens.length === 0) this.wrong = 'It follows from no given that could move.';
    } catch (error) {
      this.wrong = error instanceof Error ? error.message : String(error);
    }
  }

  get #now() {
    return (this.cell !== undefined && this.around.session.values[this.cell]) || BLANK;
  }

  /** A mistake of units is put right first: with it nothing can be compared. */
  get #mistake(): string {
    const now = this.#now;
    return now.kind === 'error' && now.word === 'unit error' ? `A mistake of units stands in the way. ${now.message}` : '';
  }

  async #take(event: Event): Promise<void> {
    event.preventDefault();
    const { cell } = this;
    const data = new FormData(event.target as HTMLFormElement);
    const wanted = String(data.get('wanted') ?? '').trim();
    const givens = data.getAll('given').map(String);
    this.found = [];
    this.wrong = wanted === '' ? 'Say what it should come to.' : givens.length === 0 ? 'Tick what may move.' : '';
    if (cell === undefined || this.wrong !== '') return;
    this.#wanted = wanted;
    this.#work.abort();
    const work = new AbortController();
    this.#work = work;
    this.share = 0;
    const late = setTimeout(() => {
      this.slow = true;
    }, SHOW_AFTER);
    try {
      await this.#workBack(cell, wanted, givens, work);
    } catch (error) {
      if (this.#work === work) this.wrong = error instanceof Error ? error.message : String(error);
    } finally {
      clearTimeout(late);
      if (this.#work === work) {
        this.share = undefined;
        this.slow = false;
      }
    }
  }

  async #workBack(cell: Address, wanted: string, givens: readonly Address[], work: AbortController): Promise<void> {
    const { session } = this.around;
    await session.settled();
    this.#book = session.book;
    const found: Found[] = [];
    for (const [i, given] of givens.entries()) {
      const share = (done: number): void => {
        if (this.#work === work) this.share = (i + done) / givens.length;
      };
      const worked = await session.ask((engine) => engine.back({ cell, wanted, given }, { share, signal: work.signal }));
      if (this.#work !== work) return;
      if (work.signal.aborted) {
        this.wrong = 'Stopped. The book is as it was.';
        break;
      }
      found.push({ given, worked });
    }
    // What is wrong with what was typed is the same for all.
    const [first] = found;
    const same = first && !first.worked.ok && found.every(({ worked }) => !worked.ok && !first.worked.ok && worked.message === first.worked.message);
    if (same && !first.worked.ok) this.wrong = first.worked.message;
    else this.found = found;
  }

  #stop(): void {
    this.#work.abort();
  }

  #put(given: Address, content: string): void {
    const { cell } = this;
    const made = this.#book;
    this.say('change', {
      command: (book) => {
        if (book !== made || cell === undefined) return refused('The book changed meanwhile. Work it back once more.');
        return setCell(book, { address: given, content, source: `worked back: ${titleAt(book, cell)} to be ${this.#wanted}` });
      },
      answered: (answer) => {
        this.wrong = isRefused(answer) ? answer.message : '';
        if (!isRefused(answer)) this.close();
      },
    });
  }

  #closed(): void {
    this.#stop();
    if (!this.isOpen) this.found = [];
  }

  override render(): TemplateResult {
    const { book } = this.around.session;
    const { cell, wrong, found } = this;
    const mistake = this.#mistake;
    const title = cell === undefined ? '' : titleAt(book, cell);
    const busy = this.share !== undefined;
    const said = wrong || found.map(({ given, worked }) => sentenceOf(book, cell ?? '', given, worked)).join(' ');
    return html`<dialog class="slip-box back-slip" aria-labelledby="back-name" @close=${this.#closed}>
      <form class="begin" @submit=${this.#take}>
        <h2 id="back-name">Work back from ${title}</h2>
        <p>It comes to ${cell === undefined ? '' : shownAt(book, cell, this.#now)}. Say what it should come to, and what may move for it. The book stays as it is until you put something in.</p>
        <label>It should come to <input name="wanted" type="text" autocomplete="off" autocapitalize="off" spellcheck="false" aria-describedby="back-hint" ?disabled=${mistake !== ''} /></label>
        <p id="back-hint" class="hint">A value, or another cell that it should equal, such as Scenarios.B14.</p>
        ${this.#choice(book)}
        <div class="do">
          <button type="submit" class="btn first" ?disabled=${busy || mistake !== ''}>Work it back</button>
          ${busy ? html`<button type="button" class="btn" @click=${() => this.#stop()}>Stop</button>` : nothing}
          <button type="button" class="btn" @click=${() => this.close()}>Leave as it was</button>
          ${this.slow ? html`<progress aria-label="Worked back" .value=${this.share ?? 0}></progress>` : nothing}
        </div>
        <p class="${wrong || mistake ? 'wrong' : 'said'}" role="status">${mistake || said}</p>
        ${wrong ? nothing : found.map((one) => this.#ofGiven(book, one))}
      </form>
    </dialog>`;
  }

  #choice(book: Book): TemplateResult | typeof nothing {
    const { givens, all } = this;
    if (givens.length === 0) return nothing;
    const listed = all ? givens : givens.slice(0, SHOWN);
    return html`<fieldset><legend>May move, each alone</legend>
      <div class="givens">${listed.map((given, i) => {
        const at = cellAt(book, given);
        const value = this.around.session.values[given] ?? BLANK;
        const allowed = at ? allowedText(at) : '';
        return html`<label><input type="checkbox" name="given" value=${given} ?checked=${i === 0} /> <span>${at ? titleOf(at) : given} <small>${shownAt(book, given, value) || 'blank'}${allowed ? `; ${allowed}` : ''}</small></span></label>`;
      })}</div>
      ${listed.length < givens.length ? html`<button type="button" class="link" @click=${() => this.#showAll()}>Show all ${givens.length}</button>` : nothing}
    </fieldset>`;
  }

  /** The first that comes new takes the place of the button in hand. */
  async #showAll(): Promise<void> {
    this.all = true;
    await this.updateComplete;
    this.querySelectorAll<HTMLInputElement>('[name=given]')[SHOWN]?.focus();
  }

  #ofGiven(book: Book, { given, worked }: Found): TemplateResult {
    const title = titleAt(book, given);
    if (!worked.ok) return html`<section aria-label=${title}><h3>${title}</h3><p>${worked.message}</p></section>`;
    const { ways, untold, lowest, highest, stay } = worked;
    return html`<section aria-label=${title}>
      <h3>${title}</h3>
      ${ways.map((way) => this.#way(book, given, way))}
      ${ways.length === 0 && lowest && highest ? html`<p>What can be reached:</p>${[lowest, highest].map((one) => this.#line(book, given, one))}` : nothing}
      ${stay ? this.#stay(given, stay) : nothing}
      ${untold === undefined ? nothing : html`<p class="hint">Of ${counted(untold, 'further cell')} it is not told whether they change.</p>`}
    </section>`;
  }

  #way(book: Book, given: Address, way: WayBack): TemplateResult {
    switch (way.kind) {
      case 'exact':
        return html`<div class="way">${this.#line(book, given, way.exact)}${way.rounded ? this.#line(book, given, way.rounded) : nothing}${this.#others(book, way.rounded ?? way.exact)}</div>`;
      case 'stretch':
        return html`<div class="way"><p>Anything from the one to the other:</p>${this.#line(book, given, way.from)}${this.#line(book, given, way.to)}${this.#others(book, way.from)}</div>`;
      case 'step':
        return html`<div class="way"><p>It goes by steps, one below and one above:</p>${[way.from, way.to].map((one) => html`${this.#line(book, given, one)}${this.#others(book, one)}`)}</div>`;
      case 'nearest':
        return html`<div class="way"><p>None is just that; the nearest:</p>${[way.below, way.above].map((one) => (one ? html`${this.#line(book, given, one)}${this.#others(book, one)}` : nothing))}</div>`;
    }
  }

  /** What is put in, what it gives, and what puts it in. */
  #line(book: Book, given: Address, tried: Tried): TemplateResult {
    const text = exactText(tried.content);
    return html`<div class="try"><span><b>${text}</b> gives ${givesText(book, this.cell ?? '', tried)}</span>
      <button type="button" class="btn" aria-label="Put ${text} in" @click=${() => this.#put(given, tried.content)}>Put in</button></div>`;
  }

  #others(book: Book, tried: Tried): TemplateResult {
    const turns = turnsOf(tried);
    const rest = tried.others.filter(({ address }) => !turns.some((turn) => turn.address === address));
    return html`${
      turns.length > 0
        ? html`<ul class="turns">${turns.map((turn) => html`<li>${titleAt(book, turn.address)}: ${turn.from} → <span class="tag ${turn.state}">${turn.to}</span> ${turn.margin}</li>`)}</ul>`
        : html`<p class="hint">No check turns.</p>`
    }
      ${
        rest.length > 0
          ? html`<details><summary>${rest.length} other ${rest.length === 1 ? 'cell changes' : 'cells change'}</summary>
        <ul>${rest.slice(0, LISTED).map(({ address, before, after }) => html`<li>${titleAt(book, address)}: ${shownAt(book, address, before) || 'blank'} → ${shownAt(book, address, after) || 'blank'}</li>`)}${rest.length > LISTED ? html`<li>and ${rest.length - LISTED} more</li>` : nothing}</ul></details>`
          : nothing
      }`;
  }

  #stay(given: Address, stay: Stay): TemplateResult {
    if ('why' in stay) return html`<p class="hint">It can’t be made to stay so by a formula. ${stay.why}</p>`;
    const { formula, exact, tried } = stay;
    return html`<div class="try"><span>To make it stay so whatever else changes, give it the formula <code>${formula}</code>${exact ? '' : `, which comes near: it gives ${givesText(this.around.session.book, this.cell ?? '', tried)}`}</span>
      <button type="button" class="btn" @click=${() => this.#put(given, tried.content)}>Make it stay</button></div>`;
  }
}
customElements.define('ob-back-slip', ObBackSlip);
