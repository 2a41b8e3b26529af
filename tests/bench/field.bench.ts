/** Times of the field, with their limits; the ratio to the same arithmetic in C; how the cost grows. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { beamExponent } from '../../functions/field/beam-exponent.ts';
import { ruleFor } from '../../functions/field/gaussian-terms.ts';
import { benchField, landingShare } from '../../functions/field/kernel.ts';
import type { Layout, RegularGroup } from '../../functions/field/layout.ts';
import { layoutText } from '../../functions/field/layout-text.ts';
import { MOUNT_HEIGHT } from '../../functions/mount/mount-height.ts';
import { manyGeometries } from './field-jobs.ts';
import { keep, kept, type Timing, timed } from './timing.ts';

const regular = (beam: number, along: number, across: number, length: number, width: number, bench: Layout['bench'], sides = 0): Layout => ({
  bench,
  sides,
  groups: [{ kind: 'regular', fixture: { ppf: 100, length, width, beam }, along, across, turned: false, spreadAlong: 1, spreadAcross: 1 }],
});

const BENCH = { length: 3.6, width: 1.5 };
const twenty = (beam: number, sides = 0): Layout => regular(beam, 5, 4, 0.6, 0.06, BENCH, sides);
const fourHundred = regular(120, 20, 20, 0.6, 0.3, { length: 20, width: 10 });

let failed = 0;
function report(job: string, { best, median }: Timing, limit: number, note = ''): void {
  const over = best > limit ? '  OVER THE LIMIT' : '';
  if (over) failed++;
  console.log(`${job.padEnd(58)} best ${best.toFixed(1).padStart(9)} µs  median ${median.toFixed(1).padStart(9)} µs  limit ${limit} µs${note}${over}`);
}

function compileC(): { run: string; folder: string } | string {
  const folder = mkdtempSync(join(tmpdir(), 'bench-c-'));
  try {
    execFileSync('cc', ['-O3', '-march=native', '-o', join(folder, 'field'), resolve('tests/bench/field.c'), '-lm'], { stdio: 'pipe' });
    return { run: join(folder, 'field'), folder };
  } catch (error) {
    rmSync(folder, { recursive: true });
    return `no C compiler ran (${error instanceof Error ? error.message.split('\n')[0] : error})`;
  }
}

function timeInC(program: string, layout: Layout, height: number, nx: number, ny: number, runs: number): { us: number; total: number } {
  const { fixture, along, across } = layout.groups[0] as RegularGroup;
  const m = beamExponent(fixture.beam);
  const { k, step, ratio, lnShare, mergedTau, lnMerged, high, low, reach } = ruleFor(m);
  const rule = [k, step, ratio, lnShare, mergedTau, lnMerged, high, low, reach];
  const given = [...rule, fixture.ppf, m, fixture.length, fixture.width, along, across, layout.bench.length, layout.bench.width, height, nx, ny, runs];
  const [seconds, total] = execFileSync(program, given.map(String), { encoding: 'utf8' }).split(' ').map(Number);
  return { us: (seconds as number) * 1e6, total: total as number };
}

/** Slope of ln time against ln size by least squares: 1 is linear. */
function growth(sizes: readonly number[], times: readonly number[]): number {
  const [xs, ys] = [sizes.map(Math.log), times.map(Math.log)];
  const mean = (v: readonly number[]): number => v.reduce((s, x) => s + x, 0) / v.length;
  const [mx, my] = [mean(xs), mean(ys)];
  return xs.reduce((s, x, i) => s + (x - mx) * ((ys[i] as number) - my), 0) / xs.reduce((s, x) => s + (x - mx) ** 2, 0);
}

const c = compileC();
console.log(`${cpus()[0]?.model}, Node ${process.version}${typeof c === 'string' ? `; without the C figures: ${c}` : ''}`);

/** Rounds in which each of the two runs in turn: the machine's speed drifts, so only neighbours are compared. */
const ROUNDS = 25;
/** Runs a batch, and batches a round on our side (field.c takes the best of as many). Short ones and many, so that both sides have one that nothing disturbed. */
const [RUNS, BATCHES] = [10, 100];
/** Batches before them, so that their loop is compiled as well. */
const WARM_BATCHES = 800;

/**
 * Our time over C's: the median over the rounds of best over best, and the best of all rounds over the best of all. The first is what counts. Where the second
 * is less, the processor was shared with others outside this machine: what waits for room in it then waits longer, and our code does more than C's.
 */
function ratioToC(program: string, layout: Layout): { median: number; undisturbed: number } {
  const batch = (): number => {
    const start = performance.now();
    for (let run = 0; run < RUNS; run++) keep(benchField(layout, 0.5, 24, 12)[0] as number);
    return ((performance.now() - start) / RUNS) * 1000;
  };
  for (let i = 0; i < WARM_BATCHES; i++) batch();
  const rounds = Array.from({ length: ROUNDS }, () => {
    let ours = Number.POSITIVE_INFINITY;
    for (let i = 0; i < BATCHES; i++) ours = Math.min(ours, batch());
    return { ours, theirs: timeInC(program, layout, 0.5, 24, 12, RUNS).us };
  });
  const ratios = rounds.map(({ ours, theirs }) => ours / theirs).sort((a, b) => a - b);
  return { median: ratios[ROUNDS >> 1] as number, undisturbed: Math.min(...rounds.map((r) => r.ours)) / Math.min(...rounds.map((r) => r.theirs)) };
}

