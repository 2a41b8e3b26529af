/**
 * Light over a bench, by quadrature: every element of a face sends out dΦ (m+1)/(2π) cosᵐθ, so that a level receiver a height h below gets
 * Φ (m+1) hᵐ⁺¹/(2πA) ∫ dA / rᵐ⁺³ of a face. Gauss and Legendre's rule over pieces of the face, with as many points as the nearest singularity (at r = 0, a
 * distance off in the complex plane) asks for: L. N. Trefethen, Approximation Theory and Approximation Practice, 2013, theorem 19.3 (cited from memory). Reflecting sides are
 * mirror images: H. Kuttruff, Room Acoustics, 5th ed. 2009, section 4.1 (cited from memory).
 */

export interface Layout {
  readonly ppf: number;
  /** Size of a face along x and across y, turned as it hangs. */
  readonly sizeX: number;
  readonly sizeY: number;
  readonly beam: number;
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  /** This row and those alike beside it, and whether as many lie on either side. */
  readonly rows: number;
  readonly even: boolean;
  readonly benchX: number;
  readonly benchY: number;
  readonly sides: number;
  readonly text: string;
}

const exponents = new Map<number, number>();

/** The power of the cosine, of a beam in degrees. */
function exponentOf(beam: number): number {
  const known = exponents.get(beam);
  if (known !== undefined) return known;
  const exact = Math.log(0.5) / Math.log(Math.cos((beam * Math.PI) / 360));
  const m = Math.abs(exact - 1) < 1e-9 ? 1 : exact;
  exponents.set(beam, m);
  return m;
}

const rules = new Map<number, readonly (readonly [number, number])[]>();

/** Points and weights of Gauss and Legendre's rule on −1 to 1, by Newton's method on the recurrence of the polynomials. */
export function gauss(n: number): readonly (readonly [number, number])[] {
  const before = rules.get(n);
  if (before) return before;
  const rule = Array.from({ length: n }, (_, i): [number, number] => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 100; round++) {
      let [p, q] = [1, 0];
      for (let k = 1; k <= n; k++) [p, q] = [((2 * k - 1) * x * p - (k - 1) * q) / k, p];
      slope = (n * (x * p - q)) / (x * x - 1);
      const step = p / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    return [x, 1 / ((1 - x * x) * slope * slope)];
  });
  rules.set(n, rule);
  return rule;
}

/** Squared distances and weights (of sum 1) at which the integrand is taken along one axis; how many numbers there are of it. */
class Points {
  readonly list = new Float64Array(1 << 16);
  length = 0;

  /** `off` to the middle of a piece, `near` the least distance in the other directions, `limit` the points of one rule. */
  take(off: number, half: number, near: number, m: number, digits: number, share = 1): void {
    if (half === 0) {
      this.#put(off * off, share);
      return;
    }
    // Inside an ellipse that keeps clear of the singularity the integrand has grown by no more than a hundredfold or so.
    const reach = near * Math.sqrt(Math.min(0.9, 8 / (m + 3)));
    const [re, im] = [off / half, reach / half];
    const sum = (Math.hypot(re - 1, im) + Math.hypot(re + 1, im)) / 2;
    const n = Math.ceil((digits + 4.6) / (2 * Math.log(sum + Math.sqrt(sum * sum - 1))));
    if (n > 18) {
      this.take(off - half / 2, half / 2, near, m, digits, share / 2);
      this.take(off + half / 2, half / 2, near, m, digits, share / 2);
      return;
    }
    for (const [x, w] of gauss(Math.max(n, 2))) this.#put((off + half * x) ** 2, share * w);
  }

  #put(square: number, weight: number): void {
    this.list[this.length] = square;
    this.list[this.length + 1] = weight;
    this.length += 2;
  }
}

const [alongX, alongY] = [new Points(), new Points()];

/** Natural logarithm of how exact one face's light is: 12 is six parts in a million. */
const DIGITS = 12;
/** Enough to see between which heights an answer lies. */
const ROUGH = 7;

