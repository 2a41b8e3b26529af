import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** ms that what was said stands on the page. */
const SHOWN = 9000;

/** What is said aloud, and shown as well where it is not plain from the page. */
export class Telling implements ReactiveController {
  readonly #host: ReactiveControllerHost & HTMLElement;
  /** The last thing that was said. */
  text = '';
  #quiet: ReturnType<typeof setTimeout> | undefined;

  constructor(host: ReactiveControllerHost & HTMLElement) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {}

  /** `shown`: on the page too, for a while. */
  tell(text: string, shown = false): void {
    this.text = text;
    this.#host.requestUpdate();
    clearTimeout(this.#quiet);
    this.#host.toggleAttribute('telling', shown);
    if (shown) this.#quiet = setTimeout(() => this.hush(), SHOWN);
  }

  /** Nothing is shown any longer. */
  hush(): void {
    this.#host.removeAttribute('telling');
  }
}
