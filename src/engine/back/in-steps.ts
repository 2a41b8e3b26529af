/** Long work done in steps, between which whoever waits for it hears how far it is and can end it. */
import type { Waiting } from '../types.ts';

/** As long as a step may keep the thread, ms. */
const STEP_MS = 40;

/** What the work comes to; undefined where it was stopped. */
export async function inSteps<T>(work: Generator<number, T>, { share, signal }: Waiting = {}): Promise<T | undefined> {
  let begun = performance.now();
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    if (performance.now() - begun < STEP_MS) continue;
    share?.(step.value);
    await new Promise((resolve) => setTimeout(resolve));
    if (signal?.aborted) return undefined;
    begun = performance.now();
  }
}