/** From far away: the integrand in the middle of the face, and what its curvature adds over the face (of the next term some ten-thousandths are left). */
function fromAfar(ppf: number, sizeX: number, sizeY: number, m: number, h: number, x: number, y: number): number {
  const p = (m + 3) / 2;
  const square = h * h + x * x + y * y;
  const q = square / (h * h);
  const middle = p === 2 ? 1 / (q * q) : q ** -p;
  const curved = (d: number): number => (2 * p * (2 * (p + 1) * d * d - square)) / (square * square);
  const share = 1 + (sizeX * sizeX * curved(x) + sizeY * sizeY * curved(y)) / 24;
  return (ppf * (m + 1) * middle * share) / (2 * Math.PI * h * h);
}

/** PPFD in µmol/m²/s a distance beside the middle of one face of so many µmol/s. */
export function oneFace(ppf: number, sizeX: number, sizeY: number, beam: number, h: number, dx: number, dy: number, digits = DIGITS): number {
  const m = exponentOf(beam);
  const [x, y] = [Math.abs(dx), Math.abs(dy)];
  const away = h * h + x * x + y * y;
  if (away > (sizeX * sizeX + sizeY * sizeY) * (m + 3) ** 2) return fromAfar(ppf, sizeX, sizeY, m, h, x, y);
  alongX.length = 0;
  alongY.length = 0;
  alongX.take(x, sizeX / 2, Math.hypot(h, Math.max(0, y - sizeY / 2)), m, digits);
  alongY.take(y, sizeY / 2, Math.hypot(h, Math.max(0, x - sizeX / 2)), m, digits);
  const lambert = m === 1;
  const power = -(m + 3) / 2;
  const squared = h * h;
  let sum = 0;
  for (let i = 0; i < alongX.length; i += 2) {
    const inX = 1 + (alongX.list[i] as number) / squared;
    let row = 0;
    for (let j = 0; j < alongY.length; j += 2) {
      const q = inX + (alongY.list[j] as number) / squared;
      row += (alongY.list[j + 1] as number) * (lambert ? 1 / (q * q) : q ** power);
    }
    sum += row * (alongX.list[i + 1] as number);
  }
  return (ppf * (m + 1) * sum) / (2 * Math.PI * squared);
}

/** Places along one axis from which light seems to come, each with the share that the sides have left of it. */
function sources(centres: readonly number[], size: number, sides: number, h: number, exact: number): (readonly [number, number])[] {
  const all = centres.map((x): readonly [number, number] => [x, 1]);
  if (sides === 0) return all;
  for (let times = 1; ; times++) {
    const left = sides ** times;
    // What n sides have left, and how far off it hangs: rows of images fade with the square of that.
    const far = (times - 1) * size;
    if ((left / (1 - sides)) * Math.min(1, (h / Math.max(far, h)) ** 2) < exact) return all;
    for (const x of centres) {
      // Thrown back `times` times, first by the far side or first by the near one.
      const even = times % 2 === 0;
      all.push([even ? x + times * size : (times + 1) * size - x, left], [even ? x - times * size : -(times - 1) * size - x, left]);
    }
  }
}

/** Distances that occur, each once (to a nanometre), and which of them each point has from each source. */
function distances(at: readonly number[], from: readonly (readonly [number, number])[]): { readonly list: number[]; readonly index: Int32Array } {
  const seen = new Map<number, number>();
  const list: number[] = [];
  const index = new Int32Array(at.length * from.length);
  for (const [i, x] of at.entries()) {
    for (const [k, [source]] of from.entries()) {
      const d = Math.abs(x - source);
      const key = Math.round(d * 1e9);
      let place = seen.get(key);
      if (place === undefined) {
        place = list.length;
        seen.set(key, place);
        list.push(d);
      }
      index[i * from.length + k] = place;
    }
  }
  return { list, index };
}

