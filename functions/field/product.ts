/**
 * The innermost loops of the field: the product of two tables, summed over their terms, into a grid of points. Written out by hand, because nearly all
 * of a field's time is spent here; what was measured and tried stands in README.md.
 */
import type { AxisTable } from './axis-table.ts';
import { ROOM } from './face-means.ts';

/** Columns and rows of points that are summed side by side: each number that is read then serves several products. */
const COLUMNS = 4;
const ROWS = 2;

/** wₜ Yₜ of a pair of rows: kept, and of a fixed size, so that the compiler knows their addresses. */
const UPPER = new Float64Array(ROOM);
const LOWER = new Float64Array(ROOM);

/**
 * Adds Σₜ wₜ Xₜ Yₜ to a grid of nx by ny points, which is the first corner of one with rows of `width` points. Terms beyond `filled` are
 * zero in both tables.
 */
export function addProduct(weights: Float64Array, x: AxisTable, y: AxisTable, nx: number, ny: number, into: Float64Array, width = nx): void {
  const { count } = x;
  let used = count;
  while (used > 0 && weights[used - 1] === 0) used--;
  const [weighRows, addBlock] = [WEIGH_ROWS, ADD_BLOCK];
  for (let j = 0; j < ny; j += ROWS) {
    const rows = Math.min(ROWS, ny - j);
    let reachY = 0;
    for (let r = 0; r < rows; r++) reachY = Math.max(reachY, Math.min(used, y.filled[j + r] as number));
    // A row without a second one stands for both.
    weighRows(weights, y.values, j * count, (j + rows - 1) * count, reachY);
    let i = 0;
    for (; rows === ROWS && i + COLUMNS <= nx; i += COLUMNS) {
      const most = Math.max(x.filled[i] as number, x.filled[i + 1] as number, x.filled[i + 2] as number, x.filled[i + 3] as number);
      addBlock(x.values, i * count, count, Math.min(most, reachY), into, j * width + i, width);
    }
    for (; i < nx; i++) {
      const reach = Math.min(reachY, x.filled[i] as number);
      for (let r = 0; r < rows; r++) {
        const p = (j + r) * width + i;
        into[p] = (into[p] as number) + dot(r === 0 ? UPPER : LOWER, x.values, i * count, reach);
      }
    }
  }
}

/** wₜ Yₜ of a pair of rows, which begin at `a` and `b`. */
function rowWeigher() {
  const [upper, lower] = [UPPER, LOWER];
  return (weights: Float64Array, values: Float64Array, a: number, b: number, reach: number): void => {
    for (let t = 0; t < reach; t++) {
      const weight = weights[t] as number;
      upper[t] = weight * (values[a + t] as number);
      lower[t] = weight * (values[b + t] as number);
    }
  };
}
const WEIGH_ROWS = rowWeigher();

/** Adds the products of the pair of rows with COLUMNS columns, from `a` on. A function of its own: with so few numbers about, the compiler keeps the sums in the processor. */
function blockAdder() {
  const [upper, lower] = [UPPER, LOWER];
  return (columns: Float64Array, a: number, count: number, reach: number, into: Float64Array, p: number, width: number): void => {
    const b = a + count;
    const c = b + count;
    const d = c + count;
    let upperA = 0;
    let upperB = 0;
    let upperC = 0;
    let upperD = 0;
    let lowerA = 0;
    let lowerB = 0;
    let lowerC = 0;
    let lowerD = 0;
    for (let t = 0; t < reach; t++) {
      const u = upper[t] as number;
      const l = lower[t] as number;
      const va = columns[a + t] as number;
      const vb = columns[b + t] as number;
      const vc = columns[c + t] as number;
      const vd = columns[d + t] as number;
      upperA += u * va;
      upperB += u * vb;
      upperC += u * vc;
      upperD += u * vd;
      lowerA += l * va;
      lowerB += l * vb;
      lowerC += l * vc;
      lowerD += l * vd;
    }
    const q = p + width;
    into[p] = (into[p] as number) + upperA;
    into[p + 1] = (into[p + 1] as number) + upperB;
    into[p + 2] = (into[p + 2] as number) + upperC;
    into[p + 3] = (into[p + 3] as number) + upperD;
    into[q] = (into[q] as number) + lowerA;
    into[q + 1] = (into[q + 1] as number) + lowerB;
    into[q + 2] = (into[q + 2] as number) + lowerC;
    into[q + 3] = (into[q + 3] as number) + lowerD;
  };
}
const ADD_BLOCK = blockAdder();

function dot(row: Float64Array, columns: Float64Array, at: number, reach: number): number {
  let sum = 0;
  for (let t = 0; t < reach; t++) sum += (row[t] as number) * (columns[at + t] as number);
  return sum;
}
