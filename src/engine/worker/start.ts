/// <reference types="vite/client" />
/** Starts the program that every worker of the page runs, each for one thing. */
import { IN_PAGE, type InPage } from './in-page.ts';
import workerUrl from './worker.ts?worker&url';

/** A worker as far as it is used: what is asked of it, and what it says. */
export interface WorkerLike<Asked, Said> {
  postMessage(message: Asked): void;
  terminate(): unknown;
  onmessage: ((event: { readonly data: Said }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

export const hasWorkers = typeof Worker !== 'undefined';

/** `what`: the name by which the program knows what for. */
export const startWorker = <Asked, Said>(what: string): WorkerLike<Asked, Said> =>
  hasWorkers ? (new Worker(workerUrl, { type: 'module', name: what }) as WorkerLike<Asked, Said>) : startInPage(what);

/** A browser without workers: the same program runs in the page, which then waits for it. Nothing could end it there. */
function startInPage<Asked, Said>(what: string): WorkerLike<Asked, Said> {
  const { port1, port2 } = new MessageChannel();
  const worker: WorkerLike<Asked, Said> = { postMessage: (asked) => port1.postMessage(asked), terminate: () => port1.close(), onmessage: null, onerror: null };
  port1.onmessage = (event) => worker.onmessage?.(event);
  import(/* @vite-ignore */ workerUrl).then(
    () => document.dispatchEvent(new CustomEvent<InPage>(IN_PAGE, { detail: { port: port2, what } })),
    (error: Error) => worker.onerror?.(error),
  );
  return worker;
}
