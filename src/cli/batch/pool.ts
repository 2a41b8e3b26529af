/** Worker threads over blocks of clients, whose results come out in the order in which the blocks went in, however many threads there are. */
import { Worker } from 'node:worker_threads';
import type { Counts } from '../../engine/propose/index.ts';
import { Failure } from '../wrong-use.ts';
import type { Client, Setup } from './runner.ts';

export interface Block {
  /** With a reason where the record can't be a client at all. There may be none: then only the headings are asked for. */
  readonly clients: readonly (Client & { readonly reason?: string })[];
}

export interface BlockDone {
  /** The line of headings that stands over all results. */
  readonly head: string;
  /** CSV of the clients that have results. */
  readonly text: string;
  /** One a client: why it has none. */
  readonly reasons: readonly (string | undefined)[];
  readonly said: readonly string[];
  /** How many arrangements these clients took, where they are proposed. */
  readonly counts?: Counts;
}

/** The bundle puts the worker's program beside this one. */
const PROGRAM = './batch-worker.js';

/** So many blocks a thread are on their way at once; the rest of the input waits to be read. */
const AHEAD = 3;

/** The caller takes one block at a time, so that what is not yet written out holds the reading back. */
export async function* inOrder<B extends Block>(
  blocks: AsyncIterable<B>,
  jobs: number,
  setup: Setup,
): AsyncGenerator<{ readonly block: B; readonly done: BlockDone }> {
  // A thread costs a second or so to begin: one more comes only when all that there are have work.
  const threads: Thread[] = [];
  try {
    const waiting: { readonly block: B; readonly done: Promise<BlockDone> }[] = [];
    for await (const block of blocks) {
      let free = threads.reduce<Thread | undefined>((a, b) => (a && a.load <= b.load ? a : b), undefined);
      if (!free || (free.load > 0 && threads.length < jobs)) {
        free = new Thread(setup);
        threads.push(free);
      }
      const done = free.run(block);
      // The first to fail ends the run; the others are not asked any more.
      done.catch(() => {});
      waiting.push({ block, done });
      const first = waiting.length >= jobs * AHEAD ? waiting.shift() : undefined;
      if (first) yield { block: first.block, done: await first.done };
    }
    for (const { block, done } of waiting) yield { block, done: await done };
  } finally {
    await Promise.all(threads.map((thread) => thread.end()));
  }
}

interface Asked {
  readonly answer: (done: BlockDone) => void;
  readonly fail: (error: Error) => void;
}

class Thread {
  private readonly worker: Worker;
  private readonly asked: Asked[] = [];
  private broken: Error | undefined;

  constructor(setup: Setup) {
    // A heap that may grow would: the engine makes much that is soon forgotten.
    this.worker = new Worker(new URL(PROGRAM, import.meta.url), {
      workerData: setup,
      resourceLimits: { maxOldGenerationSizeMb: 512, maxYoungGenerationSizeMb: 16 },
    });
    this.worker.on('message', (done: BlockDone) => this.asked.shift()?.answer(done));
    this.worker.on('error', (error: Error) => {
      this.broken = new Failure(`a thread stopped: ${error.message}`);
      for (const { fail } of this.asked.splice(0)) fail(this.broken);
    });
  }

  get load(): number {
    return this.asked.length;
  }

  run(block: Block): Promise<BlockDone> {
    return new Promise((answer, fail) => {
      if (this.broken) return fail(this.broken);
      this.asked.push({ answer, fail });
      this.worker.postMessage(block);
    });
  }

  async end(): Promise<void> {
    await this.worker.terminate();
  }
}
