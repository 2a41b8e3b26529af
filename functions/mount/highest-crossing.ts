/** Where something that falls with height reaches a wanted value: the highest such height, found by looking down from the top. */
import { brent } from '../numeric/root.ts';

/** Heights looked at on the way down, evenly in their logarithm: what rises and falls again between two of them by less than their ratio is not seen. */
const LOOKS = 32;

export interface Crossings {
  /** The highest height at which the value is the wanted one; undefined where there is none. */
  readonly highest: number | undefined;
  /** All found, from the top. */
  readonly all: readonly number[];
  /** Value at the top of the range, and the greatest one seen with its height. */
  readonly atTop: number;
  readonly greatest: number;
  readonly greatestAt: number;
}

/** `every`: look for the lower ones too. `tolerance`: of the heights, as Brent’s method takes it. */
export function crossingsDownward(
  f: (height: number) => number,
  lowest: number,
  highest: number,
  wanted: number,
  every: boolean,
  tolerance?: number,
): Crossings {
  const ratio = (lowest / highest) ** (1 / LOOKS);
  let [above, fAbove] = [highest, f(highest)];
  const atTop = fAbove;
  let [greatest, greatestAt] = [fAbove, highest];
  const all: number[] = fAbove === wanted ? [highest] : [];
  for (let i = 1; i <= LOOKS; i++) {
    const height = i === LOOKS ? lowest : highest * ratio ** i;
    const value = f(height);
    if (value > greatest) [greatest, greatestAt] = [value, height];
    if (value === wanted) all.push(height);
    else if (fAbove !== wanted && value > wanted !== fAbove > wanted) {
      all.push(brent((h) => f(h) - wanted, height, above, value - wanted, fAbove - wanted, tolerance).x);
    }
    if (all.length > 0 && !every) break;
    [above, fAbove] = [height, value];
  }
  return { highest: all[0], all, atTop, greatest, greatestAt };
}
