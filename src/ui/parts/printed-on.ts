import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** A style of the whole document, such as its paper, while an element is on the page; of two the one that came later counts. */
export class PrintedOn implements ReactiveController {
  readonly #style = new CSSStyleSheet();

  constructor(host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostConnected(): void {
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, this.#style];
  }

  hostDisconnected(): void {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== this.#style);
  }

  say(css: string): void {
    this.#style.replaceSync(css);
  }
}
