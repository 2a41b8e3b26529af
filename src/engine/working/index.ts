/** The working of a value: its steps, as they are printed, and what it reads, down to the givens. */
export { Tracer } from './trace.ts';
