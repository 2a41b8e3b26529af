/** The engine in a worker of its own: the page's side, the worker's, and what goes between them. */
export { createWorkerEngine } from './client.ts';
