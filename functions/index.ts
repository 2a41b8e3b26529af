/** The catalogue of functions, by family. A new function is one line here, its file, and its test. */

// Beam and footprint
import { BEAM_EXPONENT } from './beam/beam-exponent.ts';
import type { FunctionRecord } from './define.ts';
// The field over a bench
import { BENCH_HIGH } from './field/bench-high.ts';
import { BENCH_LOW } from './field/bench-low.ts';
import { BENCH_LOW_TO_HIGH } from './field/bench-low-to-high.ts';
import { BENCH_MEAN } from './field/bench-mean.ts';
import { BENCH_PPFD } from './field/bench-ppfd.ts';
import { BENCH_SHARE_LIT } from './field/bench-share-lit.ts';
import { BENCH_SPREAD } from './field/bench-spread.ts';
import { BENCH_UNIFORMITY } from './field/bench-uniformity.ts';
import { LANDING_SHARE } from './field/landing-share.ts';
import { LAYOUT_COUNT } from './field/layout-count.ts';
import { LAYOUT } from './field/layout-function.ts';
import { LAYOUT_PPF } from './field/layout-ppf.ts';
// Quantities in formulas
import { CONVERT } from './standard/convert.ts';
import { NUMBER_IN } from './standard/number-in.ts';
import { SHOW } from './standard/show.ts';
import { UNIT } from './standard/unit.ts';

export const functions: readonly FunctionRecord[] = [
  // Beam and footprint
  BEAM_EXPONENT,

  // The field over a bench
  LAYOUT,
  LAYOUT_COUNT,
  LAYOUT_PPF,
  BENCH_PPFD,
  BENCH_MEAN,
  BENCH_LOW,
  BENCH_HIGH,
  BENCH_UNIFORMITY,
  BENCH_LOW_TO_HIGH,
  BENCH_SPREAD,
  BENCH_SHARE_LIT,
  LANDING_SHARE,

  // Quantities in formulas
  UNIT,
  NUMBER_IN,
  SHOW,
  CONVERT,
];
