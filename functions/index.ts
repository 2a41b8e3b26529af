/** The catalogue of functions, by family (family.ts says in which order they are listed). A new function is its file, its line in the list here with its import, and its test. */

// Ageing
import { DECAY_RATE, DECAY_START } from './ageing/decay-fit.ts';
import { LIFE_CLAIM_LIMIT } from './ageing/life-claim-limit.ts';
import { LIFE_TO } from './ageing/life-to.ts';
import { MAINTENANCE_FACTOR } from './ageing/maintenance-factor.ts';
import { MAINTENANCE_MEAN } from './ageing/maintenance-mean.ts';
// Beam and footprint
import { BAR_PPFD } from './beam/bar-ppfd.ts';
import { BEAM_ANGLE } from './beam/beam-angle.ts';
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
// Check
import { CHEAPEST_HOLDING } from './check/cheapest-holding.ts';
import { CHECK_AT_LEAST } from './check/check-at-least.ts';
import { CHECK_AT_MOST } from './check/check-at-most.ts';
import { CHECK_BAND } from './check/check-band.ts';
import { CHECK_DAY_LENGTH } from './check/check-day-length.ts';
import { CHECK_IP } from './check/check-ip.ts';
import { CHECK_NEAR } from './check/check-near.ts';
import { CHECK_TEMPERATURE } from './check/check-temperature.ts';
import { CHECK_WITHIN } from './check/check-within.ts';
import { HOLDING_COUNT } from './check/holding-count.ts';
import { VERDICT } from './check/verdict.ts';
// Conversions and spectrum
import { EFFICACY } from './convert/efficacy.ts';
import { LAMP_LUX, LAMP_PHOTONS } from './convert/lamp-factors.ts';
import { LUX_FACTOR, LUX_TO_PPFD, PPFD_TO_LUX } from './convert/lux-to-ppfd.ts';
import { PHOTON_ENERGY } from './convert/photon-energy.ts';
import { PPFD_FROM_WATTS } from './convert/ppfd-from-watts.ts';
import { SPECTRUM_MIX } from './convert/spectrum-mix.ts';
// Cost
import { ANNUAL_CAPITAL } from './cost/annual-capital.ts';
import { COST_PER_MOL } from './cost/cost-per-mol.ts';
import { ENERGY_USE } from './cost/energy-use.ts';
import { DISCOUNTED_PAYBACK, PAYBACK_YEARS } from './cost/payback-years.ts';
import { PRESENT_COST } from './cost/present-cost.ts';
import { RUN_COST } from './cost/run-cost.ts';
import { RUN_COST_BANDS } from './cost/run-cost-bands.ts';
import { TARIFF_BREAK_EVEN } from './cost/tariff-break-even.ts';
// Counts and dimming
import { COUNT_ALONG } from './count/count-along.ts';
import { COUNT_FOR_TARGET } from './count/count-for-target.ts';
import { COUNT_ROWS } from './count/count-rows.ts';
import { DIM_FOR_TARGET } from './count/dim-for-target.ts';
// Crop
import { CROP_DLI, CROP_HOURS, CROP_PPFD } from './crop/crop-light.ts';
import { CROP_DAY_LENGTH, CROP_HOURS_LIMIT, CROP_PPFD_LIMIT } from './crop/crop-limits.ts';
import { CROP_TRIED } from './crop/crop-tried.ts';
import { STAGE_ON_DAY } from './crop/stage-on-day.ts';
import { YIELD_CHANGE } from './crop/yield-change.ts';
// Day light
import { DARK_HOURS } from './day/dark-hours.ts';
import { DLI } from './day/dli.ts';
import { DLI_GAP } from './day/dli-gap.ts';
import { DLI_SCHEDULE } from './day/dli-schedule.ts';
import { HOURS_FOR_DLI } from './day/hours-for-dli.ts';
import { LAMP_WINDOW } from './day/lamp-window.ts';
import { PPFD_FOR_DLI } from './day/ppfd-for-dli.ts';
import type { FunctionRecord } from './define.ts';
import {
  BEAM_EXPONENT,
  BENCH_BRIGHTEST,
  BENCH_HIGH,
  BENCH_LOW,
  BENCH_LOW_TO_HIGH,
  BENCH_MEAN,
  BENCH_PPFD,
  BENCH_SHARE_LIT,
  BENCH_SPREAD,
  BENCH_UNIFORMITY,
  BENCH_UNIFORMITY_INSIDE,
  LANDING_SHARE,
  LAYOUT,
  LAYOUT_AT,
  LAYOUT_BESIDE,
  LAYOUT_COUNT,
  LAYOUT_JOIN,
  LAYOUT_PPF,
  NEIGHBOUR_SPILL,
  SPREAD_BEST,
} from './field/index.ts';
// The field over a bench
// Heat
import { AIR_FLOW } from './heat/air-flow.ts';
import { AIR_FLOW_MOISTURE } from './heat/air-flow-moisture.ts';
import { COOL_WATTS } from './heat/cool-watts.ts';
import { HEAT_CREDIT } from './heat/heat-credit.ts';
import { HEAT_WATTS } from './heat/heat-watts.ts';
import { HUMIDITY_RATIO } from './heat/humidity-ratio.ts';
import { LATENT_WATTS } from './heat/latent-watts.ts';
// Meter and evenness
import { GRID_POINTS } from './meter/grid-points.ts';
import { METER_FIT } from './meter/meter-fit.ts';
import { METER_FIT_HEIGHT } from './meter/meter-fit-height.ts';
import { METER_MISS } from './meter/meter-miss.ts';
import { METER_VERDICT } from './meter/meter-verdict.ts';
import { METER_WEAK } from './meter/meter-weak.ts';
import { READINGS_EVENNESS, READINGS_LOW_TO_HIGH, READINGS_LOW_TO_MEAN, READINGS_SPREAD } from './meter/readings-evenness.ts';
import { READINGS_MEAN } from './meter/readings-mean.ts';
// Mount height
import { DAYS_TO_LIFT } from './mount/days-to-lift.ts';
import { GROWTH_LIFT } from './mount/growth-lift.ts';
import { HEIGHT_ERROR } from './mount/height-error.ts';
import { MOUNT_FLOOR } from './mount/mount-floor.ts';
import { MOUNT_HEIGHT } from './mount/mount-height.ts';
import { MOUNT_HEIGHT_EVEN } from './mount/mount-height-even.ts';
import { MOUNT_HEIGHT_UNDER } from './mount/mount-height-under.ts';
import { ROW_GAP_MAX } from './mount/row-gap-max.ts';
// Quantities in formulas
import { CONVERT } from './standard/convert.ts';
import { NUMBER_IN } from './standard/number-in.ts';
import { SHOW } from './standard/show.ts';
import { UNIT } from './standard/unit.ts';
// Sun and greenhouse
import { COVER_TRANSMISSION, COVER_TRANSMISSION_MEASURED } from './sun/cover-transmission.ts';
import { DAY_LENGTH } from './sun/day-length.ts';
import { DLI_FROM_RADIATION } from './sun/dli-from-radiation.ts';
import { DULL_DAYS } from './sun/dull-days.ts';
import { FIXTURE_SHADE } from './sun/fixture-shade.ts';
import { LAMP_HOURS_MEAN } from './sun/lamp-hours-mean.ts';
import { LAMP_HOURS_YEAR } from './sun/lamp-hours-year.ts';
import { NIGHT_LONGEST } from './sun/night-longest.ts';
import { NIGHT_SHORTEST } from './sun/night-shortest.ts';
import { SUN_DLI } from './sun/sun-dli.ts';
import { SUN_HOURS } from './sun/sun-hours.ts';
import { SUN_TOP } from './sun/sun-top.ts';
// Supply, cable, breaker, support
import { BREAKER_LEAST } from './supply/breaker-least.ts';
import { CABLE_AREA } from './supply/cable-area.ts';
import { CABLE_DROP } from './supply/cable-drop.ts';
import { CABLE_DROP_CHAIN } from './supply/cable-drop-chain.ts';
import { CABLE_REACH } from './supply/cable-reach.ts';
import { CHECK_FUSE } from './supply/check-fuse.ts';
import { CHECK_LIMITED } from './supply/check-limited.ts';
import { CIRCUIT_COUNT } from './supply/circuit-count.ts';
import { CLASS2_OUTPUTS } from './supply/class2-outputs.ts';
import { DROP_LIGHT } from './supply/drop-light.ts';
import { FUSE_SIZE } from './supply/fuse-size.ts';
import { HANG_LOAD } from './supply/hang-load.ts';
import { LOAD_IS_CONTINUOUS } from './supply/load-is-continuous.ts';
import { MAINS_AMPS } from './supply/mains-amps.ts';
import { SUPPLY_AMPS } from './supply/supply-amps.ts';
import { SUPPLY_COUNT } from './supply/supply-count.ts';
import { SUPPLY_DERATED } from './supply/supply-derated.ts';
import { SUPPLY_LOAD } from './supply/supply-load.ts';
import { WIRE_AMPACITY } from './supply/wire-ampacity.ts';
import { WIRE_AMPACITY_AWG } from './supply/wire-ampacity-awg.ts';
import { WIRE_AREA } from './supply/wire-area.ts';
import { WIRE_OHMS } from './supply/wire-ohms.ts';
import { WIRE_OHMS_AT_20 } from './supply/wire-ohms-at-20.ts';
import { WIRE_OHMS_AWG } from './supply/wire-ohms-awg.ts';

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
  LAYOUT_BESIDE,
  LAYOUT_JOIN,
  LAYOUT_COUNT,
  LAYOUT_PPF,
  BENCH_PPFD,
  BENCH_MEAN,
  BENCH_LOW,
  BENCH_BRIGHTEST,
  BENCH_HIGH,
  BENCH_UNIFORMITY,
  BENCH_UNIFORMITY_INSIDE,
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

  // Day light
  DARK_HOURS,
  DLI_GAP,
  DLI_SCHEDULE,
  DLI,
  HOURS_FOR_DLI,
  LAMP_WINDOW,
  PPFD_FOR_DLI,

  // Sun and greenhouse
  COVER_TRANSMISSION,
  COVER_TRANSMISSION_MEASURED,
  DAY_LENGTH,
  DLI_FROM_RADIATION,
  DULL_DAYS,
  FIXTURE_SHADE,
  LAMP_HOURS_MEAN,
  LAMP_HOURS_YEAR,
  NIGHT_LONGEST,
  NIGHT_SHORTEST,
  SUN_DLI,
  SUN_HOURS,
  SUN_TOP,

  // Conversions and spectrum
  EFFICACY,
  LAMP_LUX,
  LAMP_PHOTONS,
  LUX_TO_PPFD,
  PPFD_TO_LUX,
  LUX_FACTOR,
  PHOTON_ENERGY,
  PPFD_FROM_WATTS,
  SPECTRUM_MIX,

  // Crop
  CROP_DLI,
  CROP_PPFD,
  CROP_HOURS,
  CROP_HOURS_LIMIT,
  CROP_PPFD_LIMIT,
  CROP_DAY_LENGTH,
  CROP_TRIED,
  STAGE_ON_DAY,
  YIELD_CHANGE,

  // Meter and evenness
  GRID_POINTS,
  METER_FIT_HEIGHT,
  METER_FIT,
  METER_MISS,
  METER_VERDICT,
  METER_WEAK,
  READINGS_LOW_TO_MEAN,
  READINGS_LOW_TO_HIGH,
  READINGS_SPREAD,
  READINGS_EVENNESS,
  READINGS_MEAN,

  // Supply, cable, breaker, support
  BREAKER_LEAST,
  CABLE_AREA,
  CABLE_DROP_CHAIN,
  CABLE_DROP,
  CABLE_REACH,
  CHECK_FUSE,
  CHECK_LIMITED,
  CIRCUIT_COUNT,
  CLASS2_OUTPUTS,
  DROP_LIGHT,
  FUSE_SIZE,
  HANG_LOAD,
  LOAD_IS_CONTINUOUS,
  MAINS_AMPS,
  SUPPLY_AMPS,
  SUPPLY_COUNT,
  SUPPLY_DERATED,
  SUPPLY_LOAD,
  WIRE_AMPACITY,
  WIRE_AMPACITY_AWG,
  WIRE_AREA,
  WIRE_OHMS_AT_20,
  WIRE_OHMS_AWG,
  WIRE_OHMS,

  // Heat
  AIR_FLOW,
  AIR_FLOW_MOISTURE,
  COOL_WATTS,
  HEAT_CREDIT,
  HEAT_WATTS,
  HUMIDITY_RATIO,
  LATENT_WATTS,

  // Cost
  ANNUAL_CAPITAL,
  COST_PER_MOL,
  ENERGY_USE,
  PAYBACK_YEARS,
  DISCOUNTED_PAYBACK,
  PRESENT_COST,
  RUN_COST_BANDS,
  RUN_COST,
  TARIFF_BREAK_EVEN,

  // Ageing
  DECAY_RATE,
  DECAY_START,
  LIFE_CLAIM_LIMIT,
  LIFE_TO,
  MAINTENANCE_FACTOR,
  MAINTENANCE_MEAN,

  // Check
  CHEAPEST_HOLDING,
  CHECK_AT_LEAST,
  CHECK_AT_MOST,
  CHECK_BAND,
  CHECK_DAY_LENGTH,
  CHECK_TEMPERATURE,
  CHECK_IP,
  CHECK_NEAR,
  CHECK_WITHIN,
  HOLDING_COUNT,
  VERDICT,

  // Quantities in formulas
  UNIT,
  NUMBER_IN,
  SHOW,
  CONVERT,
];
