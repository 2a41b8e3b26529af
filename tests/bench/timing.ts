/**
 * Times of short jobs. `best` is what the machine can do: the least of all batches, by the clock or, where that is less because the
 * machine had other work in between, by the processor time of this process. `median` is by the clock: what one meets on a busy machine.
 */

export interface Timing {
  /** Microseconds a run. */
  readonly best: number;
  readonly median: number;
}

/** Short batches and many: on a machine that has other work, some of them run undisturbed. */
const BATCH_MS = 0.5;
const BATCHES = 500;
/** The compiler of the engine runs beside the code; give it time. */
const WARM_MS = 400;

let sink = 0;
/** Takes a result, so that the work for it cannot be left out. */
export const keep = (x: number): void => {
  sink += x;
};
export const kept = (): number => sink;

/** Processor time of this process, ms: all its threads, so the compiler's and the collector's work counts too. */
export function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

export function timed(job: () => void): Timing {
  const once = (n: number): { clock: number; processor: number } => {
    const [start, processor] = [performance.now(), processorMs()];
    for (let i = 0; i < n; i++) job();
    return { clock: performance.now() - start, processor: processorMs() - processor };
  };
  for (const start = performance.now(); performance.now() - start < WARM_MS; ) once(1);
  // As many runs a batch as fill it.
  let runs = 1;
  while (once(runs).clock < BATCH_MS) runs *= 2;
  const batches = Array.from({ length: BATCHES }, () => once(runs));
  const clock = batches.map((b) => (b.clock / runs) * 1000).sort((a, b) => a - b);
  // The processor's clock ticks in whole microseconds at best: not for batches shorter than that can tell.
  const processor = batches.map((b) => (b.processor / runs) * 1000).filter((us) => us * runs > 1000);
  return { best: Math.min(clock[0] as number, ...processor), median: clock[BATCHES >> 1] as number };
}
