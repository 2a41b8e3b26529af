/**
 * 10,000 invented clients of the trade bench through the built command line, on as many threads as the machine has processors: wall time, processor
 * time and the most memory that was held, as the system tells them of the ended process. To be within 60 s on two free processors, and 400 MB.
 */
import { spawnSync } from 'node:child_process';
import { createReadStream, existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

const CLIENTS = Number(process.argv[3] ?? 10_000);
const PROGRAM = 'dist/cli/overbench.js';
if (!existsSync(PROGRAM)) throw new Error('npm run build comes first');

/** Numbers from 0 to 1, the same in every run (Park and Miller 1988, the "minimal standard" generator). */
let state = 20_261;
const chance = (): number => {
  state = (state * 48_271) % 2_147_483_647;
  return state / 2_147_483_647;
};
const between = (low: number, high: number, decimals: number): string => (low + chance() * (high - low)).toFixed(decimals);

const folder = mkdtempSync(join(tmpdir(), 'overbench-bench-'));
const input = join(folder, 'clients.csv');
const rows = Array.from(
  { length: CLIENTS },
  (_, i) =>
    `Client ${i + 1},${between(11.6, 16, 2)},${between(1.2, 1.8, 2)} m,${between(8, 18, 1)} h/d,${between(0.1, 0.5, 3)},${between(0.4, 1.2, 2)},${i % 3}`,
);
const headings = 'client,bench_length [ft],bench_width,light_hours,tariff (EUR/kWh),aisle [m],neighbours';
writeFileSync(input, `${[headings, ...rows].join('\n')}\n`);

const timer = existsSync('/usr/bin/time') ? ['/usr/bin/time', '-f', '%e %U %S %M'] : [];
for (const form of ['--wide', '--tidy']) {
  const output = join(folder, 'results.csv');
  const command = [...timer, process.execPath, PROGRAM, 'batch', 'trade-bench', input, form, '-o', output, '--rejected', join(folder, 'rejected.csv')];
  const begun = performance.now();
  const { status, stderr } = spawnSync(command[0] ?? '', command.slice(1), { encoding: 'utf8' });
  const wall = (performance.now() - begun) / 1000;
  const [elapsed, user, system, kilobytes] = stderr.trim().split('\n').at(-1)?.split(' ').map(Number) ?? [];
  const told =
    timer.length > 0
      ? `${elapsed} s, processor ${((user ?? 0) + (system ?? 0)).toFixed(0)} s, most memory ${((kilobytes ?? 0) / 1024).toFixed(0)} MB`
      : `${wall.toFixed(1)} s`;
  console.log(
    `${CLIENTS} clients ${form}, ${availableParallelism()} processors, load ${loadavg()[0]?.toFixed(1)}: ${told}; exit ${status}, ${await lines(output)} lines`,
  );
}
rmSync(folder, { recursive: true });

async function lines(file: string): Promise<number> {
  let count = 0;
  for await (const _ of createInterface({ input: createReadStream(file) })) count++;
  return count;
}
