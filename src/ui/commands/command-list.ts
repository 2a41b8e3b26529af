import { html, type TemplateResult } from 'lit';
import type { Command, Desk } from '../parts/command.ts';
import { Part } from '../parts/part.ts';
import { labelOf, ranked, usable } from './commands.ts';

/** The list of commands, to be searched: a few letters of a label or of a word that means the same. */
export class ObCommandList extends Part {
  static override properties = { desk: { attribute: false }, wanted: { state: true }, at: { state: true } };
  declare desk: Desk;
  declare wanted: string;
  declare at: number;

  constructor() {
    super();
    this.wanted = '';
    this.at = 0;
  }

  open(): void {
    this.wanted = '';
    this.at = 0;
    this.requestUpdate();
    void this.updateComplete.then(() => {
      const dialog = this.querySelector('dialog');
      const input = this.querySelector('input');
      if (input) input.value = '';
      dialog?.showModal();
      input?.focus();
    });
  }

  get #found(): readonly Command[] {
    return ranked(usable(this.desk), this.wanted, this.desk);
  }

  #run(found: Command | undefined): void {
    if (!found) return;
    this.querySelector('dialog')?.close();
    found.run(this.desk);
  }

  #press(event: KeyboardEvent): void {
    const found = this.#found;
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      const n = Math.max(1, found.length);
      this.at = (this.at + (event.key === 'ArrowDown' ? 1 : n - 1)) % n;
      void this.updateComplete.then(() => this.querySelector('[aria-selected=true]')?.scrollIntoView({ block: 'nearest' }));
    } else if (event.key === 'Enter') {
      event.preventDefault();
      this.#run(found[this.at]);
    }
  }

  override render(): TemplateResult {
    const found = this.#found;
    return html`<dialog class="slip-box commands" aria-label="Find a command" @click=${(e: Event) => e.target === e.currentTarget && (e.currentTarget as HTMLDialogElement).close()}>
      <label class="seek"><span>Find a command</span>
        <input type="text" role="combobox" autocomplete="off" spellcheck="false" aria-expanded="true" aria-controls="command-options" aria-activedescendant=${found[this.at] ? `command-${this.at}` : ''}
          @keydown=${this.#press} @input=${(e: Event) => {
            this.wanted = (e.target as HTMLInputElement).value;
            this.at = 0;
          }} /></label>
      <ul id="command-options" class="pick" role="listbox" aria-label="Commands">
        ${found.map((c, i) => html`<li role="option" id="command-${i}" aria-selected=${i === this.at} @click=${() => this.#run(c)}><span>${labelOf(c, this.desk)}</span>${c.keys ? html`<kbd>${c.keys}</kbd>` : ''}</li>`)}
      </ul>
      <p class="nothing" role="status">${found.length === 0 ? 'No command is called that. Try another word.' : ''}</p>
    </dialog>`;
  }
}
customElements.define('ob-command-list', ObCommandList);
