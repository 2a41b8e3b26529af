/** Resistance of copper conductors by size, class and temperature: what WIRE.OHMS and CABLE.AREA share. */
import { say } from '../check-args.ts';
import { AWG_RANGE, COPPER_PER_KELVIN, COPPER_RESISTIVITY, IEC_60228 } from '../data/conductors.ts';
import { type Refusal, refuse } from '../define.ts';
import { wireArea } from '../wire-gauge.ts';

/** Resistance at a temperature over that at 20 °C. */
export const copperFactor = (temperature: number): number => 1 + COPPER_PER_KELVIN * (temperature - 20);

/** Ω/km at 20 °C of each standard size of a class. */
export const standardSizes = (conductorClass: number): readonly (readonly [area: number, ohms: number])[] =>
  IEC_60228.map(([area, rigid, flexible]) => [area, conductorClass === 5 ? flexible : rigid]);

export const classFault = (name: string, conductorClass: number): Refusal | undefined =>
  [1, 2, 5].includes(conductorClass) ? undefined : refuse(`${name}: class is ${conductorClass}; it can be 1 (solid), 2 (stranded) or 5 (flexible).`);

/** Areas within a thousandth are one size: a gauge's area is usually written with three digits. */
const NEAR = 1e-3;

export interface Conductor {
  readonly ohms20: number;
  readonly from: string;
  /** Set where it comes from an area and copper's resistivity. */
  readonly area?: number;
}

/** What is known of a conductor of this cross-section at 20 °C: a standard metric size, else an American gauge, else a refusal that names the nearest. */
export function conductorOf(name: string, area: number, conductorClass: number): Conductor | Refusal {
  const sizes = standardSizes(conductorClass);
  const standard = sizes.find(([a]) => Math.abs(a - area) <= NEAR * a);
  if (standard)
    return { ohms20: standard[1], from: `IEC 60228, class ${conductorClass}: ${say(standard[0])} mm² has at most ${say(standard[1])} Ω/km at 20 °C` };
  const nearestAwg = Math.round(36 - (39 * Math.log(Math.sqrt((4 * area) / Math.PI) / 0.127)) / Math.log(92));
  const awg = Math.min(AWG_RANGE.thinnest, Math.max(AWG_RANGE.thickest, nearestAwg));
  if (Math.abs(wireArea(awg) - area) <= NEAR * area) {
    return { ohms20: (COPPER_RESISTIVITY * 1000) / area, from: `AWG ${awg}, ASTM B258; copper of ${COPPER_RESISTIVITY} Ω·mm²/m`, area };
  }
  const below = sizes.filter(([a]) => a < area).at(-1);
  const above = sizes.find(([a]) => a > area);
  const near = [below, above].flatMap((size) => (size ? [`${say(size[0])} mm²`] : []));
  const nearest = `The nearest ${near.length === 1 ? 'is' : 'are'} ${near.join(' and ')}`;
  return refuse(`${name}: ${say(area)} mm² is no standard size. ${nearest}; by gauge AWG ${awg}, ${say(wireArea(awg))} mm².`);
}
