import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { createRef, ref } from 'lit/directives/ref.js';
import { placeIn } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, namesOf, placeOf } from '../../book/look-up.ts';
import type { Values } from '../../engine/types.ts';
import { Part, type Wishes } from '../parts/index.ts';
import { cellAt } from '../table/index.ts';
import '../styles/blocks.css';
import { cellChoices, type ObCellFinder } from '../finding/index.ts';

const POINTS = ['pointerdown', 'mousedown', 'click', 'dblclick'];

/** A text while it is written: its Markdown in a plain field, and a list from which live values are put into it. */
export class ObProseWriting extends Part {
  static override properties = {
    book: { attribute: false },
    values: { attribute: false },
    text: { attribute: false },
    wrong: { attribute: false },
    finding: { state: true },
    unknown: { state: true },
  };
  declare book: Book;
  declare values: Values;
  declare text: string;
  declare wrong: string;
  /** A value is being put in. */
  declare finding: boolean;
  /** What was asked for and is no cell. */
  declare unknown: string;
  readonly #finder = createRef<ObCellFinder>();

  constructor() {
    super();
    this.finding = false;
    this.unknown = '';
  }

  get #field(): HTMLTextAreaElement | null {
    return this.querySelector('textarea');
  }

  override updated(changed: PropertyValues): void {
    const field = this.#field;
    if (field && changed.has('text') && field.value !== this.text) field.value = this.text;
    if (changed.has('finding')) this.#listen(this.finding);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#listen(false);
  }

  /** While a value is put in, cells on the page are pointed at instead of chosen. */
  #listen(on: boolean): void {
    for (const name of POINTS) document[on ? 'addEventListener' : 'removeEventListener'](name, this.#point, true);
  }

  #point = (event: Event): void => {
    const found = cellAt(event.target as Element);
    if (!found) return;
    event.preventDefault();
    event.stopPropagation();
    const at = placeIn(found.home.table, found.spot.column, found.spot.row);
    // A finger that goes down may only be scrolling: all of them pick when they have come up.
    if (event.type === 'click' && at) this.#put(namesOf(this.book, at)[0] ?? addressOf(at));
  };

  #find(): void {
    this.finding = true;
    this.unknown = '';
    void this.updateComplete.then(() => this.#finder.value?.start());
  }

  #found({ reference }: Wishes['found']): void {
    // The field is left as soon as a cell was pointed at.
    if (!this.finding) return;
    if (reference === '') this.#back();
    else if (placeOf(this.book, reference)) this.#put(reference);
    else this.unknown = `There is no cell called “${reference}”.`;
  }

  /** The live value stands where the caret was. */
  #put(reference: string): void {
    const field = this.#field;
    if (!field) return;
    this.#back();
    // Put in as if it were typed, so that Ctrl Z in the field takes it back.
    if (document.execCommand('insertText', false, `{{${reference}}}`)) return;
    field.setRangeText(`{{${reference}}}`, field.selectionStart, field.selectionEnd, 'end');
    this.say('draft', { text: field.value });
  }

  #back(): void {
    this.finding = false;
    this.unknown = '';
    this.#field?.focus();
  }

  #press(event: KeyboardEvent): void {
    if (event.isComposing) return;
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
      event.preventDefault();
      this.say('keep', { back: true });
    } else if (event.key === 'Escape') {
      event.preventDefault();
      event.stopPropagation();
      if (this.finding) this.#back();
      else this.say('leave', undefined);
    }
  }

  /** What is written is kept when it is left, as a cell is; a window that is left is come back to. */
  #left(event: FocusEvent): void {
    const to = event.relatedTarget as Node | null;
    if (to ? this.contains(to) : this.finding || !document.hasFocus()) return;
    this.say('keep', { back: false });
  }

  override render(): TemplateResult {
    return html`<div class="writing" @keydown=${this.#press} @focusout=${this.#left}>
      <textarea aria-label="The text, in Markdown" aria-describedby="writing-keys" rows=${Math.min(16, Math.max(4, this.text.split('\n').length + 1))} spellcheck="true"
        @input=${(e: Event) => this.say('draft', { text: (e.target as HTMLTextAreaElement).value })}></textarea>
      ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
      ${
        this.finding
          ? html`<div @ob-found=${(e: CustomEvent<Wishes['found']>) => this.#found(e.detail)} @ob-leave=${(e: Event) => {
              e.stopPropagation();
              this.#back();
            }}>
              <ob-cell-finder ${ref(this.#finder)} .label=${'Which value?'} .hint=${'Words of what it is called, its name or its address; or click the cell in a table on this page.'} .wrong=${this.unknown}
                .choices=${(wanted: string) => cellChoices(this.book, this.values, wanted)}></ob-cell-finder></div>`
          : nothing
      }
      <div class="do">
        <button type="button" class="btn" aria-expanded=${this.finding} @click=${() => (this.finding ? this.#back() : this.#find())}>Put a value in</button>
        <button type="button" class="btn first" @click=${() => this.say('keep', { back: true })}>Keep</button>
        <button type="button" class="btn" @click=${() => this.say('leave', undefined)}>Leave it as it was</button>
      </div>
      <p class="keys" id="writing-keys"><kbd>Ctrl Enter</kbd> keeps it, <kbd>Esc</kbd> leaves it as it was. <code>**strong**</code>, <code>*slanted*</code>, <code># heading</code>, <code>- list</code>; <code>{{name}}</code> stands for a live value.</p>
    </div>`;
  }
}
customElements.define('ob-prose-writing', ObProseWriting);
