/** What was understood of an enquiry: the text with its findings underlined, and beside it each of them, to be kept, changed or dropped. */
import { html, nothing, type TemplateResult } from 'lit';
import { showNumber, withSpaces } from '../../../functions/quantity-text.ts';
import { need, toBase } from '../../../functions/units.ts';
import type { Book } from '../../book/book.ts';
import { placeOf, titleOf } from '../../book/look-up.ts';
import type { Answers, Finding, Kept, Unused } from '../../enquiry/index.ts';
import { Part } from '../parts/index.ts';
import '../styles/enquiry.css';

export interface Understood extends Answers {
  readonly text: string;
  /** In which the givens are called by their labels. */
  readonly book: Book;
}

type State = 'kept' | 'dropped' | 'asked';

interface Decision {
  readonly state: State;
  readonly typed: string;
}

const rowsText = (rows: readonly (readonly (number | null)[])[]): string => rows.map((row) => row.map((cell) => cell ?? '–').join(' ')).join(' / ');

export class ObUnderstood extends Part {
  static override properties = { understood: { attribute: false }, decisions: { state: true }, here: { state: true } };
  declare understood: Understood;
  declare decisions: readonly Decision[];
  /** The finding that the focus is in. */
  declare here: number | undefined;

  constructor() {
    super();
    this.decisions = [];
  }

  override willUpdate(changed: Map<string, unknown>): void {
    if (changed.has('understood')) this.decisions = this.understood.findings.map((one) => ({ state: one.sure ? 'kept' : 'asked', typed: this.#typed(one) }));
  }

  /** As it would be typed: lengths as a tape in the client's hand has them. */
  #typed({ value, unit }: Finding): string {
    if (Array.isArray(value)) return rowsText(value);
    if (typeof value === 'number' && unit === 'm' && this.understood.measures === 'US customary')
      return withSpaces(showNumber(toBase(value, need('m')), 'ft').text);
    const shown = unit.startsWith('/') ? '' : unit;
    return `${typeof value === 'number' ? Number(value.toPrecision(10)) : value} ${shown}`.trimEnd();
  }

  get kept(): readonly Kept[] {
    return this.understood.findings.flatMap((one, i): Kept[] => {
      const decision = this.decisions[i];
      if (decision?.state !== 'kept') return [];
      const { given, words, value } = one;
      return [{ given, words, typed: decision.typed, ...(Array.isArray(value) && { rows: value }) }];
    });
  }

  #decide(i: number, made: Partial<Decision>): void {
    const { given } = this.understood.findings[i] as Finding;
    this.decisions = this.decisions.map((one, n) => {
      if (n === i) return { ...one, ...made };
      // A given has one answer: where one is kept, the others that were said are not.
      return made.state === 'kept' && this.understood.findings[n]?.given === given ? { ...one, state: 'dropped' } : one;
    });
  }

  /** Those that are asked and alone of their given. */
  #keepAlone(): void {
    const { findings } = this.understood;
    this.decisions = this.decisions.map((one, i) =>
      one.state === 'asked' && findings.filter(({ given }) => given === findings[i]?.given).length === 1 ? { ...one, state: 'kept' } : one,
    );
  }

  override render(): TemplateResult {
    const { findings, unused, missing } = this.understood;
    const asked = this.decisions.filter(({ state }) => state === 'asked').length;
    return html`<div class="understood">
      <section aria-label="What the client wrote"><p class="wrote" tabindex="0">${this.#text()}</p></section>
      <section aria-label="What was understood">
        <p class="said" role="status">${findings.length === 0 ? 'Nothing was found that the plan asks for.' : `${findings.length} found, ${asked === 0 ? 'none left to decide' : `${asked} to decide`}.`}</p>
        ${asked > 1 ? html`<div class="do"><button type="button" class="btn" @click=${() => this.#keepAlone()}>Keep all that are said once</button></div>` : nothing}
        <ul class="findings">${findings.map((one, i) => this.#finding(one, i))}</ul>
        ${unused.length > 0 ? html`<p class="why">Said and not used: ${unused.map((one, i) => html`${i > 0 ? '; ' : ''}“${one.words}”${one.said ? html` <b>${one.said}</b>` : nothing}`)}.</p>` : nothing}
        ${missing.length > 0 ? html`<p class="why">Left to ask: ${missing.map((name) => this.#title(name)).join(', ')}.</p>` : nothing}
      </section>
    </div>`;
  }

  #title(given: string): string {
    const at = placeOf(this.understood.book, given);
    return at ? titleOf(at) : given;
  }

  #finding(one: Finding, i: number): TemplateResult {
    const { state, typed } = this.decisions[i] ?? { state: 'asked', typed: '' };
    const title = this.#title(one.given);
    return html`<li class="finding ${state}" @focusin=${() => {
      this.here = i;
    }}>
      <label for="found-${i}">${title}</label>
      ${
        Array.isArray(one.value)
          ? html`<output id="found-${i}" aria-describedby="words-${i}" tabindex="0">${typed}</output>`
          : html`<input id="found-${i}" type="text" autocomplete="off" aria-describedby="words-${i}" .value=${typed} @change=${(event: Event) => this.#decide(i, { state: 'kept', typed: (event.target as HTMLInputElement).value })} />`
      }
      <div class="do" role="group" aria-label="${title}: keep or drop">
        <button type="button" class="btn" aria-pressed=${state === 'kept'} aria-describedby="words-${i}" @click=${() => this.#decide(i, { state: 'kept' })}>Keep</button>
        <button type="button" class="btn" aria-pressed=${state === 'dropped'} aria-describedby="words-${i}" @click=${() => this.#decide(i, { state: 'dropped' })}>Drop</button>
      </div>
      <p class="why" id="words-${i}">“${one.words.replace(/\s+/gu, ' ')}”${one.said ? html` · ${one.said}` : nothing}</p>
    </li>`;
  }

  /** The text in pieces: where findings share words, the first of them has the line. */
  #text(): readonly TemplateResult[] {
    const { text, findings, unused } = this.understood;
    const marks = [
      ...findings.map(({ at, sure }, i) => ({ at, i, kind: sure ? 'of-sure' : 'of-asked' })),
      ...unused.map(({ at }: Unused) => ({ at, i: -1, kind: 'of-none' })),
    ].sort((a, b) => a.at[0] - b.at[0] || b.at[1] - a.at[1]);
    const pieces: TemplateResult[] = [];
    let done = 0;
    for (const { at, i, kind } of marks) {
      if (at[0] < done) continue;
      const same = this.here !== undefined && findings[this.here]?.at[0] === at[0];
      const words = text.slice(...at);
      pieces.push(html`${text.slice(done, at[0])}`, html`<mark class="${kind} ${same ? 'here' : ''}" @click=${() => this.#goTo(i)}>${words}</mark>`);
      done = at[1];
    }
    pieces.push(html`${text.slice(done, done + SHOWN)}${text.length > done + SHOWN ? ' …' : ''}`);
    return pieces;
  }

  #goTo(i: number): void {
    this.querySelector<HTMLElement>(`#found-${i}`)?.focus();
  }
}
customElements.define('ob-understood', ObUnderstood);

/** Letters of a text behind its last finding that are shown. */
const SHOWN = 20_000;
