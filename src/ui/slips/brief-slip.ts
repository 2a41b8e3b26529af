import { html, nothing, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import type { At } from '../../book/address.ts';
import { isOpen } from '../../book/allowed.ts';
import { HOURS, isByCrop, lightOfLines } from '../../book/crop-line.ts';
import { fitting, isWhole, standingLine, wholeLines } from '../../book/goes-with.ts';
import { noteOf, placeOf, rangeOf, sourceOf, titleOf } from '../../book/look-up.ts';
import { misfit } from '../../book/misfits.ts';
import { isLeft, mustBeAsked, questionsOn, saidBy, sourceText, TELLERS, type Teller } from '../../book/said-by.ts';
import { choicesOf, numberHints } from '../cells/index.ts';
import { type Place, placeOfAt, samePlace, type Wishes } from '../parts/index.ts';
import { Slip } from './slip.ts';

const WORDS: Readonly<Record<Teller, string>> = { client: 'the client', measured: 'measured', default: 'default, agreed', ours: 'ours' };

/** The brief, one question at a time. Enter keeps what is new and goes on, Shift Enter goes back, Escape puts the slip away. Nothing is agreed to by going on. */
export class ObBriefSlip extends Slip<Place | undefined> {
  static override properties = {
    place: { state: true },
    teller: { state: true },
    wrong: { state: true },
    cleared: { state: true },
    lines: { state: true },
    picked: { state: true },
  };
  /** The question asked. */
  declare place: Place | undefined;
  /** Who is said to have said so; undefined while nobody has. */
  declare teller: Teller | undefined;
  declare wrong: string;
  /** Of the answer that was emptied last: what it was. */
  declare cleared: string;
  /** Of what is picked as a whole line: those that fit what is written; none while the list is closed. */
  declare lines: readonly string[];
  /** The one that the keys stand at; -1 for what is written itself. */
  declare picked: number;

  /** The page that asks. */
  #page: string | undefined;
  #before = '';
  #saidBefore = '';
  /** Of several lines that fitted what was written, the one that Enter took. */
  #taken = '';

  constructor() {
    super();
    this.wrong = '';
    this.cleared = '';
    this.lines = [];
    this.picked = -1;
  }

  /** At a question, else at the first that is left. */
  async open(place: Place | undefined): Promise<void> {
    await this.updateComplete;
    const asking = this.around.session.book.pages
      .map((page) => ({ page, asked: questionsOn(this.around.session.book, page) }))
      .filter(({ asked }) => asked.length > 0);
    const isIt = (at: At): boolean => samePlace(place, placeOfAt(at));
    const { page, asked = [] } = asking.find((one) => one.asked.some(isIt)) ?? asking[0] ?? {};
    this.#page = page?.id;
    const first = asked.find(isIt) ?? asked.find(isLeft) ?? asked[0];
    if (!first) return;
    this.cleared = '';
    this.dialog?.showModal();
    await this.#ask(first);
  }

  get #asked(): readonly At[] {
    const page = this.around.session.book.pages.find((one) => one.id === this.#page);
    return page ? questionsOn(this.around.session.book, page) : [];
  }

  async #ask(at: At): Promise<void> {
    this.place = placeOfAt(at);
    this.wrong = '';
    this.#taken = '';
    const said = isLeft(at) ? undefined : saidBy(sourceOf(at));
    this.teller = said?.teller;
    this.lines = [];
    this.#before = standingLine(this.around.session.book, at) ?? (at.cell?.typed ?? at.cell?.content ?? '').replace(/^'/, '');
    this.#saidBefore = this.#saidText(said?.teller, said?.how ?? '');
    await this.updateComplete;
    const field = this.#field;
    if (field) field.value = this.#before;
    const how = this.querySelector<HTMLInputElement>('[name=how]');
    if (how) how.value = said?.how ?? '';
    field?.focus();
    if (field instanceof HTMLInputElement) field.select();
  }

  #saidText(teller: Teller | undefined, how: string): string {
    return teller ? sourceText(teller, how) : '';
  }

  get #field(): HTMLInputElement | HTMLSelectElement | null {
    return this.querySelector('[name=answer]');
  }

  get #how(): string {
    return this.querySelector<HTMLInputElement>('[name=how]')?.value.trim() ?? '';
  }

  /** A new answer over a default is taken to be the client's, until another is picked. */
  #written(): void {
    this.wrong = '';
    this.#taken = '';
    if (this.teller === undefined || this.teller === 'default') this.teller = 'client';
  }

  #pick(teller: Teller): void {
    const how = this.querySelector<HTMLInputElement>('[name=how]');
    // How the one said it is not how the other did; a default keeps what it was taken from.
    const at = this.#at;
    const said = at && saidBy(sourceOf(at));
    if (how) how.value = said?.teller === teller ? said.how.replace(/[,:]?\s*((as in the example|to begin with), )?ask the client.*$/u, '') : '';
    this.teller = teller;
  }

  get #at(): At | undefined {
    return this.#asked.find((at) => samePlace(this.place, placeOfAt(at)));
  }

  /** Keeps what is new of this answer. False where it is refused. */
  async #keep(): Promise<boolean> {
    const at = this.#at;
    const field = this.#field;
    if (!at || !field) return true;
    this.cleared = '';
    const typed = field.value === this.#before ? undefined : field.value;
    const unpicked = typed !== undefined && this.#unpicked(at, typed);
    if (unpicked) {
      this.wrong = unpicked;
      field.focus();
      return false;
    }
    const said = this.teller && this.#saidText(this.teller, this.#how) !== this.#saidBefore ? { teller: this.teller, how: this.#how } : undefined;
    if (typed === undefined && said === undefined) return true;
    const emptied = typed?.trim() === '';
    // A new answer goes together with who gave it, whether or not that is new as well; nobody gave none.
    const whole = emptied ? undefined : typed !== undefined && this.teller ? { teller: this.teller, how: this.#how } : said;
    const hours = this.#hours;
    const wrong = await this.#give({ place: placeOfAt(at), typed, said: whole });
    this.wrong = wrong ?? '';
    if (wrong !== undefined) field.focus();
    else if (emptied) this.cleared = `${titleOf(at)}: left unanswered; it was ${this.#before}. Undo brings it back.`;
    else this.cleared = [this.#taken, this.#misfit, hours !== this.#hours ? this.#hours : ''].filter(Boolean).join(' ');
    return wrong === undefined;
  }

  /** The hours of light where the crop sets them, and that it does. */
  get #hours(): string {
    const at = placeOf(this.around.session.book, HOURS);
    return at && isByCrop(at) ? `${titleOf(at)}: ${at.cell?.content ?? ''}, ${sourceOf(at)}.` : '';
  }

  /** Why a first answer is not kept alone: there are several lines of it, and what stands beside it goes with none. The list shows them. */
  #unpicked(at: At, written: string): string {
    const { book } = this.around.session;
    const all = wholeLines(book, at) ?? [];
    if (!isWhole(all, written)) return '';
    const wrong = misfit(book, { ...at, cell: { ...at.cell, content: written.trim() } });
    if (wrong === undefined) return '';
    this.lines = all.filter((line) => line.toLowerCase().startsWith(`${written.trim().toLowerCase()}, `));
    this.picked = 0;
    return `${wrong}; Enter takes the first of the list.`;
  }

  /** What stands beside this answer and does not go with it. */
  get #misfit(): string {
    const at = this.#at;
    const wrong = at && misfit(this.around.session.book, at);
    return wrong === undefined ? '' : `${wrong}.`;
  }

  /** Opens the list of whole lines at what is written, or at all of them. */
  #list(all: readonly string[], written: string): void {
    this.lines = fitting(all, written);
    this.picked = written.trim() === '' || isWhole(this.lines, written) ? this.lines.indexOf(this.#before) : Math.min(0, this.lines.length - 1);
  }

  #take(line: string): void {
    const field = this.#field;
    if (field) field.value = line;
    this.lines = [];
    this.#written();
    field?.focus();
  }

  /** True where the key was for the list. */
  #pressInList(event: KeyboardEvent): boolean {
    const at = this.#at;
    const all = at && wholeLines(this.around.session.book, at);
    if (!all || event.target !== this.#field || event.isComposing) return false;
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      if (this.lines.length === 0) this.#list(all, '');
      else
        this.picked =
          (this.picked + (event.key === 'ArrowDown' ? 1 : this.lines.length - 1) + (this.picked < 0 && event.key === 'ArrowUp' ? 1 : 0)) % this.lines.length;
      void this.updateComplete.then(() => this.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' }));
      return true;
    }
    if (event.key === 'Escape' && this.lines.length > 0) {
      event.preventDefault();
      event.stopPropagation();
      this.lines = [];
      return true;
    }
    const line = this.lines[this.picked];
    // Enter takes the line that the keys stand at, and goes on as after any answer.
    if (event.key === 'Enter' && line !== undefined) {
      const [written, fit] = [this.#field?.value.trim() ?? '', this.lines.length];
      const isFirst = this.picked === 0 && fit > 1 && written !== '' && written !== line;
      this.#take(line);
      if (isFirst) this.#taken = `${line}: the first of ${fit} that “${written}” may mean.`;
    }
    return false;
  }

  #give(answer: Omit<Wishes['answer'], 'taken'>): Promise<string | undefined> {
    return new Promise((taken) => this.say('answer', { ...answer, taken }));
  }

  /** A default that can be agreed to as it stands. What another client answered can not: this one must be asked. */
  get #agreeable(): boolean {
    const at = this.#at;
    return at !== undefined && isLeft(at) && this.#before !== '' && this.teller === undefined && !mustBeAsked(at);
  }

  async #go(step: 1 | -1, agree = false): Promise<void> {
    if (agree) this.#pick('default');
    if (!(await this.#keep())) return;
    const asked = this.#asked;
    const next = asked[asked.findIndex((at) => samePlace(this.place, placeOfAt(at))) + step];
    if (next) await this.#ask(next);
    else if (step === 1) this.#putAway();
  }

  async #goToLeft(): Promise<void> {
    if (!(await this.#keep())) return;
    const asked = this.#asked;
    const here = asked.findIndex((at) => samePlace(this.place, placeOfAt(at)));
    const next = [...asked.slice(here + 1), ...asked.slice(0, here + 1)].find(isLeft);
    if (next) await this.#ask(next);
    else this.#putAway();
  }

  /** The question that was asked is the one chosen on the page. */
  #leave(): void {
    if (this.place) this.say('choose', { place: this.place, focus: true });
  }

  #putAway(notKept = ''): void {
    this.close();
    const left = this.#asked.filter(isLeft).length;
    const far = left === 0 ? 'All questions of the brief are answered.' : `${left} of ${this.#asked.length} questions left.`;
    this.say('tell', { text: [notKept, this.cleared, far].filter(Boolean).join(' ') });
  }

  /** Whoever wants to go may: what is refused is not kept, and that is said. */
  async #done(): Promise<void> {
    const at = this.#at;
    const written = this.#field?.value ?? '';
    if (await this.#keep()) this.#putAway();
    else if (at) this.#putAway(`${titleOf(at)} stays as it was; “${written}” was not kept.`);
  }

  #press(event: KeyboardEvent): void {
    if (this.#pressInList(event) || event.key !== 'Enter' || event.isComposing || event.target instanceof HTMLButtonElement) return;
    event.preventDefault();
    void this.#go(event.shiftKey ? -1 : 1, (event.ctrlKey || event.metaKey) && this.#agreeable);
  }

  override render(): TemplateResult {
    const at = this.#at;
    return html`<dialog class="slip-box brief-slip" aria-label="The brief, one question at a time" @close=${this.#leave}>
      ${at && this.place ? keyed(`${this.place.table} ${this.place.row} ${this.place.column}`, this.#question(at)) : nothing}
    </dialog>`;
  }

  #question(at: At): TemplateResult {
    const asked = this.#asked;
    const number = asked.findIndex((other) => samePlace(this.place, placeOfAt(other))) + 1;
    const left = asked.filter(isLeft).length;
    const next = number === asked.length ? 'done' : 'next';
    const open = this.teller === undefined && isLeft(at);
    const source = sourceOf(at);
    const misfit =
      this.#before !== '' &&
      !isOpen(rangeOf(at) ?? {}) &&
      choicesOf(this.around.session.book, this.around.session.values, at)?.includes(this.#before) === false &&
      `${this.#before} does not go with the other answers: choose another from the list.`;
    const says = [...numberHints(at), isLeft(at) && this.#before !== '' && source && `The value now comes from: ${source}.`, misfit].filter(Boolean);
    return html`<form class="begin" @keydown=${this.#press} @submit=${(event: Event) => event.preventDefault()}>
      ${this.cleared ? html`<p class="cleared" role="status">${this.cleared}</p>` : nothing}
      <p class="far" role="status">Question ${number} of ${asked.length}, ${left === 0 ? 'none' : left} left</p>
      <progress max=${asked.length} value=${asked.length - left} aria-label="Answered"></progress>
      <label class="q" for="brief-answer">${titleOf(at)}</label>
      ${at.row.help || noteOf(at) ? html`<p class="why" id="brief-why">${at.row.help ?? noteOf(at)}</p>` : nothing}
      ${this.#answer(at)}
      <p class="hint" id="brief-says">${says.join(' ')}</p>
      <p class="wrong" id="brief-wrong" role="alert">${this.wrong || nothing}</p>
      <fieldset><legend>Who said so?</legend>
        <div class="tellers">${TELLERS.map((teller) => html`<label><input type="radio" name="teller" value=${teller} .checked=${this.teller === teller} @change=${() => this.#pick(teller)} /> ${WORDS[teller]}</label>`)}</div>
        <label class="manner">How, or where, if it helps <input name="how" type="text" autocomplete="off" /></label>
      </fieldset>
      <div class="do">
        <button type="button" class="btn" ?disabled=${number === 1} @click=${() => void this.#go(-1)}>Back</button>
        <button type="button" class="btn first" @click=${() => void this.#go(1)}>${open ? 'Leave it open' : 'Keep'}, and ${next}</button>
        ${this.#agreeable ? html`<button type="button" class="btn" @click=${() => void this.#go(1, true)}>Agree to it, and ${next}</button>` : nothing}
        <button type="button" class="btn" ?disabled=${left === 0} @click=${() => void this.#goToLeft()}>Next one left</button>
        <button type="button" class="btn" @click=${() => void this.#done()}>Done for now</button>
        <button type="button" class="btn for-touch" @click=${() => this.close()}>Leave this one as it was</button>
      </div>
      <p class="keys"><span><kbd>Enter</kbd> ${open ? 'leaves it open' : 'keeps it'} and goes on</span> ${this.#agreeable ? html`<span><kbd>Ctrl Enter</kbd> agrees to it</span> ` : nothing}<span><kbd>Shift Enter</kbd> goes back</span> <span><kbd>Esc</kbd> leaves this one as it was</span></p>
    </form>`;
  }

  #answer(at: At): TemplateResult {
    const described = 'brief-why brief-says brief-wrong';
    const lines = wholeLines(this.around.session.book, at);
    if (lines) return this.#lineField(lines, described);
    const choices = choicesOf(this.around.session.book, this.around.session.values, at);
    if (!choices || isOpen(rangeOf(at) ?? {}))
      return html`<input id="brief-answer" name="answer" type="text" list=${choices ? 'brief-choices' : nothing} autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="next" aria-describedby=${described} @input=${this.#written} />
        ${choices ? html`<datalist id="brief-choices">${choices.map((choice) => html`<option value=${choice}></option>`)}</datalist>` : nothing}`;
    // What stands there may be on the list no longer, or not be there at all.
    const other = choices.includes(this.#before) ? [] : [this.#before];
    return html`<select id="brief-answer" name="answer" aria-describedby=${described} @change=${this.#written}>
      ${[...other, ...choices].map((choice) => html`<option value=${choice}>${choice || 'not answered yet'}</option>`)}
    </select>`;
  }

  #lineField(all: readonly string[], described: string): TemplateResult {
    const open = this.lines.length > 0;
    const light = open && this.#at ? lightOfLines(this.around.session.book, this.#at) : new Map<string, string>();
    const written = (): void => {
      this.#written();
      this.#list(all, this.#field?.value ?? '');
    };
    return html`<input id="brief-answer" name="answer" type="text" role="combobox" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="next"
        aria-autocomplete="list" aria-expanded=${open} aria-controls=${open ? 'brief-lines' : nothing} aria-activedescendant=${open && this.picked >= 0 ? `brief-line-${this.picked}` : nothing}
        aria-describedby=${described} @input=${written} @click=${() => !open && this.#list(all, '')} />
      ${
        open
          ? html`<ul class="pick" role="listbox" id="brief-lines" aria-label="Pick one">${this.lines.map(
              (line, i) =>
                html`<li role="option" id="brief-line-${i}" aria-selected=${i === this.picked} @pointerdown=${(event: Event) => event.preventDefault()} @click=${() => this.#take(line)}>${line}${light.has(line) ? html` <small>${light.get(line)}</small>` : nothing}</li>`,
            )}</ul>`
          : nothing
      }
      <p class="unseen" role="status">${open ? `${this.lines.length} to pick from` : ''}</p>`;
  }
}
customElements.define('ob-brief-slip', ObBriefSlip);
