/** The greatest value of a function with a few humps on an interval. */

/** Steps of the first look: humps narrower than one of them may be missed. */
const LOOKS = 40;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** The answer is good to this share of the interval. */
const FINENESS = 1e-7;

/** Where f is greatest, between a and b: looked for in steps, then by golden section around the best of them. */
export function greatestOn(f: (x: number) => number, a: number, b: number): number {
  const at = (i: number): number => a + ((b - a) * i) / LOOKS;
  let [best, bestValue] = [0, f(a)];
  for (let i = 1; i <= LOOKS; i++) {
    const value = f(at(i));
    if (value > bestValue) [best, bestValue] = [i, value];
  }
  const top = topOfHump(f, at(Math.max(0, best - 1)), at(Math.min(LOOKS, best + 1)), FINENESS * (b - a));
  return f(top) >= bestValue ? top : at(best);
}

/** Where f is greatest between a and b, to within `fineness`, where it has one hump there: golden section. */
export function topOfHump(f: (x: number) => number, a: number, b: number, fineness: number): number {
  let [left, right] = [a, b];
  let [x1, x2] = [right - GOLDEN * (right - left), left + GOLDEN * (right - left)];
  let [f1, f2] = [f(x1), f(x2)];
  while (right - left > fineness) {
    if (f1 < f2) {
      left = x1;
      [x1, f1] = [x2, f2];
      x2 = left + GOLDEN * (right - left);
      f2 = f(x2);
    } else {
      right = x2;
      [x2, f2] = [x1, f1];
      x1 = right - GOLDEN * (right - left);
      f1 = f(x1);
    }
  }
  return (left + right) / 2;
}