for (const beam of [10, 30, 60, 90, 120, 150, 170]) {
  const layout = twenty(beam);
  const js = timed(() => keep(benchField(layout, 0.5, 24, 12)[0] as number));
  let note = '';
  if (typeof c !== 'string') {
    const { us, total } = timeInC(c.run, layout, 0.5, 24, 12, RUNS);
    const ours = benchField(layout, 0.5, 24, 12).reduce((s, e) => s + e, 0);
    if (Math.abs(total / ours - 1) > 1e-9) throw new Error(`the C program reckons something else: ${total} against ${ours}`);
    const { median, undisturbed } = ratioToC(c.run, layout);
    note = `  C ${us.toFixed(1)} µs, ratio ${median.toFixed(2)}, undisturbed ${undisturbed.toFixed(2)}`;
    if (median > 2) {
      failed++;
      note += ' OVER 2';
    }
  }
  report(`20 rectangles on 24×12, ${beam}°`, js, 60, note);
}

{
  const js = timed(() => keep(benchField(fourHundred, 1, 100, 100)[0] as number));
  const note = typeof c === 'string' ? '' : `  C ${timeInC(c.run, fourHundred, 1, 100, 100, 5).us.toFixed(1)} µs`;
  report('400 rectangles on 100×100', js, 2000, note);
}
{
  const text = layoutText(twenty(120));
  const work = MOUNT_HEIGHT.work as (args: readonly unknown[], show: undefined) => number;
  report(
    'MOUNT.HEIGHT, 20 rectangles',
    timed(() => keep(work([text, 200, 0.05, 10], undefined))),
    150,
  );
}
report(
  'landing share, 20 rectangles',
  timed(() => keep(landingShare(twenty(120), 0.5))),
  60,
);
for (const sides of [0.3, 0.6, 0.9, 0.95]) {
  // Another reflectance every time: what is kept of one is of no use to the next.
  let turn = 0;
  report(
    `20 rectangles on 24×12, sides ${sides}, each for the first time`,
    timed(() => keep(benchField(twenty(120, sides - 1e-9 * ++turn), 0.5, 24, 12)[0] as number)),
    15_000,
  );
}
report(
  '20,000 geometries on 24×12, full grid',
  timed(() => keep(manyGeometries(20_000))),
  50_000,
);
report(
  '20,000 combinations, 4,000 geometries with 5 dimmings',
  timed(() => keep(manyGeometries(4000))),
  50_000,
);

/** Loading of the kernel, with its table of the error function, and first field in a worker that has run nothing: ms by clock and of processor. */
interface Cold {
  readonly load: readonly [number, number];
  readonly field: readonly [number, number];
}
const cold = (): Promise<Cold> =>
  new Promise((done, fail) => {
    const worker = new Worker(new URL('./field.worker.js', import.meta.url));
    worker.once('message', done);
    worker.once('error', fail);
  });
{
  const all: Cold[] = [];
  for (let i = 0; i < 9; i++) all.push(await cold());
  const timing = (times: readonly (readonly [number, number])[]): Timing => ({
    best: Math.min(...times.flat()) * 1000,
    median: times.map(([ms]) => ms * 1000).sort((a, b) => a - b)[4] as number,
  });
  report('first field in a fresh worker', timing(all.map(({ field }) => field)), 10_000);
  const load = timing(all.map((c) => c.load));
  console.log(`  loading the kernel there before it, files and tables: best ${load.best.toFixed(0)} µs, median ${load.median.toFixed(0)} µs`);
}

{
  const sides = [2, 4, 8, 16, 20];
  const times = sides.map((n) => timed(() => keep(benchField(regular(120, n, n, 0.3, 0.3, { length: 20, width: 20 }), 1, 5 * n, 5 * n)[0] as number)).best);
  const exponent = growth(
    sides.map((n) => n * n + 25 * n * n),
    times,
  );
  console.log(`regular layouts, time against fixtures + points: power ${exponent.toFixed(2)} (1 is linear)`);
  const counts = [10, 40, 160, 400];
  const free = (n: number): Layout => ({
    bench: { length: 20, width: 20 },
    sides: 0,
    groups: [
      {
        kind: 'free',
        fixture: { ppf: 100, length: 0.3, width: 0.3, beam: 120 },
        places: Array.from({ length: n }, (_, i) => ({ x: (i % 20) + 0.5, y: Math.floor(i / 20) + 0.5, turned: false })),
      },
    ],
  });
  const freeTimes = counts.map((n) => timed(() => keep(benchField(free(n), 1, 30, 30)[0] as number)).best);
  console.log(
    `free layouts, time against fixtures × points: power ${growth(
      counts.map((n) => n * 900),
      freeTimes,
    ).toFixed(2)}; 400 on 30×30 ${freeTimes.at(-1)?.toFixed(0)} µs`,
  );
}
if (typeof c !== 'string') rmSync(c.folder, { recursive: true });
console.log(`(kept ${kept().toExponential(1)})`);
if (failed > 0) {
  console.error(`${failed} over their limit`);
  process.exitCode = 1;
}
