import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import type { Engine, Values } from '../../engine/types.ts';
import type { PictureBlock } from '../../pictures/cells.ts';
import { Part, type Place } from '../parts/part.ts';
import type { pictures, Ready } from '../pictures/draw.ts';
import { Fields } from '../pictures/fields.ts';

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
    ready: { state: true },
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
  /** What is drawn: the last reading whose fields are there. */
  declare ready: Ready | undefined;

  #kinds: typeof pictures | undefined;
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
    if (this.near && (changed.has('tick') || changed.has('near') || changed.has('block') || changed.has('book'))) void this.#read();
  }

  /** A kind may be called as nothing but itself: every object has a `constructor`. */
  get #kind() {
    return this.#kinds && Object.hasOwn(this.#kinds, this.block.picture) ? this.#kinds[this.block.picture] : undefined;
  }

  async #read(): Promise<void> {
    this.#kinds ??= (await import('../pictures/draw.ts')).pictures;
    const kind = this.#kind;
    if (!kind) {
      this.requestUpdate();
      return;
    }
    const mine = kind(this.block, this.book, this.values);
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
    const kind = this.#kind;
    if (this.#kinds && !kind) return html`<p class="prose">There is no picture called “${this.block.picture}”.</p>`;
    const { ready, block, width } = this;
    const shown = kind && ready && width > 0;
    const chosen = this.chosen?.column ?? '';
    return html`<figure class="picture ${block.picture.replaceAll(' ', '-')} ${shown ? '' : 'empty'}">
      ${shown ? ready.draw?.({ id: `picture-${block.id}`, caption: block.caption, chosen, width }, fields) : nothing}
      ${shown && ready.missing.length > 0 ? html`<p class="refused">${ready.draw ? '' : `${block.caption || 'Picture'}. `}Not drawn: ${ready.missing.join('; ')}.</p>` : nothing}
    </figure>`;
  }
}
customElements.define('ob-picture', ObPicture);
