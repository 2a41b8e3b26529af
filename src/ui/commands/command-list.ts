import { html, type TemplateResult } from 'lit';
import { Part } from '../parts/index.ts';
import { type Command, labelOf, type PageState } from './command.ts';
import { commands, ranked, usable } from './list.ts';

/** The list of commands, to be searched: a few letters of a label or of a word that means the same. */
export class ObCommandList extends Part {
  static override properties = { wanted: { state: true }, at: { state: true } };
  declare wanted: string;
  declare at: number;

  #state: PageState | undefined;
  #run: (command: Command) => void = () => {};

  constructor() {
    super();
    this.wanted = '';
    this.at = 0;
  }

  open(state: PageState, run: (command: Command) => void): void {
    this.#state = state;
    this.#run = run;
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
    return this.#state ? ranked(usable(this.#state, this.wanted), this.wanted, this.#state) : [];
  }

  /** A command that is called so and has nothing to be done to is not unknown. */
  get #nothing(): string {
    const state = this.#state;
    const later = state && ranked(commands, this.wanted, state)[0];
    return later ? `Not possible here and now: ${labelOf(later, state).replace(/ …$/u, '')}.` : 'No command is called that. Try another word.';
  }

  #take(found: Command | undefined): void {
    if (!found) return;
    this.querySelector('dialog')?.close();
    this.#run(found);
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
      this.#take(found[this.at]);
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
        ${found.map((c, i) => html`<li role="option" id="command-${i}" aria-selected=${i === this.at} @click=${() => this.#take(c)}><span>${this.#state && labelOf(c, this.#state)}</span>${c.keys ? html`<kbd>${c.keys}</kbd>` : ''}</li>`)}
      </ul>
      <p class="nothing" role="status">${found.length === 0 ? this.#nothing : ''}</p>
    </dialog>`;
  }
}
customElements.define('ob-command-list', ObCommandList);
