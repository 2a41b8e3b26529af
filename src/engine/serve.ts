/**
 * The far side of the engine's messages: takes requests one after the other and answers each by its number. Between
 * answers it gives signs of life, so that whoever waits can tell slow from stuck.
 */
import { createEngine } from './engine.ts';
import type { Engine } from './types.ts';

export type Method = Exclude<keyof Engine, 'close'>;

export interface Request {
  readonly id: number;
  readonly method: Method;
  readonly args: readonly unknown[];
}

export type Message =
  /** Loaded and listening. */
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly id: number; readonly result: unknown }
  | { readonly kind: 'failure'; readonly id: number; readonly message: string }
  /** Still at work; `slow` while inside a function that may take seconds. */
  | { readonly kind: 'alive'; readonly slow: boolean };

/** What a worker, a thread or a test gives to talk through. */
export interface Port {
  post(message: Message): void;
  listen(receive: (request: Request) => void): void;
}

/** Signs of life come no closer together than this. */
const BEAT_MS = 200;

export function serve(port: Port): void {
  let last = 0;
  const beat = (): void => {
    const now = performance.now();
    if (now - last < BEAT_MS) return;
    last = now;
    port.post({ kind: 'alive', slow: false });
  };
  const engine = createEngine({
    beat,
    running: (slow) => {
      last = performance.now();
      port.post({ kind: 'alive', slow });
    },
  });
  let turn: Promise<unknown> = Promise.resolve();
  port.listen(({ id, method, args }) => {
    turn = turn.then(async () => {
      beat();
      try {
        const call = engine[method] as (...args: readonly unknown[]) => Promise<unknown>;
        port.post({ kind: 'answer', id, result: await call(...args) });
      } catch (error) {
        port.post({ kind: 'failure', id, message: error instanceof Error ? error.message : String(error) });
      }
    });
  });
  port.post({ kind: 'ready' });
}
