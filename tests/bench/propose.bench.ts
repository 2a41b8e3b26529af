/**
 * The demo's whole space of arrangements in two warm threads, each with its verdict, evenness and yearly cost; how soon the first result is there; and clients
 * by the built command line, where there is one. What is asked of each stands beside it. A number after the name says how many clients.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Book } from '../../src/book/book.ts';
import { type Choices, gathered, type PieceDone, propose } from '../../src/engine/propose/index.ts';

const book = JSON.parse(readFileSync('templates/trade-bench.json', 'utf8')) as Book;
const THREADS = 2;
const RUNS = 8;
const load = (): string => `load ${loadavg()[0]?.toFixed(1)}`;

async function whole(choices: Choices): Promise<void> {
  const workers = Array.from({ length: THREADS }, () => new Worker(new URL('./propose.worker.js', import.meta.url), { workerData: { book, choices } }));
  const heard = (worker: Worker): Promise<unknown> => new Promise((resolve) => worker.once('message', resolve));
  const [plan] = (await Promise.all(workers.map(heard))) as { pieces: number }[];
  const times: number[] = [];
  const firsts: number[] = [];
  const processor: number[] = [];
  let counts = gathered([]).counts;
  for (let run = 0; run < RUNS; run++) {
    const [begun, used] = [performance.now(), process.cpuUsage()];
    let next = 0;
    let first: number | undefined;
    const done: PieceDone[] = [];
    await Promise.all(
      workers.map(async (worker) => {
        while (next < (plan?.pieces ?? 0)) {
          const answer = heard(worker);
          worker.postMessage(next++);
          done.push((await answer) as PieceDone);
          if (first === undefined && Object.keys(gathered(done).best).length > 0) first = performance.now() - begun;
        }
      }),
    );
    times.push(performance.now() - begun);
    firsts.push(first ?? Number.NaN);
    const { user, system } = process.cpuUsage(used);
    processor.push((user + system) / 1000);
    counts = gathered(done).counts;
  }
  await Promise.all(workers.map((worker) => worker.terminate()));
  const { layouts, built, worked, cut, hold } = counts;
  const best = Math.min(...times.slice(-5));
  console.log(
    `${choices.all ? 'every one' : 'the best'} of ${layouts} arrangements, ${built} can be built, ${worked} worked out, ${cut} passed over, ${hold} hold: best of five ${(best / 1000).toFixed(2)} s in ${THREADS} warm threads, ${((best / built) * 20).toFixed(2)} s for 20,000 that can be built (to be within 2.5, better 1); processor ${(Math.min(...processor.slice(-5)) / 1000).toFixed(2)} s; the first result after ${Math.min(...firsts.slice(-5)).toFixed(0)} ms (300); ${load()}`,
  );
}

await whole({ all: true });
await whole({ all: true, heights: { step: 0.0166 } });
await whole({});
for (let run = 0; run < 3; run++) {
  const begun = performance.now();
  const found = propose(book);
  if (typeof found === 'string') throw new Error(found);
  console.log(`three proposals in one thread, from the book on: ${(performance.now() - begun).toFixed(0)} ms, run ${run + 1}`);
}

const PROGRAM = 'dist/cli/overbench.js';
const CLIENTS = Number(process.argv[3] ?? 100);
if (existsSync(PROGRAM)) {
  /** Numbers from 0 to 1, the same in every run (Park and Miller 1988, the "minimal standard" generator). */
  let state = 20_261;
  const chance = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const between = (low: number, high: number, decimals: number): string => (low + chance() * (high - low)).toFixed(decimals);
  const folder = mkdtempSync(join(tmpdir(), 'overbench-bench-'));
  const lines = Array.from(
    { length: CLIENTS },
    (_, i) => `Client ${i + 1},${between(6, 16, 2)},${between(0.8, 1.8, 2)} m,${between(10, 18, 1)} h/d,${between(0.1, 0.5, 3)},${between(0.5, 1.2, 2)}`,
  );
  writeFileSync(
    join(folder, 'clients.csv'),
    `${['client,bench_length [ft],bench_width,light_hours,tariff (EUR/kWh),highest_mount [m]', ...lines].join('\n')}\n`,
  );
  const timer = existsSync('/usr/bin/time') ? ['/usr/bin/time', '-f', '%e s, processor %U + %S s, most memory %M kB'] : [];
  const command = [...timer, process.execPath, PROGRAM, 'propose', 'trade-bench', join(folder, 'clients.csv'), '-o', join(folder, 'plans.csv')];
  const begun = performance.now();
  const { status, stderr } = spawnSync(command[0] ?? '', command.slice(1), { encoding: 'utf8' });
  const wall = (performance.now() - begun) / 1000;
  const none = readFileSync(join(folder, 'plans.csv'), 'utf8')
    .split('\n')
    .filter((line) => /^[^,]*,none,/.test(line)).length;
  console.log(
    `${CLIENTS} clients of the trade bench, ${none} of whom nothing holds for, ${availableParallelism()} processors: ${wall.toFixed(1)} s (1,000 within 300, better 120); exit ${status}; ${load()}\n${stderr.trim()}`,
  );
  rmSync(folder, { recursive: true });
}
