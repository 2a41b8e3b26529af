/**
 * The complementary error function, by a table: quick, and exact to a relative error of 2e-9 out to x = 6 and 2e-8 out to 9, so that the
 * difference of two values keeps its digits where both are tiny.
 *
 * The table holds, for every cell of width w = 1/32, a polynomial of the fifth power. It is the Taylor polynomial about the cell's middle
 * to the seventh power, brought down to the fifth by leaving out what is Chebyshev's T₆ and T₇ of it: with u = −1 … 1 across the cell,
 *
 *   u⁶ = T₆/32 + 3u⁴/2 − 9u²/16 + 1/32,   u⁷ = T₇/64 + 7u⁵/4 − 7u³/8 + 7u/64
 *
 * T₆ costs (x·w)⁶/6!/32 of the value in the tail. Six columns of 4 kB stay in the first cache of any processor; a finer table of a lower
 * power does not, which cost more than the product it saves.
 *
 * Sources: NIST Digital Library of Mathematical Functions, §7.2 (definitions), §7.10 (derivatives), eq. 7.9.2 (continued fraction), §18.5(iv)
 * (Chebyshev polynomials).
 */

const PER_UNIT = 32;
/** Beyond it erfc is taken as its value there, 1e-113. */
const END = 16;
const CELLS = END * PER_UNIT;
const POWERS = 6;
/** Powers that carry the value from cell to cell while the table is built: what they leave out is 1e-14 of it out to x = 9. */
const CARRIED = 14;

/** erfc(x) e^(x²) √π for large x: the continued fraction 1/(x + (1/2)/(x + (2/2)/(x + …))), from the tail up. */
function scaledTail(x: number): number {
  let below = x;
  for (let n = 40; n >= 1; n--) below = x + n / 2 / below;
  return 1 / below;
}

/** One column a power of the share of the cell that lies left of the point. From the far end down to 0: that way each step adds terms of one sign, so that no digits are lost in the tail. */
function build(): Float64Array[] {
  const columns = Array.from({ length: POWERS }, () => new Float64Array(CELLS));
  const taylor = new Float64Array(CARRIED + 1);
  const end = END - 0.5 / PER_UNIT;
  let value = (Math.exp(-end * end) / Math.sqrt(Math.PI)) * scaledTail(end);
  for (let cell = CELLS - 1; cell >= 0; cell--) {
    const x = (cell + 0.5) / PER_UNIT;
    taylor[0] = value;
    // dⁿ⁺¹erfc/dxⁿ⁺¹ = −2/√π (−1)ⁿ Hₙ(x) e^(−x²), with Hₙ₊₁ = 2x Hₙ − 2n Hₙ₋₁; the powers are of u, so of half cells.
    let factor = (-2 / Math.sqrt(Math.PI)) * Math.exp(-x * x);
    let [before, hermite] = [0, 1];
    for (let n = 1; n <= CARRIED; n++) {
      factor /= n * 2 * PER_UNIT;
      taylor[n] = factor * hermite;
      [before, hermite] = [hermite, 2 * x * hermite - 2 * (n - 1) * before];
      factor = -factor;
    }
    // The next middle is at u = −2.
    let next = 0;
    for (let n = CARRIED; n >= 0; n--) next = (taylor[n] as number) - 2 * next;
    value = next;
    const polynomial = fromLeft(lowered(taylor));
    for (let n = 0; n < POWERS; n++) (columns[n] as Float64Array)[cell] = polynomial[n] as number;
  }
  return columns;
}

/** Without T₆ and T₇. */
function lowered(taylor: Float64Array): number[] {
  const [a0, a1, a2, a3, a4, a5, a6, a7] = taylor as unknown as [number, number, number, number, number, number, number, number];
  return [a0 + a6 / 32, a1 + (7 / 64) * a7, a2 - (9 / 16) * a6, a3 - (7 / 8) * a7, a4 + 1.5 * a6, a5 + 1.75 * a7];
}

/** From powers of u to powers of (u + 1)/2 (Horner's shift by −1, then a scale). */
function fromLeft(a: number[]): number[] {
  for (let i = 0; i < POWERS - 1; i++) for (let n = POWERS - 2; n >= i; n--) a[n] = (a[n] as number) - (a[n + 1] as number);
  return a.map((c, n) => c * 2 ** n);
}

/**
 * What is read here is of this function and not of the module: bundlers turn a module's `const` into a `var`, which the compiler must
 * read and check anew at every call. A column each power: one index, held within the columns by the mask, serves for all.
 */
function readerOf(columns: readonly Float64Array[]): (x: number) => number {
  const [c0, c1, c2, c3, c4, c5] = columns as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  const [perUnit, mask, last] = [PER_UNIT, CELLS - 1, END - 1e-9];
  return (x) => {
    // A product after the choice, which is then kept as a plain number; Math.min tests for what is no number and takes longer.
    // biome-ignore lint/complexity/useMathMinMax: see above
    const cells = (x < last ? x : last) * perUnit;
    const cell = cells & mask;
    const d = cells - cell;
    const dd = d * d;
    // Estrin's scheme: its pairs do not wait for one another as Horner's steps do.
    const low = (c0[cell] as number) + d * (c1[cell] as number);
    const middle = (c2[cell] as number) + d * (c3[cell] as number);
    const high = (c4[cell] as number) + d * (c5[cell] as number);
    return low + dd * (middle + dd * high);
  };
}

/** erfc(x) for x ≥ 0. */
export const erfcUp = readerOf(build());
