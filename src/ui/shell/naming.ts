import { html, type PropertyValues, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import { Part } from '../parts/part.ts';

/** A slip on which the plan and its client are named. */
export class ObNaming extends Part {
  static override properties = { book: { attribute: false } };
  declare book: Book;

  override updated(changed: PropertyValues): void {
    if (!changed.has('book')) return;
    for (const field of ['title', 'client'] as const) {
      const input = this.querySelector<HTMLInputElement>(`input[name=${field}]`);
      if (input) input.value = this.book[field];
    }
  }

  open(): void {
    this.querySelector('dialog')?.showModal();
  }

  #keep(event: Event): void {
    const data = new FormData(event.target as HTMLFormElement);
    this.say('name', { title: String(data.get('title') ?? '').trim(), client: String(data.get('client') ?? '').trim() });
  }

  override render(): TemplateResult {
    return html`<dialog class="slip-box naming" aria-label="Name the plan and its client">
      <form method="dialog" class="begin" @submit=${this.#keep}>
        <label>Plan <input name="title" type="text" required autocomplete="off" /></label>
        <label>Client <input name="client" type="text" autocomplete="off" /></label>
        <div class="do">
          <button type="submit" class="btn first">Keep</button>
          <button type="button" class="btn" @click=${() => this.querySelector('dialog')?.close()}>Leave as it was</button>
        </div>
      </form>
    </dialog>`;
  }
}
customElements.define('ob-naming', ObNaming);
