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

/** Faces and mirror images of faces that have one share of the light left: where their centres are along one axis. */
export interface Images {
  readonly share: number;
  readonly at: readonly number[];
}

/** With so many images at either end: the n-th is shifted by n benches, and mirrored when n is odd. */
export function imagesOf({ centres, bench, sides }: AxisSources, each: number): Images[] {
  const found: Images[] = [{ share: 1, at: centres }];
  for (let n = 1; n <= each; n++) {
    const mirrored = n % 2 === 0 ? centres : centres.map((u) => bench - u);
    found.push({ share: sides ** n, at: mirrored.flatMap((u) => [u - n * bench, u + n * bench]) });
  }
  return found;
}
