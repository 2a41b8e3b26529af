/**
 * The page's side of a search for layouts: two workers of its own, each with a copy of the book, so that neither the book nor the engine that works it out
 * is touched. They stay while the book is open, and the next search finds them warm.
 */
import type { Book } from '../../book/book.ts';
import type { Choices, Layout, Looked, PieceDone, Proposed } from '../propose/index.ts';
import { type Ask, type Offered, PROPOSING, type Said, startWorker, type WorkerLike } from '../worker/index.ts';

type ProposingWorker = WorkerLike<Ask, Said>;

const WORKERS = 2;
/** Without a sign of life for so long a worker is ended, ms: loading it, and a book that is built, take their time on a busy machine. */
const SILENCE = 30_000;

/** How far a search has come. */
export interface Heard {
  readonly tried: number;
  readonly of: number;
  /** Those of them in which all holds. */
  readonly hold: number;
  /** Those that came with the last piece; only where all are wanted. */
  readonly found: readonly Layout[];
}

export interface Hearing {
  /** What there is to choose, once it is known. */
  readonly offered?: (offered: Offered) => void;
  readonly heard?: (heard: Heard) => void;
  /** Stops the search after the pieces that are being tried; what was found until then is the answer. */
  readonly signal?: AbortSignal;
}

export interface Proposers {
  /** Tries what the choices leave. Rejects with a sentence where that can't be done. */
  search(book: Book, choices: Choices, hearing?: Hearing): Promise<Proposed>;
  /** Gives the workers a book that is likely to be searched next, so that the search needs not wait for them to build it. */
  prepare(book: Book): void;
  /** What a layout of the last search says in full, as a scenario. */
  look(layout: Layout): Promise<Looked>;
  close(): void;
}

export function createProposers(start: () => ProposingWorker = () => startWorker(PROPOSING), workers = WORKERS, silence = SILENCE): Proposers {
  let hands: readonly Hand[] = [];
  let closed = false;
  const end = (why: string): void => {
    for (const hand of hands) hand.end(why);
    hands = [];
  };
  const ready = (): readonly Hand[] => {
    if (closed) throw new Error(CLOSED);
    if (hands.some((hand) => hand.lost)) end('');
    if (hands.length === 0) hands = Array.from({ length: workers }, () => new Hand(start(), silence));
    return hands;
  };
  return {
    search: async (book, choices, hearing = {}) => search(ready(), book, choices, hearing),
    prepare: (book) => {
      // What stands in its way is said when it is searched.
      for (const hand of ready()) hand.plan(book, {}).catch(() => {});
    },
    look: async (layout) => (ready()[0] as Hand).ask<Looked>({ ask: 'look', layout }),
    close: () => {
      closed = true;
      end(CLOSED);
    },
  };
}

const CLOSED = 'This book is closed.';
const STOPPED = 'The search was stopped.';

/** Each takes the next piece when it is done with its last, so that none waits for the other; what comes of it does not hang on who took which. */
async function search(hands: readonly Hand[], book: Book, choices: Choices, { offered, heard, signal }: Hearing): Promise<Proposed> {
  const done: PieceDone[] = [];
  let next = 0;
  let [tried, hold] = [0, 0];
  let told = false;
  const work = async (hand: Hand): Promise<void> => {
    const choosable = await hand.plan(book, choices);
    const { plan } = choosable;
    if (!told) offered?.(choosable);
    told = true;
    while (next < plan.pieces && !signal?.aborted) {
      const one = await hand.ask<PieceDone>({ ask: 'piece', piece: next++ });
      done.push(one);
      tried += one.counts.layouts;
      hold += one.counts.hold;
      heard?.({ tried, of: plan.layouts, hold, found: one.all });
    }
  };
  await Promise.all(hands.map(work));
  done.sort((a, b) => a.piece - b.piece);
  return concluded(hands, done, signal);
}

/** What the pieces come to. Looking for what stands in the way takes its time, and a worker at it hears nothing: to stop it ends it, and another answers without. */
async function concluded([hand, other]: readonly Hand[], done: readonly PieceDone[], signal: AbortSignal | undefined): Promise<Proposed> {
  const conclude = (by: Hand | undefined, stopped: boolean): Promise<Proposed> => (by as Hand).ask<Proposed>({ ask: 'conclude', done, stopped });
  if (!other || !signal || signal.aborted) return conclude(hand, signal?.aborted ?? false);
  const stop = (): void => hand?.end(STOPPED);
  signal.addEventListener('abort', stop);
  try {
    return await conclude(hand, false);
  } catch (error) {
    if (!signal.aborted) throw error;
    return await conclude(other, true);
  } finally {
    signal.removeEventListener('abort', stop);
  }
}

/** One worker, and what it was asked. */
class Hand {
  readonly #worker: ProposingWorker;
  readonly #silence: number;
  readonly #pending = new Map<number, { readonly resolve: (result: unknown) => void; readonly reject: (error: Error) => void }>();
  #next = 1;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** The book that it has. */
  #book: Book | undefined;
  /** It was ended, or broke off. */
  lost = false;

  constructor(worker: ProposingWorker, silence: number) {
    this.#worker = worker;
    this.#silence = silence;
    worker.onmessage = ({ data }) => this.#hear(data);
    worker.onerror = ({ message }) => this.end(`The search broke off${message ? `: ${message}` : ''}. The book is as it was.`);
  }

  /** A book that it has is not sent again. */
  async plan(book: Book, choices: Choices): Promise<Offered> {
    const sent = this.#book === book ? {} : { book };
    this.#book = book;
    try {
      return await this.ask<Offered>({ ask: 'plan', ...sent, choices });
    } catch (error) {
      this.#book = undefined;
      throw error;
    }
  }

  ask<Result>(asked: Ask['what']): Promise<Result> {
    return new Promise((resolve, reject) => {
      const id = this.#next++;
      this.#pending.set(id, { resolve: resolve as (result: unknown) => void, reject });
      this.#worker.postMessage({ id, what: asked });
      this.#watch();
    });
  }

  end(why: string): void {
    this.lost = true;
    clearTimeout(this.#timer);
    this.#worker.onmessage = null;
    this.#worker.onerror = null;
    this.#worker.terminate();
    for (const { reject } of this.#pending.values()) reject(new Error(why));
    this.#pending.clear();
  }

  #hear(said: Said): void {
    const waiting = said.kind === 'alive' ? undefined : this.#pending.get(said.id);
    if (said.kind !== 'alive') this.#pending.delete(said.id);
    this.#watch();
    if (said.kind === 'answer') waiting?.resolve(said.result);
    else if (said.kind === 'failure') waiting?.reject(new Error(said.message));
  }

  /** Starts the time allowed for the next sign of life. */
  #watch(): void {
    clearTimeout(this.#timer);
    if (this.#pending.size === 0) return;
    this.#timer = setTimeout(() => this.end('The search gave no sign of life and was stopped. The book is as it was.'), this.#silence);
  }
}
