import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import type { Book } from '../../book/book.ts';
import type { Engine, Values } from '../../engine/types.ts';
import type { PictureBlock, pictureKind, Ready } from '../../pictures/index.ts';
import { Part, type Place } from '../parts/index.ts';
import { KeptFields } from './fields.ts';

/** Kept for all pictures of the page: three of them read the same fields. */
const fields = new KeptFields();

/** A picture bound to cells. It is drawn when it comes near the window, and again when what it reads has changed. */
export class ObPicture extends Part {
  static override properties = {
    block: { attribute: false },
    book: { attribute: false },
    values: { attribute: false },
    chosen: { attribute: false },
    ask: { attribute: false },
    width: { state: true },
    near: { state: true },
    ready: { state: true },
  };
  declare block: PictureBlock;
  declare book: Book;
  declare values: Values;
  declare chosen: Place | undefined;
  declare ask: <T>(question: (engine: Engine) => Promise<T>) => Promise<T>;
  /** px that the picture may take. */
  declare width: number;
  declare near: boolean;
  /** What is drawn: the last reading whose fields are there. */
  declare ready: Ready | undefined;

  #kindOf: typeof pictureKind | undefined;
  #latest: Ready | undefined;
  #sized: ResizeObserver | undefined;
  #seen: IntersectionObserver | undefined;

  constructor() {
    super();
    this.width = 0;
    this.near = false;
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
    if (this.near && (changed.has('values') || changed.has('near') || changed.has('block') || changed.has('book'))) void this.#read();
  }

  async #read(): Promise<void> {
    this.#kindOf ??= (await import('../../pictures/index.ts')).pictureKind;
    const kind = this.#kindOf(this.block.picture);
    if (!kind) {
      this.requestUpdate();
      return;
    }
    const mine = kind.ready(this.block, this.book, this.values);
    this.#latest = mine;
    if (!fields.has(mine.wants)) {
      try {
        await fields.fetch(this.ask, mine.wants);
      } catch {
        // The session says what is the matter; the last picture stays.
        return;
      }
    }
    if (mine === this.#latest) this.ready = mine;
  }

  override render(): TemplateResult {
    const kind = this.#kindOf?.(this.block.picture);
    if (this.#kindOf && !kind) return html`<p class="prose">There is no picture called “${this.block.picture}”.</p>`;
    const { ready, block, width } = this;
    const shown = kind && ready && width > 0;
    const chosen = this.chosen?.column ?? '';
    return html`<figure class="picture ${block.picture.replaceAll(' ', '-')} ${shown ? '' : 'empty'}">
      ${shown ? ready.draw?.({ id: `picture-${block.id}`, caption: block.caption, chosen, width, again: guard }, fields) : nothing}
      ${shown && ready.missing.length > 0 ? html`<p class="refused">${ready.draw ? '' : `${block.caption || 'Picture'}. `}Not drawn: ${ready.missing.join('; ')}.</p>` : nothing}
    </figure>`;
  }
}
customElements.define('ob-picture', ObPicture);
