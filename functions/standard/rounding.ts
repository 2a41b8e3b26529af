/**
 * INT, ROUND, ROUNDUP, ROUNDDOWN, TRUNC, CEILING, FLOOR, EVEN, ODD, QUOTIENT and MOD on decimal numbers as people write them.
 *
 * Binary floating point turns 0.7/0.1 into 6.999999999999999 and 1.005 into a little less than it says; a count of
 * fixtures must not hang on that. So a number is first taken to 15 significant digits, and one that lies within 1e-9 of
 * a whole step counts as that step.
 *
 * Source: OASIS, Open Document Format for Office Applications 1.2, Part 2 (OpenFormula), 2011, section 6.17,
 * Rounding Functions, and 6.16, Mathematical Functions, under each name.
 */

const NEAR = 1e-9;

const tidy = (x: number): number => Number(x.toPrecision(15));

/** x · 10^digits by moving the decimal point, which multiplies without a rounding error. */
function shift(x: number, digits: number): number {
  const [mantissa = '0', exponent = '0'] = String(x).split('e');
  return Number(`${mantissa}e${Number(exponent) + digits}`);
}

/** The whole number that x stands for, if it is that to within binary noise; else x. */
function snap(x: number): number {
  const whole = Math.round(x);
  return Math.abs(x - whole) <= Math.max(NEAR, Math.abs(x) * 1e-15) ? whole : x;
}

const positive = (x: number): number => (x === 0 ? 0 : x);

function stepped(x: number, digits: number, step: (scaled: number) => number): number {
  const places = Math.trunc(digits);
  if (places > 300) return x;
  if (places < -300) return step(x === 0 ? 0 : Math.sign(x) * 0.1) === 0 ? 0 : Number.NaN;
  return positive(shift(step(snap(shift(tidy(x), places))), -places));
}

const awayFromZero = (x: number): number => (x < 0 ? Math.floor(x) : Math.ceil(x));

/** The largest whole number not above x: −3.5 gives −4. */
export const int = (x: number): number => positive(Math.floor(snap(tidy(x))));

/** The whole number that a row, a column or a choice stands for, where binary noise alone parts them (0.3/0.1 is 3); else the number as it is. */
export function placeNumber(x: number): number {
  const near = int(x);
  return Math.abs(near - x) <= 1e-9 ? near : x;
}

/** Nearest, a half away from zero: 1.005 to 2 places is 1.01. */
export const round = (x: number, digits = 0): number => stepped(x, digits, (s) => Math.sign(s) * Math.round(tidy(Math.abs(s))));

export const roundUp = (x: number, digits = 0): number => stepped(x, digits, awayFromZero);

export const roundDown = (x: number, digits = 0): number => stepped(x, digits, Math.trunc);

function multiple(x: number, significance: number | undefined, step: (quotient: number) => number): number | undefined {
  const by = significance ?? (x < 0 ? -1 : 1);
  if (x === 0 || by === 0) return 0;
  if (x > 0 !== by > 0) return undefined;
  return positive(tidy(step(snap(x / Math.abs(by))) * Math.abs(by)));
}

/** Up to a multiple of `significance`; away from zero where `mode` is not 0. Undefined where the two differ in sign. */
export const ceiling = (x: number, significance?: number, mode = 0): number | undefined => multiple(x, significance, mode ? awayFromZero : Math.ceil);

/** Down to a multiple of `significance`; toward zero where `mode` is not 0. Undefined where the two differ in sign. */
export const floor = (x: number, significance?: number, mode = 0): number | undefined => multiple(x, significance, mode ? Math.trunc : Math.floor);

/** Away from zero to an even whole number. */
export const even = (x: number): number => positive(2 * awayFromZero(snap(tidy(x) / 2)));

/** Away from zero to an odd whole number; 0 gives 1. */
export const odd = (x: number): number => (x < 0 ? -1 : 1) * (2 * Math.max(0, Math.ceil(snap((tidy(Math.abs(x)) - 1) / 2))) + 1);

/** The whole part of a quotient; undefined where it divides by 0. */
export const quotient = (x: number, by: number): number | undefined => (by === 0 ? undefined : positive(Math.trunc(snap(tidy(x / by)))));

/** What is left of x after whole steps of `by`, with the sign of `by`: x − by · INT(x / by); undefined where it divides by 0. */
export function mod(x: number, by: number): number | undefined {
  if (by === 0) return undefined;
  const steps = snap(tidy(x / by));
  return Number.isInteger(steps) ? 0 : positive(tidy(x - by * Math.floor(steps)));
}
