/** The program of a worker thread: blocks of clients in, their results out. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Block, BlockDone } from './pool.ts';
import { Proposer } from './proposer.ts';
import { Runner, type Setup } from './runner.ts';

const port = parentPort;
if (!port) throw new Error('this file runs in a worker thread only');
const setup = workerData as Setup;
const runner = setup.work === 'proposals' ? new Proposer(setup) : new Runner(setup);

port.on('message', async (block: Block) => {
  let text = '';
  const reasons: (string | undefined)[] = [];
  for (const client of block.clients) {
    const ran = client.reason === undefined ? await runner.run(client) : { ok: false as const, reason: client.reason };
    if (ran.ok) text += ran.text;
    reasons.push(ran.ok ? undefined : ran.reason);
  }
  port.postMessage({
    head: runner.headings(),
    text,
    reasons,
    said: runner.said.splice(0),
    ...(runner instanceof Proposer && { counts: runner.counted() }),
  } satisfies BlockDone);
});
