/**
 * What flexible copper cords carry in air of 30 °C, by two systems that are kept apart.
 *
 * Metric sizes, two loaded cores. IEC 60335-1, Household and similar electrical appliances, Safety, table 11: the smallest cord for an appliance’s rated
 * current, 0.5 mm² up to 3 A, 0.75 up to 6, 1 up to 10, 1.5 up to 16, 2.5 up to 25, 4 up to 32 A (read in a transcription). BS 7671, table 4F3A: 13 A for
 * 1.25 mm² (read second-hand). Lists of flexible cords in common use name 15 A for 1.5, 20 A for 2.5 and 25 A for 4 mm² (read second-hand, no standard
 * named): where they say less, theirs is taken. That the air is 30 °C is from memory.
 *
 * American gauges: NFPA 70, National Electrical Code, 2020 (edition from memory), table 400.5(A)(1), column A (three loaded cores) and B (two), thermoplastic cords (read second-hand in
 * two transcriptions; 9 A for three cores of 17 AWG from memory). Shares for more than three loaded cores: table 400.5(A)(3), applied to column A (read
 * second-hand in trade press).
 */

/** Area in mm² → most current in A, two loaded cores. */
export const CORDS_IEC: readonly (readonly [area: number, two: number])[] = [
  [0.5, 3],
  [0.75, 6],
  [1, 10],
  [1.25, 13],
  [1.5, 15],
  [2.5, 20],
  [4, 25],
];

/** AWG → most current in A. */
export const CORDS_NEC: readonly (readonly [awg: number, two: number, three: number])[] = [
  [18, 10, 7],
  [17, 12, 9],
  [16, 13, 10],
  [14, 18, 15],
  [12, 25, 20],
  [10, 30, 25],
  [8, 40, 35],
  [6, 55, 45],
];

/** Share of the three-core column that more loaded cores carry, up to so many cores. */
export const MORE_CORES_NEC: readonly (readonly [upTo: number, share: number])[] = [
  [3, 1],
  [6, 0.8],
  [9, 0.7],
  [20, 0.5],
];

/** Air in °C for which both tables stand. */
export const CORD_AIR = 30;
