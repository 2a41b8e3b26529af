/** The fixtures along one axis of the bench, and their images in the mirrors at its two ends. */

/** Fixtures along one axis, all of one size there. */
export interface AxisSources {
  readonly centres: readonly number[];
  readonly size: number;
  /** Length of the bench on this axis and reflectance of its two ends. */
  readonly bench: number;
  readonly sides: number;
}

/** What the light left in the reflections that are not followed may be, as a share of all. */
const REFLECTION_LEFT = 1e-7;

/** Reflections followed at either end: 2ρ^(n+1)/(1+ρ) of an even field is what lies beyond the n-th; half of REFLECTION_LEFT on each axis. */
export function imageCount(sides: number): number {
  if (sides === 0) return 0;
  return Math.max(0, Math.ceil(Math.log((REFLECTION_LEFT / 4) * (1 + sides)) / Math.log(sides) - 1));
}

/** Centres of faces and of their mirror images along one axis, with the share of the light that each has left. */
export interface Images {
  readonly at: Float64Array;
  readonly share: Float64Array;
}

/** With so many images at either end: the n-th is shifted by n benches, and mirrored when n is odd. */
export function imagesOf({ centres, bench, sides }: AxisSources, each: number): Images {
  const at = new Float64Array(centres.length * (2 * each + 1));
  const share = new Float64Array(at.length);
  let i = 0;
  for (const u of centres) {
    for (let n = -each; n <= each; n++, i++) {
      at[i] = n * bench + (n % 2 === 0 ? u : bench - u);
      share[i] = sides ** Math.abs(n);
    }
  }
  return { at, share };
}
