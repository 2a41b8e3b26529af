/**
 * Which rows of a table are in sight. When values change, those rows are drawn first, and the others in the turn after the frame that shows them:
 * of a long table most rows are out of sight, and whoever waits for an answer waits for what can be seen.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { whenIdle } from '../parts/index.ts';

/** ms after which they are drawn though the page is not idle. */
const LATEST = 50;

/** What is watched. */
interface Watched extends ReactiveControllerHost {
  /** What its rows are drawn in. */
  readonly root: ParentNode;
}

export class Sight implements ReactiveController {
  readonly #host: Watched;
  readonly #seen = new Set<HTMLTableRowElement>();
  #observer: IntersectionObserver | undefined;
  /** The lines as they were last drawn. */
  #lines = '';
  /** Their elements may be others than those that are watched. */
  #others = false;
  /** Lines were left out when the table was last drawn. */
  #behind = false;
  #asked = false;
  #turn = 0;
  #turnDrawn = 0;

  constructor(host: Watched) {
    this.#host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#observer?.disconnect();
    this.#observer = undefined;
    this.#seen.clear();
    this.#lines = '';
  }

  /** Counts up when what was left out is to be drawn. */
  get turn(): number {
    return this.#turn;
  }

  /** Begins a drawing of these lines: gives which of them are left for later. None is where other lines stand there than before. */
  left(lines: string): (line: number) => boolean {
    const later = lines === this.#lines && this.#turn === this.#turnDrawn && this.#seen.size > 0;
    this.#others ||= lines !== this.#lines;
    this.#lines = lines;
    this.#turnDrawn = this.#turn;
    this.#behind = false;
    if (!later) return () => false;
    const seen = new Set([...this.#seen].map((row) => row.sectionRowIndex));
    return (line) => {
      const out = !seen.has(line);
      this.#behind ||= out;
      return out;
    };
  }

  hostUpdated(): void {
    // A large table asks nothing of this controller: its rows come and go as it scrolls (row-pool.ts).
    if (this.#others) this.#watch();
    this.#others = false;
    if (!this.#behind || this.#asked) return;
    this.#asked = true;
    requestAnimationFrame(() =>
      whenIdle(() => {
        this.#asked = false;
        if (!this.#behind) return;
        this.#turn++;
        this.#host.requestUpdate();
      }, LATEST),
    );
  }

  #watch(): void {
    this.#observer ??= new IntersectionObserver((entries) => {
      for (const { target, isIntersecting } of entries) this.#seen[isIntersecting ? 'add' : 'delete'](target as HTMLTableRowElement);
    });
    for (const row of this.#host.root.querySelectorAll('tbody > tr')) this.#observer.observe(row);
  }
}
