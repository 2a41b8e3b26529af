import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { unsafeHTML } from 'lit/directives/unsafe-html.js';
import type { Book } from '../book/book.ts';
import { placeOf, standingOf, titleOf } from '../book/look-up.ts';
import type { Values } from '../engine/types.ts';
import { spokenValue, viewOf } from './cell-view.ts';
import { Part } from './part.ts';

/** Markdown with the live values of cells in it. The text is made once; the values are written into it as they come. */
export class ObProse extends Part {
  static override properties = {
    text: { attribute: false },
    book: { attribute: false },
    values: { attribute: false },
    tick: { attribute: false },
    markup: { state: true },
  };
  declare text: string;
  declare book: Book;
  declare values: Values;
  declare tick: number;
  /** Sanitised. */
  declare markup: string | undefined;

  override willUpdate(changed: PropertyValues): void {
    if (changed.has('text')) void this.#read(this.text);
  }

  async #read(text: string): Promise<void> {
    const { toMarkup } = await import('./markdown.ts');
    const markup = toMarkup(text);
    if (text === this.text) this.markup = markup;
  }

  override render(): TemplateResult {
    return html`<div class="prose">${this.markup === undefined ? nothing : unsafeHTML(this.markup)}</div>`;
  }

  override updated(): void {
    for (const chip of this.querySelectorAll<HTMLElement>('[data-live]')) this.#fill(chip);
  }

  #fill(chip: HTMLElement): void {
    const reference = chip.dataset.live ?? '';
    const at = placeOf(this.book, reference);
    if (!at) {
      chip.className = 'live missing';
      chip.textContent = `no cell ${reference}`;
      return;
    }
    const view = viewOf(at, this.values);
    const shown = view.number
      ? `${view.number.sign}${view.number.whole}${view.number.fraction}`
      : view.state
        ? `${view.state}${view.text ? `, ${view.text}` : ''}`
        : view.text || 'not answered yet';
    const unit = view.number?.unit ?? '';
    const standing = standingOf(at);
    const kind =
      view.value.kind === 'error'
        ? 'live bad'
        : view.value.kind === 'blank'
          ? 'live blank'
          : standing === 'given' || standing === 'as'
            ? 'live given'
            : 'live worked';
    if (chip.className !== kind) chip.className = kind;
    const text = `${shown} ${unit}`;
    if (chip.dataset.text === text) return;
    chip.dataset.text = text;
    chip.title = titleOf(at);
    if (view.state) {
      const tag = document.createElement('span');
      tag.className = `tag ${view.state}`;
      tag.textContent = view.state;
      chip.replaceChildren(tag, view.text ? ` ${view.text}` : '');
      return;
    }
    const unitElement = document.createElement('span');
    unitElement.className = 'u';
    unitElement.textContent = unit === '' ? '' : ` ${unit}`;
    unitElement.ariaHidden = 'true';
    const spoken = document.createElement('span');
    spoken.className = 'unseen';
    spoken.textContent = unit === '' ? '' : spokenValue(view).replace(/^\S+/, '');
    chip.replaceChildren(shown, unitElement, spoken);
  }
}
customElements.define('ob-prose', ObProse);
