/** Works pieces of a search, as one of two threads of the page does. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Book } from '../../src/book/book.ts';
import { type Choices, Searcher } from '../../src/engine/propose/index.ts';

const { book, choices } = workerData as { book: Book; choices: Choices };
const searcher = Searcher.of(book, choices);
if (typeof searcher === 'string') throw new Error(searcher);
parentPort?.on('message', (piece: number) => parentPort?.postMessage(searcher.piece(piece)));
parentPort?.postMessage(searcher.plan);
