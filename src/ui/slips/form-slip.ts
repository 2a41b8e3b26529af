import { html, nothing, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import '../styles/blocks.css';
import { Slip } from './slip.ts';

interface Field {
  readonly name: string;
  readonly label: string;
  /** What stands in it at first. */
  readonly value?: string;
  /** One of these is picked: what it gives, and its words. */
  readonly pick?: readonly (readonly [value: string, words: string])[];
  /** It is a whole number from 1 to this. */
  readonly most?: number;
}

/** A slip with a few fields, or with a question only. */
export interface Form {
  readonly name: string;
  readonly says?: string;
  readonly fields?: readonly Field[];
  /** What would come of the fields as they stand, where that is to be told beforehand; empty: nothing. */
  readonly foretells?: (given: (field: string) => string) => string;
  /** On the key that keeps it. */
  readonly keep: string;
  readonly change: (book: Book, given: (field: string) => string) => Answer;
  /** Where one goes on once it is made: to a page, or to a piece of the page. */
  readonly after?: (book: Book) => { readonly page: string } | { readonly piece: string | undefined };
}

/** What can't be taken stays on it, with the reason. */
export class ObFormSlip extends Slip<Form> {
  static override properties = { form: { state: true }, wrong: { state: true }, foretold: { state: true } };
  declare form: Form | undefined;
  declare wrong: string;
  declare foretold: string;

  constructor() {
    super();
    this.wrong = '';
    this.foretold = '';
  }

  async open(form: Form): Promise<void> {
    this.wrong = '';
    this.foretold = '';
    this.form = form;
    await this.updateComplete;
    this.querySelector('form')?.reset();
    this.dialog?.showModal();
  }

  /** What was asked is no longer there to be drawn. */
  #closed(): void {
    if (!this.isOpen) this.form = undefined;
  }

  #given(): (field: string) => string {
    const data = new FormData(this.querySelector('form') ?? undefined);
    return (field) => String(data.get(field) ?? '').trim();
  }

  #keep(event: Event): void {
    event.preventDefault();
    const { form } = this;
    if (!form) return;
    const given = this.#given();
    this.say('change', {
      command: (book) => form.change(book, given),
      answered: (answer) => {
        if (isRefused(answer)) {
          this.wrong = answer.message;
          return;
        }
        this.close();
        const next = form.after?.(this.around.session.book);
        if (!next) return;
        if ('page' in next) this.say('page', next);
        else this.say('piece-focus', { block: next.piece });
      },
    });
  }

  override render(): TemplateResult {
    const { form } = this;
    return html`<dialog class="slip-box arranging" aria-labelledby="arranging-name" @close=${this.#closed}>
      ${
        form
          ? html`<form class="begin" @submit=${this.#keep} @input=${() => (this.foretold = form.foretells?.(this.#given()) ?? '')}>
        <h2 id="arranging-name">${form.name}</h2>
        ${form.says ? html`<p>${form.says}</p>` : nothing}
        ${form.fields?.map(field)}
        ${form.foretells ? html`<p role="status">${this.foretold}</p>` : nothing}
        ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
        <div class="do">
          <button type="submit" class="btn first">${form.keep}</button>
          <button type="button" class="btn" @click=${() => this.close()}>Leave it as it was</button>
        </div>
      </form>`
          : nothing
      }
    </dialog>`;
  }
}
customElements.define('ob-form-slip', ObFormSlip);

function field({ name, label, value = '', pick, most }: Field): TemplateResult {
  if (pick) return html`<label>${label} <select name=${name}>${pick.map(([gives, words]) => html`<option value=${gives}>${words}</option>`)}</select></label>`;
  if (most !== undefined) return html`<label>${label} <input name=${name} type="number" min="1" max=${most} required .defaultValue=${value} /></label>`;
  return html`<label>${label} <input name=${name} type="text" required autocomplete="off" .defaultValue=${value} /></label>`;
}
