/**
 * The complementary error function, by a table: quick, and exact to a relative error of 4e-9 out to x = 6 and 3e-8 out to 9, so that the
 * difference of two values keeps its digits where both are tiny.
 *
 * The table holds, for every cell of width w = 1/64, a polynomial of the fourth power. It is the Taylor polynomial about the cell's middle
 * to the sixth power, brought down to the fourth by leaving out what is Chebyshev's T₅ and T₆ of it: with u = −1 … 1 across the cell,
 *
 *   u⁵ = T₅/16 + 5u³/4 − 5u/16,   u⁶ = T₆/32 + 3u⁴/2 − 9u²/16 + 1/32
 *
 * T₅ costs (x·w)⁵/5!/16 of the value in the tail. Five columns of 5 kB stay in the first cache of any processor. The fewer the
 * numbers in a look-up, the more of them are on their way at once: narrower cells of a lower power would be quicker still, but not stay there.
 *
 * Sources: NIST Digital Library of Mathematical Functions, §7.2 (definitions), §7.10 (derivatives), eq. 7.9.2 (continued fraction), §18.5(iv)
 * (Chebyshev polynomials).
 */

const PER_UNIT = 64;
/** Beyond it erfc is taken as its value there, 2e-45. */
const END = 10;
const CELLS = END * PER_UNIT;
const POWERS = 5;
/** Powers of the Taylor polynomial that carries the value from edge to edge while the table is built: what they leave out is below 1e-11 of it out to x = 9. */
const CARRIED = 7;
const HALF_CELL = 0.5 / PER_UNIT;

/** erfc(x) e^(x²) √π for large x: the continued fraction 1/(x + (1/2)/(x + (2/2)/(x + …))), from the tail up. */
function scaledTail(x: number): number {
  let below = x;
  for (let n = 40; n >= 1; n--) below = x + n / 2 / below;
  return 1 / below;
}

/**
 * One column a power of the share of the cell that lies left of the point. From the far end down to 0: that way each step adds terms of one
 * sign, so that no digits are lost in the tail. Runs once in every worker, before anything is compiled: short steps, no small arrays.
 */
function build(): Float64Array[] {
  const columns = Array.from({ length: POWERS }, () => new Float64Array(CELLS));
  const a = new Float64Array(CARRIED + 1) as unknown as Taylor;
  let right = (Math.exp(-END * END) / Math.sqrt(Math.PI)) * scaledTail(END);
  for (let cell = CELLS - 1; cell >= 0; cell--) {
    slopes(a, (cell + 0.5) / PER_UNIT);
    // The cell's edges are at u = 1, where the value is known, and at u = −1.
    const odd = a[1] + a[3] + a[5] + a[7];
    a[0] = right - odd - (a[2] + a[4] + a[6]);
    right -= 2 * odd;
    store(a, columns, cell);
  }
  return columns;
}

/** Coefficients of the powers of u, kept in one array of plain numbers. */
type Taylor = [number, number, number, number, number, number, number, number];

/** All but the value of erfc itself, about x: from erfc′ = −2/√π e^(−x²) and erfc″ = −2x erfc′. */
function slopes(a: number[], x: number): void {
  a[1] = (-2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * HALF_CELL;
  for (let n = 1; n < CARRIED; n++) {
    a[n + 1] = (-2 * HALF_CELL * (x * n * (a[n] as number) + HALF_CELL * (n - 1) * (a[n - 1] as number))) / (n * (n + 1));
  }
}

/** Without T₅ and T₆, and from powers of u to powers of (u + 1)/2: uⁿ = (2s − 1)ⁿ, by the binomial theorem. */
function store(a: Taylor, columns: readonly Float64Array[], cell: number): void {
  const put = columns as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  const a0 = a[0] + a[6] / 32;
  const a1 = a[1] - (5 / 16) * a[5];
  const a2 = a[2] - (9 / 16) * a[6];
  const a3 = a[3] + (5 / 4) * a[5];
  const a4 = a[4] + 1.5 * a[6];
  put[0][cell] = a0 - a1 + a2 - a3 + a4;
  put[1][cell] = 2 * (a1 - 2 * a2 + 3 * a3 - 4 * a4);
  put[2][cell] = 4 * (a2 - 3 * a3 + 6 * a4);
  put[3][cell] = 8 * (a3 - 4 * a4);
  put[4][cell] = 16 * a4;
}

/**
 * What is read here is of this function and not of the module: bundlers turn a module's `const` into a `var`, which the compiler must
 * read and check anew at every call. A column each power: one index serves for all.
 */
function inCellOf(columns: readonly Float64Array[]): (cell: number, d: number) => number {
  const [c0, c1, c2, c3, c4] = columns as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  return (cell, d) => {
    const dd = d * d;
    // In pairs, which do not wait for one another as Horner's steps do.
    // And the columns first: see the loops in face-means.ts.
    const low = (c1[cell] as number) * d + (c0[cell] as number);
    const high = (c3[cell] as number) * d + (c2[cell] as number) + (c4[cell] as number) * dd;
    return low + dd * high;
  };
}

/** For loops that look up many: erfc(x) where x is so many cells, CELLS_AT_MOST at most: `inCell(cell, d)` with `cell = cells | 0` and d what is left. */
export const CELLS_PER_UNIT = PER_UNIT;
export const CELLS_AT_MOST = CELLS - 1e-6;
export const erfcInCell = inCellOf(build());

function readerOf(inCell: (cell: number, d: number) => number): (x: number) => number {
  const [perUnit, last] = [PER_UNIT, END - 1e-9];
  return (x) => {
    // A product after the choice, which is then kept as a plain number; Math.min tests for what is no number and takes longer.
    // biome-ignore lint/complexity/useMathMinMax: see above
    const cells = (x < last ? x : last) * perUnit;
    const cell = cells | 0;
    return inCell(cell, cells - cell);
  };
}

/** erfc(x) for x ≥ 0. */
export const erfcUp = readerOf(erfcInCell);
