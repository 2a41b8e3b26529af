import { html, nothing, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import { Part } from '../parts/index.ts';
import { fetchBegin, fetchEnquiry } from '../slips/index.ts';

export interface TemplateCard {
  readonly slug: string;
  readonly title: string;
  readonly purpose: string;
}

export interface ShelfCard {
  readonly id: string;
  readonly title: string;
  readonly client: string;
  /** Which of several plans it is, by its version and date, and when it was last saved. */
  readonly saved: string;
}

/** Where one begins: the books on the shelf, the templates, the demo, a file. */
export class ObStart extends Part {
  static override properties = {
    templates: { attribute: false },
    shelf: { attribute: false },
    fetchTemplate: { attribute: false },
    picked: { state: true },
    fromText: { state: true },
    problem: { attribute: false },
  };
  declare templates: readonly TemplateCard[];
  declare shelf: readonly ShelfCard[];
  /** A book that could not be opened: why. */
  declare problem: string;
  declare fetchTemplate: ((slug: string) => Promise<Book | undefined>) | undefined;
  /** A plan is being begun from what the client wrote. */
  declare fromText: boolean;
  /** The template being filled in. */
  declare picked: TemplateCard | undefined;

  constructor() {
    super();
    this.templates = [];
    this.shelf = [];
    this.problem = '';
    this.fromText = false;
  }

  override render(): TemplateResult {
    return html`<div class="start">
      <h1 class="title">What hangs over the bench, worked out in the open</h1>
      <p class="prose">A plan for plant lights is a book: what the client says, two to five scenarios side by side, and behind every number the way it came about. Books stay in this browser and go nowhere else.</p>
      ${this.problem ? html`<p class="trouble" role="alert">${this.problem}</p>` : nothing}
      ${
        this.shelf.length > 0
          ? html`<section><h2 class="piece">Your books</h2><ul class="shelf">
            ${this.shelf.map(
              (card) => html`<li>
                <button type="button" class="spine" @click=${() => this.say('open', { what: 'book', id: card.id })}><b>${card.title}</b><span>${card.client}</span><i>${card.saved}</i></button>
                <button type="button" class="link" aria-label="Throw away ${card.title}, ${card.saved}" @click=${() => this.say('remove', { id: card.id, title: card.title })}>throw away</button>
              </li>`,
            )}
          </ul></section>`
          : nothing
      }
      <section><h2 class="piece">Look round first</h2>
        <p class="prose">The demo is a finished plan for an invented example: a school garden club with one bench of basil in a polytunnel, and three ways to light it. Change anything; it is a copy of your own.</p>
        <div class="do"><button type="button" class="btn first" @click=${() => this.say('open', { what: 'demo' })}>Open the demo</button>
        <button type="button" class="btn" @click=${() => this.say('open', { what: 'file' })}>Open a book file</button></div>
      </section>
      <section><h2 class="piece">Begin a plan for a client</h2>
        <div class="do"><button type="button" class="btn" aria-expanded=${this.fromText} ?disabled=${this.fetchTemplate === undefined} @click=${() => this.#fromText()}>Begin from what the client wrote</button></div>
        ${this.fromText ? html`<ob-enquiry .templates=${this.templates} .fetchTemplate=${this.fetchTemplate}></ob-enquiry>` : nothing}
        ${this.templates.length === 0 ? html`<p class="prose">Fetching the templates …</p>` : nothing}
        <ul class="shelf">${this.templates.map((card) => this.#template(card))}</ul>
      </section>
      <p><a href="LICENSE.txt">Licence</a>, <a href="notices.txt">notices</a></p>
    </div>`;
  }

  #template(card: TemplateCard): TemplateResult {
    const open = this.picked?.slug === card.slug;
    return html`<li class="template">
      <button type="button" class="spine" aria-expanded=${open} @click=${() => this.#pick(open ? undefined : card)}><b>${card.title}</b><span>${card.purpose}</span></button>
      ${open ? html`<ob-begin .template=${card}></ob-begin>` : nothing}
    </li>`;
  }

  #pick(card: TemplateCard | undefined): void {
    this.picked = card;
    this.#fetch(fetchBegin());
  }

  #fromText(): void {
    this.fromText = !this.fromText;
    this.#fetch(fetchEnquiry());
  }

  #fetch(part: Promise<unknown>): void {
    void part.catch(() => {
      this.problem = 'That could not be fetched. Load the page again and try once more.';
    });
  }
}
customElements.define('ob-start', ObStart);
