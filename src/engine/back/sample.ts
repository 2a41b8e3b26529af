/** One value of a given, and how far what comes of it is from what is wanted. */
export interface Sample {
  /** In the unit in which the given is shown. */
  readonly x: number;
  /** What comes of it less what is wanted; nothing where it is just that; NaN where there is no value. */
  readonly f: number;
  /** How large the two are: what a difference is measured by. */
  readonly size: number;
}

export type Difference = (x: number) => Sample;

export const isWorked = (sample: Sample | undefined): sample is Sample => sample !== undefined && !Number.isNaN(sample.f);

/** Of all that were worked out, the one that lies lowest or highest. */
export function furthest(samples: readonly Sample[], sign: 1 | -1): Sample | undefined {
  let found: Sample | undefined;
  for (const one of samples) if (isWorked(one) && (!found || sign * one.f > sign * found.f)) found = one;
  return found;
}
