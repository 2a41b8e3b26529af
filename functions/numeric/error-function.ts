/**
 * The complementary error function, by a table: quick, and exact to a relative error of 2e-9 out to x = 6 and 8e-9 out to 8, so that the
 * difference of two values keeps its digits where both are tiny.
 *
 * The table holds, for every cell of width 1/128, the Taylor polynomial of erfc about the cell's middle to the fourth power; no point of
 * the cell is farther from there than 1/256. The first term left out is 2/√π e^(−x²)·H₄(x)/5!·(1/256)⁵: 1e-13 near 0, (2x)⁵/5!·(1/256)⁵ of
 * the value in the tail. It is kept as a polynomial in the share of the cell that lies left of the point, 0 to 1: that saves the
 * reading of it a rounding and a product.
 *
 * Sources: NIST Digital Library of Mathematical Functions, §7.2 (definitions), §7.10 (derivatives), eq. 7.9.2 (continued fraction).
 */

const PER_UNIT = 128;
const COEFFICIENTS = 5;
/** Beyond it erfc is taken as its value there, 4e-37: nothing, even as a share of the smallest that counts. */
const END = 9;
const CELLS = END * PER_UNIT;
/** Coefficients that carry the value from cell to cell while the table is built: what they leave out is 3e-14 of it at worst. */
const CARRIED = 9;

/** erfc(x) e^(x²) √π for large x: the continued fraction 1/(x + (1/2)/(x + (2/2)/(x + …))), from the tail up. */
function scaledTail(x: number): number {
  let below = x;
  for (let n = 40; n >= 1; n--) below = x + n / 2 / below;
  return 1 / below;
}

/** From the far end down to 0: that way each step adds terms of one sign, so that no digits are lost in the tail. */
function build(): Float64Array {
  const table = new Float64Array(CELLS * COEFFICIENTS);
  const end = END - 0.5 / PER_UNIT;
  let value = (Math.exp(-end * end) / Math.sqrt(Math.PI)) * scaledTail(end);
  for (let cell = CELLS - 1; cell >= 0; cell--) {
    const x = (cell + 0.5) / PER_UNIT;
    const at = cell * COEFFICIENTS;
    table[at] = value;
    // dⁿ⁺¹erfc/dxⁿ⁺¹ = −2/√π (−1)ⁿ Hₙ(x) e^(−x²), with Hₙ₊₁ = 2x Hₙ − 2n Hₙ₋₁.
    let factor = (-2 / Math.sqrt(Math.PI)) * Math.exp(-x * x);
    let before = 0;
    let hermite = 1;
    let sign = -1;
    for (let n = 1; n <= CARRIED; n++) {
      // The coefficient of the n-th power of the distance, in cells.
      factor /= n * PER_UNIT;
      const coefficient = factor * hermite;
      if (n < COEFFICIENTS) table[at + n] = coefficient;
      value += coefficient * sign;
      const next = 2 * x * hermite - 2 * (n - 1) * before;
      before = hermite;
      hermite = next;
      factor = -factor;
      sign = -sign;
    }
    fromLeft(table, at);
  }
  return table;
}

/** Turns a polynomial in d, the distance from the middle of a cell, into one in d + ½ (Horner's shift by −½). */
function fromLeft(table: Float64Array, at: number): void {
  for (let i = 0; i < COEFFICIENTS - 1; i++) {
    for (let n = COEFFICIENTS - 2; n >= i; n--) table[at + n] = (table[at + n] as number) - (table[at + n + 1] as number) / 2;
  }
}

/**
 * Table and end are of this function and not of the module: bundlers turn a module's `const` into a `var`, which the compiler must read and
 * check anew at every call; that made the light field half as slow again.
 */
function readerOf(table: Float64Array): (x: number) => number {
  /** Within the last cell. */
  const last = END - 1e-9;
  return (x) => {
    // No early return: a value chosen is quicker here than a branch taken.
    const cells = (x < last ? x : last) * PER_UNIT;
    const cell = cells | 0;
    const d = cells - cell;
    const i = Math.imul(cell, COEFFICIENTS);
    // Estrin's scheme: its pairs do not wait for one another as Horner's steps do.
    const low = (table[i] as number) + d * (table[i + 1] as number);
    const middle = (table[i + 2] as number) + d * (table[i + 3] as number);
    const dd = d * d;
    return low + dd * (middle + dd * (table[i + 4] as number));
  };
}

/** erfc(x) for x ≥ 0. */
export const erfcUp = readerOf(build());
