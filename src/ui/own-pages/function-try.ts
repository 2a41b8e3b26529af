import { html, nothing, type TemplateResult } from 'lit';
import type { At } from '../../book/address.ts';
import { addressOf, titleOf } from '../../book/look-up.ts';
import type { Value } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { lineOf } from '../cells/index.ts';
import { Part, placeOfAt } from '../parts/index.ts';

const nameOf = (at: At | undefined): string => (at ? `${addressOf(at)} ${titleOf(at)}` : '');
/** A cell is looked up anew at every turn of the page: only another one, or another name for it, is news to over a hundred entries. */
export const anotherCell = (a: At | undefined, b: At | undefined): boolean => nameOf(a) !== nameOf(b);

/** A formula to be tried: it begins as an example, may be written over, is worked out beside the book, and may be put into the chosen cell. */
export class ObTry extends Part {
  static override properties = {
    name: { attribute: false },
    formula: { attribute: false },
    ask: { attribute: false },
    at: { attribute: false, hasChanged: anotherCell },
    answer: { state: true },
  };
  declare name: string;
  declare formula: string;
  declare ask: Session['ask'];
  /** The chosen cell. */
  declare at: At | undefined;
  declare answer: Value | undefined;

  get #typed(): string {
    const text = this.querySelector('input')?.value.trim() ?? '';
    return text.startsWith('=') ? text : `=${text}`;
  }

  async #work(event: Event): Promise<void> {
    event.preventDefault();
    const formula = this.#typed;
    const answer = await this.ask((engine) => engine.evaluate(formula)).catch(
      (error: Error): Value => ({ kind: 'error', word: 'not worked out', message: error.message }),
    );
    // Written over meanwhile: the answer would stand beside another formula.
    if (formula === this.#typed) this.answer = answer;
  }

  override render(): TemplateResult {
    const { at, answer } = this;
    return html`<form class="try" @submit=${this.#work}>
      <input type="text" autocomplete="off" autocapitalize="off" spellcheck="false" aria-label="Try ${this.name}" .value=${`=${this.formula}`} @input=${() => {
        this.answer = undefined;
      }} />
      <button type="submit" class="btn">Work it out</button>
      <button type="button" class="btn" ?disabled=${!at} @click=${() => at && this.say('write', { place: placeOfAt(at), text: this.#typed })}>Put into ${at ? titleOf(at) : 'the chosen cell'}</button>
      <p role="status" class=${answer?.kind === 'error' ? 'wrong' : ''}>${answer ? answerText(answer) : nothing}</p>
    </form>`;
  }
}
customElements.define('ob-try', ObTry);

function answerText(value: Value): string {
  if (value.kind === 'error') return value.message;
  return value.kind === 'blank' ? 'Gives nothing.' : `Gives ${lineOf(value)}`;
}
