/**
 * Resistance of copper conductors.
 *
 * Sources: IEC 60228:2004, Conductors of insulated cables, table 1 (solid, class 1), table 2 (stranded, class 2) and table 3 (flexible, class 5),
 * plain annealed copper, largest resistance at 20 °C. The values are from memory; those for 0.5, 1, 4, 6, 10 and 16 mm² were held against a transcription.
 * NFPA 70, National Electrical Code, chapter 9, table 8, direct-current resistance of uncoated copper at 75 °C: sizes 18 and 16 and all stranded
 * values are from memory, the others read second-hand.
 */

/** Area in mm² → largest resistance at 20 °C in Ω/km: solid (1) and stranded (2) share a column up to 95 mm², flexible (5) has its own. */
export const IEC_60228: readonly (readonly [area: number, rigid: number, flexible: number])[] = [
  [0.5, 36, 39],
  [0.75, 24.5, 26],
  [1, 18.1, 19.5],
  [1.5, 12.1, 13.3],
  [2.5, 7.41, 7.98],
  [4, 4.61, 4.95],
  [6, 3.08, 3.3],
  [10, 1.83, 1.91],
  [16, 1.15, 1.21],
  [25, 0.727, 0.78],
  [35, 0.524, 0.554],
  [50, 0.387, 0.386],
  [70, 0.268, 0.272],
  [95, 0.193, 0.206],
];

/** AWG size → resistance at 75 °C in Ω per 1000 ft (NEC chapter 9, table 8). The table lists sizes 8 and thicker as stranded; solid is given where it has it. */
export const NEC_TABLE_8: readonly (readonly [awg: number, solid: number | undefined, stranded: number])[] = [
  [18, 7.77, 7.95],
  [16, 4.89, 4.99],
  [14, 3.07, 3.14],
  [12, 1.93, 1.98],
  [10, 1.21, 1.24],
  [8, 0.764, 0.778],
  [6, undefined, 0.491],
  [4, undefined, 0.308],
  [3, undefined, 0.245],
  [2, undefined, 0.194],
  [1, undefined, 0.154],
];

/** Resistivity of annealed copper at 20 °C, Ω·mm²/m: IEC 60028:1925, International standard of resistance for copper, 1/58. */
export const COPPER_RESISTIVITY = 0.017241;

/** Change of copper's resistance per kelvin, as a share of the value at 20 °C: IEC 60028:1925. */
export const COPPER_PER_KELVIN = 0.00393;

/** Thinnest and thickest size that the law of ASTM B258 is used for here. */
export const AWG_RANGE = { thickest: 0, thinnest: 40 } as const;
