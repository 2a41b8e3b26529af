import { html, nothing, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import { Slip } from './slip.ts';

interface Question {
  readonly question: string;
  /** What stands there now. */
  readonly value: string;
  readonly change: (book: Book, text: string) => Answer;
}

/** A slip with one question: a name for a row, a scenario, a page. What can't be taken stays on it, with the reason. */
export class ObAskSlip extends Slip<Question> {
  static override properties = { question: { state: true }, wrong: { state: true } };
  declare question: string;
  declare wrong: string;
  #change: Question['change'] | undefined;

  constructor() {
    super();
    this.question = '';
    this.wrong = '';
  }

  async open({ question, value, change }: Question): Promise<void> {
    this.question = question;
    this.wrong = '';
    this.#change = change;
    await this.updateComplete;
    const input = this.querySelector('input');
    this.dialog?.showModal();
    if (!input) return;
    input.value = value;
    input.focus();
    input.select();
  }

  #take(event: Event): void {
    event.preventDefault();
    const change = this.#change;
    const text = this.querySelector('input')?.value.trim() ?? '';
    if (!change) return;
    this.say('change', {
      command: (book) => change(book, text),
      answered: (answer) => {
        this.wrong = isRefused(answer) ? answer.message : '';
        if (!isRefused(answer)) this.close();
      },
    });
  }

  override render(): TemplateResult {
    return html`<dialog class="slip-box" aria-label=${this.question || 'A name'}>
      <form class="begin" @submit=${this.#take}>
        <label>${this.question} <input type="text" autocomplete="off" spellcheck="false" aria-describedby="ask-wrong" /></label>
        <p id="ask-wrong" class="wrong" role="status">${this.wrong || nothing}</p>
        <div class="do">
          <button type="submit" class="btn first">Keep</button>
          <button type="button" class="btn" @click=${() => this.close()}>Leave as it was</button>
        </div>
      </form>
    </dialog>`;
  }
}
customElements.define('ob-ask-slip', ObAskSlip);
