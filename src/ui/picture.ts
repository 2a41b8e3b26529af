import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Book } from '../book/book.ts';
import type { Engine, Values } from '../engine/types.ts';
import { type PictureBlock, type Reads, readPicture } from '../pictures/series.ts';
import { Part, type Place } from './part.ts';
import type { pictures } from './pictures/draw.ts';
import { Fields } from './pictures/fields.ts';

/** Kept for all pictures of the page: three of them read the same fields. */
const fields = new Fields();

/** A picture bound to cells. It is drawn when it comes near the window, and again when what it reads has changed. */
export class ObPicture extends Part {
  static override properties = {
    block: { attribute: false },
    book: { attribute: false },
    values: { attribute: false },
    tick: { attribute: false },
    chosen: { attribute: false },
    ask: { attribute: false },
    width: { state: true },
    near: { state: true },
    reads: { state: true },
    fetched: { state: true },
  };
  declare block: PictureBlock;
  declare book: Book;
  declare values: Values;
  declare tick: number;
  declare chosen: Place | undefined;
  declare ask: <T>(question: (engine: Engine) => Promise<T>) => Promise<T>;
  /** px that the picture may take. */
  declare width: number;
  declare near: boolean;
  /** What is drawn: the last reads whose fields are there. */
  declare reads: Reads | undefined;
  declare fetched: number;

  #kinds: typeof pictures | undefined;
  #wanted = '';
  #sized: ResizeObserver | undefined;
  #seen: IntersectionObserver | undefined;

  constructor() {
    super();
    this.width = 0;
    this.near = false;
    this.fetched = 0;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#sized = new ResizeObserver(() => {
      this.width = Math.floor(this.clientWidth);
    });
    this.#sized.observe(this);
    this.#seen = new IntersectionObserver(
      ([entry]) => {
        this.near = entry?.isIntersecting ?? false;
      },
      { rootMargin: '300px' },
    );
    this.#seen.observe(this);
    window.addEventListener('beforeprint', this.#beforePrint);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#sized?.disconnect();
    this.#seen?.disconnect();
    window.removeEventListener('beforeprint', this.#beforePrint);
  }

  #beforePrint = (): void => {
    this.near = true;
  };

  override updated(changed: PropertyValues): void {
    if (this.near && (changed.has('tick') || changed.has('near') || changed.has('block') || changed.has('book'))) void this.#read();
  }

  async #read(): Promise<void> {
    this.#kinds ??= (await import('./pictures/draw.ts')).pictures;
    const kind = this.#kinds[this.block.picture];
    if (!kind) return;
    const reads = readPicture(this.block, this.book, this.values);
    const wanted = kind.wants(reads);
    this.#wanted = JSON.stringify(reads);
    const mine = this.#wanted;
    if (!fields.has(wanted)) {
      try {
        await fields.fetch(this.ask, wanted);
      } catch {
        // The session says what is the matter; the last picture stays.
        return;
      }
    }
    if (mine !== this.#wanted) return;
    this.reads = reads;
    this.fetched++;
  }

  override render(): TemplateResult {
    const kind = this.#kinds?.[this.block.picture];
    if (this.#kinds && !kind) return html`<p class="prose">There is no picture called “${this.block.picture}”.</p>`;
    const { reads } = this;
    const ready = kind && reads && this.width > 0;
    const scenario = this.chosen?.column ?? '';
    return html`<figure class="picture ${this.block.picture.replaceAll(' ', '-')} ${ready ? '' : 'empty'}">
      ${ready && reads.series.length > 0 ? kind.draw({ id: `picture-${this.block.id}`, caption: this.block.caption, reads, chosen: scenario, width: this.width }, fields) : nothing}
      ${ready && reads.missing.length > 0 ? html`<p class="refused">${reads.series.length === 0 ? `${this.block.caption}. ` : ''}Not drawn: ${reads.missing.join('; ')}.</p>` : nothing}
    </figure>`;
  }
}
customElements.define('ob-picture', ObPicture);
