/** The catalogue of functions, by family. A new function is one line here, its file, and its test. */

// Beam and footprint
import { BEAM_EXPONENT } from './beam/beam-exponent.ts';
import type { FunctionRecord } from './define.ts';

export const functions: readonly FunctionRecord[] = [
  // Beam and footprint
  BEAM_EXPONENT,
];
