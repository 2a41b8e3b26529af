import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { unsafeHTML } from 'lit/directives/unsafe-html.js';
import { unitAfter } from '../../../functions/number-text.ts';
import type { Book } from '../../book/book.ts';
import { placeOf, standingOf, titleOf } from '../../book/look-up.ts';
import { LOST } from '../../book/references.ts';
import { isRefused } from '../../book/refused.ts';
import type { Values } from '../../engine/types.ts';
import { lacks, spokenValue, viewOf } from '../cells/index.ts';
import { AGAIN, draftOf, endDraft, noteDraft, Part, type Wishes } from '../parts/index.ts';

/** Markdown with the live values of cells in it. The text is made once; the values are written into it as they come. It is written in place. */
export class ObProse extends Part {
  static override properties = {
    text: { attribute: false },
    block: { attribute: false },
    begun: { attribute: false },
    book: { attribute: false },
    values: { attribute: false },
    draft: { state: true },
    wrong: { state: true },
    markup: { state: true },
  };
  declare text: string;
  /** The block's id; left out: this text is no block and can't be written. */
  declare block: string | undefined;
  /** A text that is not in the book yet: where it is to stand. */
  declare begun: { readonly page: string; readonly at: number } | undefined;
  declare book: Book;
  declare values: Values;
  /** What is written; undefined while nothing is. */
  declare draft: string | undefined;
  /** Why it could not be kept. */
  declare wrong: string;
  /** Sanitised. */
  declare markup: string | undefined;

  #read = '';
  #commands: typeof import('../../book/commands/blocks.ts') | undefined;

  constructor() {
    super();
    this.wrong = '';
  }

  get #key(): string {
    return `${this.book.id}/${this.block ?? this.begun?.page}`;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    // A text that was left half-written is taken up again where it stood.
    if (this.book && draftOf(this.#key)) void this.write();
  }

  /** Opens the text for writing. */
  async write(): Promise<void> {
    if (this.draft !== undefined) return;
    // What keeps it is here before it is written: a text that is left as its page is turned is kept in that moment.
    [this.#commands] = await Promise.all([import('../../book/commands/blocks.ts'), import('./prose-writing.ts')]);
    const kept = draftOf(this.#key);
    this.draft = kept?.text ?? this.text;
    if (kept?.again) this.say('tell', { text: AGAIN });
    await this.updateComplete;
    this.querySelector('textarea')?.focus();
  }

  /** `back`: the keyboard goes on from this piece. `made`: the block that a begun text became. */
  #end(back: boolean, made?: string): void {
    endDraft(this.#key);
    this.draft = undefined;
    this.wrong = '';
    if (this.begun) this.say('text-ended', { block: made, back });
    else if (back) this.say('piece-focus', { block: this.block });
  }

  /** Puts what is written into the book, as one change. */
  #keep(back: boolean): void {
    const { draft, block, begun } = this;
    const commands = this.#commands;
    if (draft === undefined || !commands) return;
    if (draft === this.text || (begun && draft.trim() === '')) this.#end(back);
    else {
      const { setBlock, addBlock } = commands;
      const text = draft;
      this.say('change', {
        command: (book) => (begun ? addBlock(book, { ...begun, block: { kind: 'prose', text } }) : setBlock(book, { block: block ?? '', text })),
        answered: (answer) => {
          if (isRefused(answer)) this.wrong = answer.message;
          else this.#end(back, answer.edits.map((edit) => (edit.at === 'block' ? edit.after?.id : undefined))[0]);
        },
      });
    }
  }

  override willUpdate(changed: PropertyValues): void {
    const text = this.draft ?? this.text;
    if (changed.has('draft') && this.draft !== undefined) {
      const draft = { text: this.draft, ...(this.begun && { at: this.begun.at }) };
      noteDraft(this.#key, () => draft);
    }
    if (text !== this.#read || this.markup === undefined) void this.#mark(text);
  }

  async #mark(text: string): Promise<void> {
    this.#read = text;
    const { toMarkup } = await import('./markdown.ts');
    if (text === this.#read) this.markup = toMarkup(text);
  }

  override render(): TemplateResult {
    const stands = html`<div class="prose">${this.markup === undefined ? nothing : unsafeHTML(this.markup)}</div>`;
    if (this.draft === undefined) return html`${stands}`;
    return html`<ob-prose-writing
        .book=${this.book}
        .values=${this.values}
        .text=${this.draft}
        .wrong=${this.wrong}
        @ob-draft=${(e: CustomEvent<Wishes['draft']>) => {
          this.draft = e.detail.text;
        }}
        @ob-keep=${(e: CustomEvent<Wishes['keep']>) => this.#keep(e.detail.back)}
        @ob-leave=${() => this.#end(true)}
      ></ob-prose-writing>
      <div class="as-it-stands"><p class="word">As it will look</p>${stands}</div>`;
  }

  override updated(): void {
    for (const chip of this.querySelectorAll<HTMLElement>('[data-live]')) this.#fill(chip);
  }

  #fill(chip: HTMLElement): void {
    const reference = chip.dataset.live ?? '';
    const at = placeOf(this.book, reference);
    if (!at) {
      chip.className = 'live missing';
      chip.textContent = reference === LOST ? 'a cell that is gone' : `no cell called ${reference || 'nothing'}`;
      delete chip.dataset.text;
      return;
    }
    const view = viewOf(at, this.values);
    const shown = view.number
      ? `${view.number.sign}${view.number.whole}${view.number.fraction}`
      : view.state
        ? `${view.word}${view.text ? `, ${view.text}` : ''}`
        : lacks(view.value) || view.text || 'not answered yet';
    const unit = view.number ? unitAfter(view.number) : '';
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
      tag.textContent = view.word ?? view.state;
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