/** PPFD at every point of a grid, row by row of y. */
export function fieldAt(layout: Layout, h: number, xs: readonly number[], ys: readonly number[], digits = DIGITS): Float64Array {
  const exact = 3 * Math.exp(-digits);
  const fromX = sources(layout.xs, layout.benchX, layout.sides, h, exact);
  const fromY = sources(layout.ys, layout.benchY, layout.sides, h, exact);
  const [x, y] = [distances(xs, fromX), distances(ys, fromY)];
  const one = new Float64Array(x.list.length * y.list.length).fill(Number.NaN);
  const all = new Float64Array(xs.length * ys.length);
  for (let j = 0; j < ys.length; j++) {
    for (let i = 0; i < xs.length; i++) {
      let sum = 0;
      for (let b = 0; b < fromY.length; b++) {
        const row = y.index[j * fromY.length + b] as number;
        const shareY = (fromY[b] as readonly [number, number])[1];
        for (let a = 0; a < fromX.length; a++) {
          const share = shareY * (fromX[a] as readonly [number, number])[1];
          if (share < exact / 30) continue;
          const column = x.index[i * fromX.length + a] as number;
          const place = row * x.list.length + column;
          let light = one[place] as number;
          if (Number.isNaN(light)) {
            // What the sides have weakened need not be so exact.
            const asked = Math.max(3, digits + Math.log(share));
            light = oneFace(layout.ppf, layout.sizeX, layout.sizeY, layout.beam, h, x.list[column] as number, y.list[row] as number, asked);
            one[place] = light;
          }
          sum += share * light;
        }
      }
      all[j * xs.length + i] = sum;
    }
  }
  return all;
}

/** Middles of so many equal cells. */
export const middles = (size: number, n: number): number[] => Array.from({ length: n }, (_, i) => ((i + 0.5) * size) / n);

const fields = new Map<string, Float64Array>();

/** The field at the sample grid, kept: only the first half of the points each way is worked out where the layout is symmetrical. */
export function gridField(layout: Layout, h: number, nx: number, ny: number): Float64Array {
  const key = `${layout.text} | ${h} ${nx} ${ny}`;
  const before = fields.get(key);
  if (before) return before;
  const halfX = Math.ceil(nx / 2);
  if (!layout.even) {
    const whole = fieldAt(layout, h, middles(layout.benchX, nx), middles(layout.benchY, ny));
    fields.set(key, whole);
    return whole;
  }
  const quarter = quarterField(layout, h, nx, ny, DIGITS);
  const all = new Float64Array(nx * ny);
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) all[j * nx + i] = quarter[Math.min(j, ny - 1 - j) * halfX + Math.min(i, nx - 1 - i)] as number;
  }
  if (fields.size > 400) fields.clear();
  fields.set(key, all);
  return all;
}

const quarterField = (layout: Layout, h: number, nx: number, ny: number, digits: number): Float64Array =>
  fieldAt(layout, h, middles(layout.benchX, nx).slice(0, Math.ceil(nx / 2)), middles(layout.benchY, ny).slice(0, Math.ceil(ny / 2)), digits);

/** About the mean of that grid, where the light is spread wide enough from a coarser one: enough to see between which heights an answer lies. */
export function roughMean(layout: Layout, h: number, nx: number, ny: number): number {
  const wide = h > 1.5 * Math.max(layout.benchX / 12, layout.benchY / 8);
  return mean(wide && layout.even ? quarterField(layout, h, 12, 8, ROUGH) : gridField(layout, h, nx, ny));
}

export const mean = (all: Float64Array | readonly number[]): number => (all as readonly number[]).reduce((sum, x) => sum + x, 0) / all.length;

/** Cells of the sample grid where nobody says how many: none larger than 10 cm, no fewer than 8 a side, at most 10⁴ in all. */
export function defaultGrid({ benchX, benchY }: Layout): readonly [number, number] {
  const count = (cell: number): [number, number] => [
    Math.max(8, Math.ceil(Number((benchX / cell).toFixed(9)))),
    Math.max(8, Math.ceil(Number((benchY / cell).toFixed(9)))),
  ];
  for (let cell = 0.1; ; cell *= 1.01) {
    const [nx, ny] = count(cell);
    if (nx * ny <= 1e4) return [nx, ny];
  }
}
