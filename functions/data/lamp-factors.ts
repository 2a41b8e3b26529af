/**
 * Lux for each µmol/m²/s, and µmol for each joule between 400 and 700 nm, by kind of lamp.
 *
 * Source: R. W. Thimijan and R. D. Heins, Photometric, radiometric, and quantum light units of measure: a review of procedures for
 * interconversion, HortScience 18(6):818-822, 1983, table 3. The values are from memory; sunlight's 4.57 µmol/J was read second-hand.
 * White LEDs: common practice, no published source; the factor hangs on the spectrum, some 60 to 75.
 */
export interface LampFactor {
  readonly lamp: string;
  /** lx per µmol/m²/s. */
  readonly lux: number;
  /** µmol/J, 400–700 nm; undefined where none is known here. */
  readonly photons: number | undefined;
  readonly sure: string;
}

const TABLE = 'Thimijan and Heins 1983, table 3, from memory';
const HABIT = 'common practice, no published source';

export const LAMP_FACTORS: readonly LampFactor[] = [
  { lamp: 'sunlight', lux: 54, photons: 4.57, sure: TABLE },
  { lamp: 'high-pressure sodium', lux: 82, photons: 4.98, sure: TABLE },
  { lamp: 'metal halide', lux: 71, photons: 4.59, sure: TABLE },
  { lamp: 'cool white fluorescent', lux: 74, photons: 4.59, sure: TABLE },
  { lamp: 'plant-growth fluorescent', lux: 33, photons: 4.8, sure: TABLE },
  { lamp: 'low-pressure sodium', lux: 106, photons: 4.92, sure: TABLE },
  { lamp: 'incandescent', lux: 50, photons: 5, sure: TABLE },
  { lamp: 'warm white LED', lux: 65, photons: undefined, sure: HABIT },
  { lamp: 'neutral white LED', lux: 68, photons: undefined, sure: HABIT },
  { lamp: 'cool white LED', lux: 72, photons: undefined, sure: HABIT },
];
