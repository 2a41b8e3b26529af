/** The slip on which a plan is begun from what the client wrote: the text, what was understood of it, and whose plan it is. */
import { html, nothing, type TemplateResult } from 'lit';
import { begin } from '../../book/begin.ts';
import type { Book } from '../../book/book.ts';
import { isRefused } from '../../book/refused.ts';
import { answers, choose, hear } from '../../enquiry/index.ts';
import { Part } from '../parts/index.ts';
import { goAlong, habitFields, habitsIn, remember, remembered, USUAL } from './habit-fields.ts';
import { today } from './today.ts';
import type { ObUnderstood, Understood } from './understood.ts';
import './understood.ts';

interface Template {
  readonly slug: string;
  readonly title: string;
}

export class ObEnquiry extends Part {
  static override properties = {
    templates: { attribute: false },
    fetchTemplate: { attribute: false },
    slug: { state: true },
    reason: { state: true },
    understood: { state: true },
    wrong: { state: true },
  };
  declare templates: readonly Template[];
  declare fetchTemplate: (slug: string) => Promise<Book | undefined>;
  declare slug: string;
  /** Why this template; nothing where somebody picked it. */
  declare reason: string;
  declare understood: Understood | undefined;
  declare wrong: string;

  constructor() {
    super();
    this.slug = '';
    this.reason = '';
    this.wrong = '';
  }

  override firstUpdated(): void {
    this.querySelector('textarea')?.focus();
  }

  get #text(): string {
    return this.querySelector('textarea')?.value ?? '';
  }

  /** For the template that the text speaks of, or for the one that is picked. */
  async #read(slug?: string): Promise<void> {
    const text = this.#text;
    if (text.trim() === '') {
      this.wrong = 'Paste what the client wrote first.';
      return;
    }
    const heard = hear(text);
    const chosen = choose(heard);
    const wanted = slug ?? chosen.slug;
    const template = await this.fetchTemplate(wanted);
    const book = template && begin(template, { client: '' });
    if (!book || isRefused(book)) {
      this.wrong = 'The template could not be fetched. Load the page again and try once more.';
      return;
    }
    this.wrong = '';
    this.slug = wanted;
    this.reason = slug === undefined || slug === chosen.slug ? chosen.reason : '';
    this.understood = { ...answers(text, heard, book), text, book };
  }

  #begin(event: Event): void {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const habits = habitsIn(data);
    if (typeof habits === 'string') {
      this.wrong = habits;
      return;
    }
    remember(habits);
    const title = this.templates.find(({ slug }) => slug === this.slug)?.title ?? '';
    const kept = this.querySelector<ObUnderstood>('ob-understood')?.kept ?? [];
    const text = this.understood?.text ?? '';
    this.say('open', { what: 'enquiry', slug: this.slug, title, client: String(data.get('client') ?? '').trim(), date: today(), habits, text, kept });
  }

  override render(): TemplateResult {
    return html`<div class="enquiry">
      <label>What the client wrote, in English <textarea name="enquiry" rows="7" spellcheck="false" @input=${() => {
        this.wrong = '';
      }}></textarea></label>
      <div class="do"><button type="button" class="btn ${this.understood ? '' : 'first'}" @click=${() => void this.#read()}>Read it</button></div>
      ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
      ${this.understood ? this.#found(this.understood) : nothing}
    </div>`;
  }

  #found(understood: Understood): TemplateResult {
    const { currency, measures } = understood;
    const usual = {
      ...USUAL[measures ?? 'metric'],
      ...(measures === undefined ? remembered() : {}),
      ...(currency && { currency }),
      ...(measures && { measures }),
    };
    return html`<label class="template">Template <select name="template" @change=${(event: Event) => void this.#read((event.target as HTMLSelectElement).value)}>${this.templates.map(({ slug, title }) => html`<option value=${slug} ?selected=${slug === this.slug}>${title}</option>`)}</select></label>
      ${this.reason ? html`<p class="why">Chosen because the text speaks of ${this.reason}.</p>` : nothing}
      <ob-understood .understood=${understood}></ob-understood>
      <form class="begin" @submit=${this.#begin} @change=${goAlong}>
        <label>Client <input name="client" type="text" autocomplete="off" /></label>
        <details><summary>Usual where the client is: ${usual.measures}, ${usual.currency}, ${usual.mains} V</summary>${habitFields(usual)}</details>
        <button type="submit" class="btn first">Begin the plan</button>
      </form>`;
  }
}
customElements.define('ob-enquiry', ObEnquiry);
