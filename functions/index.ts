/** The catalogue of functions, by family. A new function is one line here, its file, and its test. */

// Beam and footprint
import { BAR_PPFD } from './beam/bar-ppfd.ts';
import { BEAM_ANGLE } from './beam/beam-angle.ts';
import { BEAM_EXPONENT } from './beam/beam-exponent.ts';
import { FALLOFF_POWER } from './beam/falloff-power.ts';
import { FALLOFF_RATIO } from './beam/falloff-ratio.ts';
import { FOOTPRINT_HEIGHT } from './beam/footprint-height.ts';
import { FOOTPRINT_WIDTH } from './beam/footprint-width.ts';
import { PEAK_INTENSITY } from './beam/peak-intensity.ts';
import { POINT_PPFD } from './beam/point-ppfd.ts';
import { PPF_FROM_READING } from './beam/ppf-from-reading.ts';
import { SHARE_IN_BEAM } from './beam/share-in-beam.ts';
import { USEFUL_LENGTH } from './beam/useful-length.ts';
import { USEFUL_WIDTH } from './beam/useful-width.ts';
// Counts and dimming
import { COUNT_ALONG } from './count/count-along.ts';
import { COUNT_FOR_TARGET } from './count/count-for-target.ts';
import { COUNT_ROWS } from './count/count-rows.ts';
import { DIM_FOR_TARGET } from './count/dim-for-target.ts';
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
import { LAYOUT_AT } from './field/layout-at.ts';
import { LAYOUT_COUNT } from './field/layout-count.ts';
import { LAYOUT } from './field/layout-function.ts';
import { LAYOUT_JOIN } from './field/layout-join.ts';
import { LAYOUT_PPF } from './field/layout-ppf.ts';
import { NEIGHBOUR_SPILL } from './field/neighbour-spill.ts';
import { SPREAD_BEST } from './field/spread-best.ts';
// Mount height
import { DAYS_TO_LIFT } from './mount/days-to-lift.ts';
import { GROWTH_LIFT } from './mount/growth-lift.ts';
import { HEIGHT_ERROR } from './mount/height-error.ts';
import { MOUNT_FLOOR } from './mount/mount-floor.ts';
import { MOUNT_HEIGHT } from './mount/mount-height.ts';
import { MOUNT_HEIGHT_EVEN } from './mount/mount-height-even.ts';
import { MOUNT_HEIGHT_UNDER } from './mount/mount-height-under.ts';
import { ROW_GAP_MAX } from './mount/row-gap-max.ts';
// The field over a bench
// Quantities in formulas
import { CONVERT } from './standard/convert.ts';
import { NUMBER_IN } from './standard/number-in.ts';
import { SHOW } from './standard/show.ts';
import { UNIT } from './standard/unit.ts';

export const functions: readonly FunctionRecord[] = [
  // Beam and footprint
  BEAM_EXPONENT,
  BEAM_ANGLE,
  PEAK_INTENSITY,
  FOOTPRINT_WIDTH,
  FOOTPRINT_HEIGHT,
  SHARE_IN_BEAM,
  POINT_PPFD,
  BAR_PPFD,
  USEFUL_WIDTH,
  USEFUL_LENGTH,
  FALLOFF_RATIO,
  FALLOFF_POWER,
  PPF_FROM_READING,

  // The field over a bench
  LAYOUT,
  LAYOUT_AT,
  LAYOUT_JOIN,
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
  NEIGHBOUR_SPILL,
  SPREAD_BEST,

  // Mount height
  MOUNT_HEIGHT,
  MOUNT_HEIGHT_UNDER,
  MOUNT_FLOOR,
  MOUNT_HEIGHT_EVEN,
  ROW_GAP_MAX,
  GROWTH_LIFT,
  DAYS_TO_LIFT,
  HEIGHT_ERROR,

  // Counts and dimming
  COUNT_FOR_TARGET,
  COUNT_ALONG,
  COUNT_ROWS,
  DIM_FOR_TARGET,

  // Quantities in formulas
  UNIT,
  NUMBER_IN,
  SHOW,
  CONVERT,
];
