import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Address } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { letterAt } from '../formula-text.ts';
import type { Told } from '../working.ts';

/** ms without another change. */
const SETTLE = 120;

/** Asks the engine where the chosen value comes from. Only the latest question counts; the last answer stays until the next is in. */
export class Tracing implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  told: Told | undefined;
  letters: ReadonlyMap<Address, string> = new Map();
  #wanted: Address | undefined;
  #asked = 0;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {}

  async ask(session: Session | undefined, address: Address | undefined): Promise<void> {
    const turn = ++this.#asked;
    const other = address !== this.#wanted;
    if (other) {
      this.#wanted = address;
      this.told = undefined;
      this.letters = new Map();
    }
    if (!session || address === undefined) return;
    // The values come first. The working of a cell just chosen follows a frame later; that of one that changes waits until a run of changes is over.
    await new Promise((resolve) => (other ? requestAnimationFrame(resolve) : setTimeout(resolve, SETTLE)));
    if (turn !== this.#asked) return;
    try {
      const [trace, feeds] = await Promise.all([session.ask((engine) => engine.trace(address)), session.ask((engine) => engine.feeds(address))]);
      if (turn !== this.#asked) return;
      this.told = { address, trace, feeds: feeds.directly };
      const letters = new Map<Address, string>();
      for (const node of trace.from) if (node.address !== undefined && !letters.has(node.address)) letters.set(node.address, letterAt(letters.size));
      this.letters = letters;
      this.#host.requestUpdate();
    } catch {
      // The session says what is the matter; the last working stays.
    }
  }
}
