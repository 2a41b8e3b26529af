/** Parts of the program that can't be fetched: the server is gone, or the program was built anew meanwhile. The page says so in words. */
import { html, nothing, type ReactiveController, type ReactiveControllerHost, type TemplateResult } from 'lit';

/** What is said of the book: it stands beside what is open now, and must be true of that. */
export interface Kept {
  readonly unsaved: boolean;
  now(): Promise<void>;
}

export class Fetching implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  /** Something could not be fetched: once, or when it was asked for again too. */
  #missing: 'once' | 'again' | undefined;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  /** The build sends this event wherever an `import()` fails. */
  hostConnected(): void {
    addEventListener('vite:preloadError', this.#fail);
  }

  hostDisconnected(): void {
    removeEventListener('vite:preloadError', this.#fail);
  }

  #fail = (): void => this.#say('once');

  #say(missing: 'once' | 'again'): void {
    this.#missing = missing;
    this.#host.requestUpdate();
  }

  /** Another page is shown, which may be there. */
  forget(): void {
    this.#missing = undefined;
  }

  trouble(kept: Kept): TemplateResult | typeof nothing {
    if (!this.#missing) return nothing;
    const again = this.#missing === 'again';
    const book = kept.unsaved ? 'The last changes of the book are not saved: send it out as a file first.' : 'The book is kept in this browser.';
    return html`<div class="trouble" role="alert"><p>${
      again
        ? `It still can not be fetched: whatever serves this page does not answer. ${book} The pages that are here go on working.`
        : `A part of this page could not be fetched. ${book} Then load the page again and try once more.`
    }</p>
      <div class="do"><button type="button" class="btn" @click=${() => void this.#again(kept)}>Load the page again</button></div></div>`;
  }

  /** A page that goes while its server is away would not come back: it is asked first. What is changed is kept before. */
  async #again(kept: Kept): Promise<void> {
    await kept.now();
    const answer = await fetch(location.href, { cache: 'no-store' }).catch(() => undefined);
    if (answer?.ok) location.reload();
    else this.#say('again');
  }
}
