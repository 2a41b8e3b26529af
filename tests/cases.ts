/// <reference types="vite/types/importMeta.d.ts" />

/** True in `npm run test:long`: properties run all of their cases, and deadlines that are promised are measured. */
export const long = import.meta.env.MODE === 'long';

/** How many of all cases a property runs: all in the long run, a tenth in the one of every day. */
export const cases = (all: number): number => (long ? all : Math.ceil(all / 10));

/**
 * How fast-check runs a property: its cases, and a seed of its own, so that a failure is the same one again. A failure prints the seed that it had.
 * SEED=… is added to each, for cases that nobody has seen yet.
 */
export const runs = (all: number, seed: number): { numRuns: number; seed: number } => ({ numRuns: cases(all), seed: seed + Number(process.env.SEED ?? 0) });
