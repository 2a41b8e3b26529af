/** Parts of the program that can't be fetched: the server is gone, or the program was built anew meanwhile. The page says so in words. */
import { html, nothing, type ReactiveController, type ReactiveControllerHost, type TemplateResult } from 'lit';

export class Fetching implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  /** Something could not be fetched; what is said of it. */
  #words = '';

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

  #fail = (): void => this.#say('A part of this page could not be fetched. The book is kept in this browser. Load the page again and try once more.');

  #say(words: string): void {
    this.#words = words;
    this.#host.requestUpdate();
  }

  /** Another page is shown, which may be there. */
  forget(): void {
    this.#words = '';
  }

  /** `saved`: what is changed is kept before the page goes. */
  trouble(saved: () => Promise<void>): TemplateResult | typeof nothing {
    if (!this.#words) return nothing;
    return html`<div class="trouble" role="alert"><p>${this.#words}</p>
      <div class="do"><button type="button" class="btn" @click=${() => void this.#again(saved)}>Load the page again</button></div></div>`;
  }

  /** A page that goes while its server is away would not come back: it is asked first. */
  async #again(saved: () => Promise<void>): Promise<void> {
    await saved();
    const answer = await fetch(location.href, { cache: 'no-store' }).catch(() => undefined);
    if (answer?.ok) location.reload();
    else
      this.#say(
        'It still can not be fetched: whatever serves this page does not answer. The book is kept in this browser; the pages that are here go on working.',
      );
  }
}
