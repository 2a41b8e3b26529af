import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Address } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import type { Told } from '../margin/index.ts';
import { letterAt, whenIdle } from '../parts/index.ts';

/** ms of a frame. */
const FRAME = 16;
/** ms without another change. */
const SETTLE = 120;
/** ms that the working may wait for a moment in which the page has nothing else to do. */
const LATEST = 300;

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
    // By the clock and not by frames: while a frame is asked for, a browser may keep back what the engine answers until that is drawn.
    await new Promise((resolve) => setTimeout(resolve, other ? FRAME : SETTLE));
    if (turn !== this.#asked) return;
    try {
      const [trace, feeds] = await Promise.all([session.ask((engine) => engine.trace(address)), session.ask((engine) => engine.feeds(address))]);
      // What is being typed goes before it.
      await new Promise<void>((resolve) => whenIdle(resolve, LATEST));
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
