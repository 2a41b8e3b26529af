/** Times of short jobs. The best of the batches is what the machine can do; the median is what one meets on a busy one. */

export interface Timing {
  /** Microseconds a run. */
  readonly best: number;
  readonly median: number;
}

/** Short batches and many: on a machine that has other work, some of them run undisturbed. */
const BATCH_MS = 2;
const BATCHES = 120;
/** The compiler of the engine runs beside the code; give it time. */
const WARM_MS = 400;

let sink = 0;
/** Takes a result, so that the work for it cannot be left out. */
export const keep = (x: number): void => {
  sink += x;
};
export const kept = (): number => sink;

export function timed(job: () => void): Timing {
  const once = (n: number): number => {
    const start = performance.now();
    for (let i = 0; i < n; i++) job();
    return performance.now() - start;
  };
  for (const start = performance.now(); performance.now() - start < WARM_MS; ) once(1);
  // As many runs a batch as fill it.
  let runs = 1;
  while (once(runs) < BATCH_MS) runs *= 2;
  const times = Array.from({ length: BATCHES }, () => (once(runs) / runs) * 1000).sort((a, b) => a - b);
  return { best: times[0] as number, median: times[BATCHES >> 1] as number };
}
