/**
 * Lux for each µmol/m²/s, and µmol for each joule between 400 and 700 nm, by kind of lamp.
 *
 * Source: R. W. Thimijan and R. D. Heins, Photometric, radiometric, and quantum light units of measure: a review of procedures for
 * interconversion, HortScience 18(6):818-822, 1983, table 3. The values are from memory; sunlight's 4.57 µmol/J was read second-hand.
 * White LEDs: common practice, no published source; the factor hangs on the spectrum, some 60 to 75.
 *
 * How far lamps of one kind lie apart: what the spectra come to that CIE 015:2018, Colorimetry, has for such lamps (illuminants LED-B1 to LED-V2, FL3 to FL12,
 * HP1, ID50), made a little wider where habit knows wider ends, or from memory.
 */
export interface LampFactor {
  readonly lamp: string;
  /** lx per µmol/m²/s. */
  readonly lux: number;
  /** Least and most of lamps of this kind, lx per µmol/m²/s. */
  readonly spread: readonly [low: number, high: number];
  /** Where the ends are from. */
  readonly apart: string;
  /** µmol/J, 400–700 nm; undefined where none is known here. */
  readonly photons: number | undefined;
  readonly sure: string;
}

const TABLE = 'Thimijan and Heins 1983, table 3, from memory';
const HABIT = 'common practice, no published source';

export const LAMP_FACTORS: readonly LampFactor[] = [
  { lamp: 'sunlight', lux: 54, spread: [51, 58], photons: 4.57, sure: TABLE, apart: 'from memory; daylight behind glass, CIE ID50: 57' },
  { lamp: 'high-pressure sodium', lux: 82, spread: [77, 88], photons: 4.98, sure: TABLE, apart: 'high end CIE HP1 (86 to 88), low end from memory' },
  { lamp: 'metal halide', lux: 71, spread: [59, 75], photons: 4.59, sure: TABLE, apart: 'from memory' },
  { lamp: 'cool white fluorescent', lux: 74, spread: [60, 81], photons: 4.59, sure: TABLE, apart: 'CIE FL3 to FL12, whites of every shade: 61 to 81' },
  {
    lamp: 'warm white fluorescent',
    lux: 79,
    spread: [77, 82],
    photons: undefined,
    sure: 'between CIE 015:2018 FL12 (78) and FL4 (81)',
    apart: 'CIE FL12 and FL4, of 3000 K: 78 and 81',
  },
  { lamp: 'plant-growth fluorescent', lux: 33, spread: [25, 45], photons: 4.8, sure: TABLE, apart: 'from memory' },
  { lamp: 'low-pressure sodium', lux: 106, spread: [104, 108], photons: 4.92, sure: TABLE, apart: 'one line at 589 nm: 107' },
  { lamp: 'incandescent', lux: 50, spread: [46, 52], photons: 5, sure: TABLE, apart: 'glowing bodies of 2500 to 3000 K: 47 to 51' },
  {
    lamp: 'warm white LED',
    lux: 65,
    spread: [53, 75],
    photons: undefined,
    sure: HABIT,
    apart: 'low end CIE LED-V1 (53), high end common practice; CIE LED-B1, B2 and BH1: 67 to 73',
  },
  {
    lamp: 'neutral white LED',
    lux: 68,
    spread: [56, 75],
    photons: undefined,
    sure: HABIT,
    apart: 'low end CIE LED-V2 (57), high end common practice; CIE LED-B3: 70',
  },
  {
    lamp: 'cool white LED',
    lux: 72,
    spread: [60, 75],
    photons: undefined,
    sure: HABIT,
    apart: 'common practice, no published source; CIE LED-B4 and B5: 69 to 72',
  },
];
