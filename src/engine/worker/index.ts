/** Workers: the engine in one of its own, and whatever else is started in one; the page's side, the worker's, and what goes between them. */
export { createWorkerEngine } from './client.ts';
export { PROPOSING } from './in-page.ts';
export type { Ask, Offered, Said } from './serve-proposals.ts';
export { startWorker, type WorkerLike } from './start.ts';
