/** Runs once in a fresh worker: loads the kernel, reckons one field, and says how many milliseconds of clock and processor each took. */
import { parentPort } from 'node:worker_threads';
import { processorMs } from './timing.ts';

const [start, processor] = [performance.now(), processorMs()];
const { benchField } = await import('../../functions/field/kernel.ts');
const [loaded, loadedProcessor] = [performance.now(), processorMs()];
const field = benchField(
  {
    bench: { length: 3.6, width: 1.5 },
    sides: 0,
    groups: [
      {
        kind: 'regular',
        fixture: { ppf: 100, length: 0.6, width: 0.06, beam: 110 },
        along: 5,
        across: 4,
        turned: false,
        spreadAlong: 1,
        spreadAcross: 1,
      },
    ],
  },
  0.5,
  24,
  12,
);
if (!(field[0] !== undefined && field[0] > 0)) throw new Error('no field');
const [end, endProcessor] = [performance.now(), processorMs()];
parentPort?.postMessage({ load: [loaded - start, loadedProcessor - processor], field: [end - loaded, endProcessor - loadedProcessor] });
