import { erfcUp } from './error-function.ts';

/** Share of a normal distribution below z standard deviations from its mean: NIST DLMF, §7.20(iii). */
export function normalBelow(z: number): number {
  const tail = erfcUp(Math.abs(z) / Math.SQRT2) / 2;
  return z < 0 ? tail : 1 - tail;
}
