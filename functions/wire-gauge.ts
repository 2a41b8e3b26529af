/**
 * American wire gauge: a number whose wire is thinner by the 39th root of 92 than that of the number before it.
 * ASTM B258, Standard Specification for Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes, 2018, section 4.
 */

/** Diameter in mm of a solid conductor by American wire gauge; 1/0 is 0, 2/0 is −1 and so on. */
export const wireDiameter = (awg: number): number => 0.127 * 92 ** ((36 - awg) / 39);

/** Its cross-section in mm². */
export const wireArea = (awg: number): number => (Math.PI / 4) * wireDiameter(awg) ** 2;

/** The gauge, with its fraction, of a cross-section in mm². */
const gaugeOf = (area: number): number => 36 - (39 * Math.log(Math.sqrt((4 * area) / Math.PI) / 0.127)) / Math.log(92);

/** Areas within a thousandth are one size: a gauge's area is usually written with three digits. */
const NEAR = 1e-3;

/** The gauge of just this cross-section in mm²; undefined where it is between two. */
export function wholeGauge(area: number): number | undefined {
  const nearest = Math.round(gaugeOf(area));
  return Math.abs(wireArea(nearest) - area) <= NEAR * area ? nearest : undefined;
}

/** Thickest and thinnest that have a name: 4/0 and 40. */
const [THICKEST, THINNEST] = [-3, 40];
const called = (awg: number): string => (awg > 0 ? String(awg) : `${1 - awg}/0`);

/** A cross-section in mm² as people say it of a wire: `14 AWG`; a metric size lies between two, `16 to 15 AWG`. Undefined beyond the named ones. */
export function gaugeText(area: number): string | undefined {
  if (!(area > 0)) return undefined;
  const whole = wholeGauge(area);
  const [thin, thick] = whole === undefined ? [Math.ceil(gaugeOf(area)), Math.floor(gaugeOf(area))] : [whole, whole];
  if (thick < THICKEST || thin > THINNEST) return undefined;
  return `${thin === thick ? called(thin) : `${called(thin)} to ${called(thick)}`} AWG`;
}

const SAID = /^(?:(?:awg|gauge|ga\.?) ?#?|#)?(\d{1,2}|[1-4]\/0)(?: ?(?:awg|ga\.?|gauge))?$/i;

/** The gauge that a text says: `14 AWG`, `AWG 14`, `2/0 AWG`; undefined where it says none. A bare number says none. */
export function readGauge(text: string): number | undefined {
  if (!/awg|ga|#/i.test(text)) return undefined;
  const said = SAID.exec(text.trim())?.[1];
  if (said === undefined) return undefined;
  const awg = said.endsWith('/0') ? 1 - Number(said[0]) : Number(said);
  return awg > THINNEST ? undefined : awg;
}

/** What flexible cords are sold in. */
export const CORD_GAUGES = [18, 17, 16, 14, 12, 10, 8, 6] as const;
