import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { Part } from '../parts/index.ts';
import type { Choice } from './cell-list.ts';

let made = 0;

/** A field for a cell: words find it in a list, or its name or address is written. */
export class ObCellFinder extends Part {
  static override properties = {
    label: { attribute: false },
    hint: { attribute: false },
    value: { attribute: false },
    wrong: { attribute: false },
    choices: { attribute: false },
    wanted: { state: true },
    at: { state: true },
    listed: { state: true },
  };
  declare label: string;
  declare hint: string;
  /** What stands in it: a name, an address or a range. */
  declare value: string;
  declare wrong: string;
  declare choices: (wanted: string) => readonly Choice[];
  declare wanted: string;
  declare at: number;
  declare listed: boolean;

  readonly #id = `finder-${++made}`;

  constructor() {
    super();
    this.label = '';
    this.hint = '';
    this.value = '';
    this.wrong = '';
    this.wanted = '';
    this.at = -1;
    this.listed = false;
  }

  override updated(changed: PropertyValues): void {
    const input = this.querySelector('input');
    if (changed.has('value') && input && input.value !== this.value) input.value = this.value;
    if (changed.has('listed') && this.listed) this.querySelector('ul')?.scrollIntoView({ block: 'nearest' });
  }

  /** Begins a search. */
  start(): void {
    this.wanted = '';
    this.at = 0;
    this.listed = true;
    void this.updateComplete.then(() => this.querySelector('input')?.focus());
  }

  get #found(): readonly Choice[] {
    return this.listed ? this.choices(this.wanted) : [];
  }

  #take(reference: string): void {
    this.listed = false;
    this.value = reference;
    this.say('found', { reference });
  }

  #input(event: Event): void {
    this.wanted = (event.target as HTMLInputElement).value;
    this.listed = true;
    this.at = 0;
  }

  #press(event: KeyboardEvent): void {
    const found = this.#found;
    const input = event.target as HTMLInputElement;
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      if (!this.listed) this.start();
      else {
        const n = Math.max(1, found.length);
        this.at = (this.at + (event.key === 'ArrowDown' ? 1 : n - 1)) % n;
        void this.updateComplete.then(() => this.querySelector('[aria-selected=true]')?.scrollIntoView({ block: 'nearest' }));
      }
    } else if (event.key === 'Enter') {
      // A list that is open takes the key; a closed one leaves it to the form.
      if (!this.listed && input.value === this.value) return;
      event.preventDefault();
      this.#take(this.listed ? (found[this.at]?.reference ?? input.value.trim()) : input.value.trim());
    } else if (event.key === 'Escape' && this.listed) {
      event.preventDefault();
      event.stopPropagation();
      this.listed = false;
      input.value = this.value;
      this.say('leave', undefined);
    }
  }

  /** Left with something else in it than before: it counts as written. */
  #left(event: FocusEvent): void {
    if (event.relatedTarget && this.contains(event.relatedTarget as Node)) return;
    const typed = this.querySelector('input')?.value.trim() ?? '';
    this.listed = false;
    if (typed !== this.value) this.#take(typed);
  }

  override render(): TemplateResult {
    const found = this.#found;
    const id = this.#id;
    const chosen = found[this.at];
    const told = [this.hint && `${id}-hint`, this.wrong && `${id}-wrong`].filter(Boolean).join(' ');
    return html`<label class="seek" for=${id}><span>${this.label}</span></label>
      <input id=${id} class="in" type="text" role="combobox" autocomplete="off" spellcheck="false" aria-autocomplete="list" aria-expanded=${found.length > 0} aria-controls=${found.length > 0 ? `${id}-list` : nothing}
        aria-activedescendant=${chosen ? `${id}-${this.at}` : nothing} aria-describedby=${told || nothing} aria-invalid=${this.wrong ? 'true' : nothing}
        @input=${this.#input} @keydown=${this.#press} @focusout=${this.#left} @click=${() => !this.listed && this.start()} />
      ${this.hint ? html`<p class="hint" id="${id}-hint">${this.hint}</p>` : nothing}
      ${this.wrong ? html`<p class="wrong" id="${id}-wrong">${this.wrong}</p>` : nothing}
      ${
        found.length > 0
          ? html`<ul class="pick" role="listbox" id="${id}-list" aria-label="Cells">${found.map(
              (choice, i) =>
                html`<li role="option" id="${id}-${i}" aria-selected=${i === this.at} @pointerdown=${(e: Event) => e.preventDefault()} @click=${() => this.#take(choice.reference)}>
                  <span>${choice.title} <i>${choice.table}</i></span><kbd>${choice.shown}</kbd></li>`,
            )}</ul>`
          : nothing
      }
      <p class="unseen" role="status">${this.listed ? (found.length === 0 ? 'Nothing is called that.' : `${found.length} to pick from`) : ''}</p>`;
  }
}
customElements.define('ob-cell-finder', ObCellFinder);
