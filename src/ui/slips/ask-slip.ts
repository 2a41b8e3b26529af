import { html, nothing, type TemplateResult } from 'lit';
import { Part } from '../parts/part.ts';

/** A slip with one question: a name for a row, a scenario, a page. What can't be taken stays on it, with the reason. */
export class ObAskSlip extends Part {
  static override properties = { question: { state: true }, wrong: { state: true } };
  declare question: string;
  declare wrong: string;
  #keep: (text: string) => string | undefined = () => undefined;

  constructor() {
    super();
    this.question = '';
    this.wrong = '';
  }

  /** `keep` gives the reason where the text can't be taken. */
  async open(question: string, value: string, keep: (text: string) => string | undefined): Promise<void> {
    this.question = question;
    this.wrong = '';
    this.#keep = keep;
    await this.updateComplete;
    const input = this.querySelector('input');
    this.querySelector('dialog')?.showModal();
    if (!input) return;
    input.value = value;
    input.focus();
    input.select();
  }

  #close(): void {
    this.querySelector('dialog')?.close();
  }

  #take(event: Event): void {
    event.preventDefault();
    this.wrong = this.#keep(this.querySelector('input')?.value.trim() ?? '') ?? '';
    if (this.wrong === '') this.#close();
  }

  override render(): TemplateResult {
    return html`<dialog class="slip-box" aria-label=${this.question || 'A name'}>
      <form class="begin" @submit=${this.#take}>
        <label>${this.question} <input type="text" autocomplete="off" spellcheck="false" aria-describedby="ask-wrong" /></label>
        <p id="ask-wrong" class="wrong" role="status">${this.wrong || nothing}</p>
        <div class="do">
          <button type="submit" class="btn first">Keep</button>
          <button type="button" class="btn" @click=${() => this.#close()}>Leave as it was</button>
        </div>
      </form>
    </dialog>`;
  }
}
customElements.define('ob-ask-slip', ObAskSlip);
