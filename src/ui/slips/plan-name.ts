import { html, type TemplateResult } from 'lit';
import { renameBook } from '../../book/commands/rename.ts';
import { Slip } from './slip.ts';

/** A slip on which the plan and its client are named. */
export class ObPlanName extends Slip<undefined> {
  async open(): Promise<void> {
    await this.updateComplete;
    const { book } = this.around.session;
    for (const field of ['title', 'client'] as const) {
      const input = this.querySelector<HTMLInputElement>(`input[name=${field}]`);
      if (input) input.value = book[field];
    }
    this.dialog?.showModal();
  }

  #keep(event: Event): void {
    const data = new FormData(event.target as HTMLFormElement);
    const [title = '', client = ''] = ['title', 'client'].map((key) => String(data.get(key) ?? '').trim());
    this.say('change', { command: (book) => renameBook(book, { title, client }), plain: true });
  }

  override render(): TemplateResult {
    return html`<dialog class="slip-box naming" aria-label="Name the plan and its client">
      <form method="dialog" class="begin" @submit=${this.#keep}>
        <label>Plan <input name="title" type="text" required autocomplete="off" /></label>
        <label>Client <input name="client" type="text" autocomplete="off" /></label>
        <div class="do">
          <button type="submit" class="btn first">Keep</button>
          <button type="button" class="btn" @click=${() => this.close()}>Leave as it was</button>
        </div>
      </form>
    </dialog>`;
  }
}
customElements.define('ob-naming', ObPlanName);
