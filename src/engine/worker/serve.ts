/**
 * The far side of the engine's messages: takes requests one after the other and answers each by its number. Between
 * answers it gives signs of life, so that whoever waits can tell slow from stuck.
 */
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { createEngine } from '../engine.ts';
import type { AskedBack, Engine, Values } from '../types.ts';
import { inParts, type Packed } from './packed.ts';

export type Method = Exclude<keyof Engine, 'close'>;

export interface Request {
  readonly id: number;
  /** `taken`: the last part of the answer with this number was taken in, and the next can come. `stop`: nobody waits for that answer any more. */
  readonly method: Method | 'taken' | 'stop';
  readonly args: readonly unknown[];
}

export type Message =
  /** Loaded and listening. */
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly id: number; readonly result: unknown }
  /** Values of an answer that is too long to be taken in at one go. */
  | { readonly kind: 'part'; readonly id: number; readonly values: Packed }
  | { readonly kind: 'failure'; readonly id: number; readonly message: string }
  /** How much of a long answer is done, from 0 to 1. */
  | { readonly kind: 'share'; readonly id: number; readonly done: number }
  /** Still at work; `slow` while inside a function that may take seconds. */
  | { readonly kind: 'alive'; readonly slow: boolean };

/** What a worker, a thread or a test gives to talk through. */
export interface Port {
  post(message: Message): void;
  listen(receive: (request: Request) => void): void;
}

/**
 * Values in one part: whoever takes them in can see to other things after each. While a book is opened nobody types in it yet, and each part costs its
 * way there and back.
 */
const PARTS_OF_AN_EDIT = 500;
const PARTS_OF_A_BOOK = 2_000;

/** Signs of life come no closer together than this. */
const BEAT_MS = 200;

export function serve(port: Port): void {
  let last = 0;
  const running = (slow: boolean): void => {
    last = performance.now();
    port.post({ kind: 'alive', slow });
  };
  const beat = (): void => {
    if (performance.now() - last >= BEAT_MS) running(false);
  };
  const engine = createEngine({ beat, running });
  let book: Book | undefined;
  /** A book is kept here, so that changes can come without theirs: the next one is made of it, and shares what did not change. */
  const complete = (method: Method, args: readonly unknown[]): readonly unknown[] => {
    if (method === 'load') book = args[0] as Book;
    if (method !== 'apply') return args;
    const changes = args[0] as readonly Change[];
    book = (args[1] as Book | undefined) ?? changes.reduce((before: Book | undefined, change) => before && apply(before, change, true), book);
    return [changes, book];
  };
  let taken = (): void => {};
  /** What ends a long answer, by its number. */
  const stops = new Map<number, AbortController>();
  /** One part at a time: many at once would stand in line before what is typed and before the frames that show it. */
  const sendPart = (id: number, values: Packed): Promise<void> =>
    new Promise((resolve) => {
      taken = resolve;
      port.post({ kind: 'part', id, values });
    });
  const answer = async (id: number, method: Method, args: readonly unknown[]): Promise<unknown> => {
    const send = (values: Packed): Promise<void> => sendPart(id, values);
    if (method === 'load') return inParts(engine.loaded(args[0] as Book), PARTS_OF_A_BOOK, send);
    if (method === 'back') {
      const signal = stops.get(id)?.signal;
      return engine.back(args[0] as AskedBack, { share: (done) => port.post({ kind: 'share', id, done }), ...(signal && { signal }) });
    }
    const call = engine[method] as (...args: readonly unknown[]) => Promise<unknown>;
    const result = await call(...args);
    return method === 'apply' ? inParts(Object.entries(result as Values), PARTS_OF_AN_EDIT, send) : result;
  };
  let turn: Promise<unknown> = Promise.resolve();
  port.listen(({ id, method, args }) => {
    if (method === 'taken') {
      taken();
      return;
    }
    if (method === 'stop') {
      stops.get(id)?.abort();
      return;
    }
    if (method === 'back') stops.set(id, new AbortController());
    turn = turn.then(async () => {
      // Until its first cells are worked out, a book is as silent as a slow function, on a busy machine for seconds.
      if (method === 'load') running(true);
      else beat();
      try {
        port.post({ kind: 'answer', id, result: await answer(id, method, complete(method, args)) });
      } catch (error) {
        port.post({ kind: 'failure', id, message: error instanceof Error ? error.message : String(error) });
      }
      stops.delete(id);
      if (method === 'givensOf') await engine.copy().catch(() => {});
    });
  });
  port.post({ kind: 'ready' });
}
