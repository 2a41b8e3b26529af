/** The brightest point of a bench itself, not only of its sample grid, as a function of the height. */
import { crossings } from './crossings.ts';
import { addProduct, cellCentres, crossingTables, crossingWeights, fieldAt } from './kernel.ts';
import { faces, type Layout } from './layout.ts';

export interface Brightest {
  readonly x: number;
  readonly y: number;
  readonly ppfd: number;
}

/** Best points of the grid from which the peak is sought: with fewer, the grid may have missed the higher of two. */
const STARTS = 3;
/** The search ends when its step is this small beside the height; the peak is flat, so its value is then good to about the square of it. */
const FINEST = 1e-4;

const unique = (values: Iterable<number>): number[] => [...new Set(values)].sort((a, b) => a - b);
const clamp = (x: number, most: number): number => Math.min(most, Math.max(0, x));

/** Good for heights from `lowest` to `highest`. The grid is joined by the points under the centres of the faces, where peaks stand. */
export function brightestByHeight(layout: Layout, lowest: number, highest: number, nx: number, ny: number): (height: number, refined: boolean) => Brightest {
  const { length, width } = layout.bench;
  const all = faces(layout);
  const xs = unique([...cellCentres(nx, length), ...all.map((f) => clamp(f.x, length))]);
  const ys = unique([...cellCentres(ny, width), ...all.map((f) => clamp(f.y, width))]);
  const tables = crossings(layout).map((c) => crossingTables(layout, c, lowest, highest, xs, ys));
  return (height, refined) => {
    const field = new Float64Array(xs.length * ys.length);
    for (const t of tables) addProduct(crossingWeights(t, height), t.x, t.y, xs.length, ys.length, field);
    const order = Array.from(field.keys()).sort((a, b) => (field[b] as number) - (field[a] as number));
    const start = (i: number): Brightest => ({ x: xs[i % xs.length] as number, y: ys[Math.floor(i / xs.length)] as number, ppfd: field[i] as number });
    const starts = order.slice(0, STARTS).map(start);
    if (!refined) return starts[0] as Brightest;
    const step = Math.max(length / nx, width / ny);
    return starts.map((from) => climb(layout, height, from, step)).reduce((best, peak) => (peak.ppfd > best.ppfd ? peak : best));
  };
}

/** Steps to the best of the eight neighbours, halving the step where none is better. The nine points are one small grid: three rows of tables an axis. */
function climb(layout: Layout, height: number, from: Brightest, widest: number): Brightest {
  const { length, width } = layout.bench;
  let best = from;
  for (let step = widest; step > FINEST * height; ) {
    const around = (at: number, most: number): number[] => [clamp(at - step, most), at, clamp(at + step, most)];
    const [xs, ys] = [around(best.x, length), around(best.y, width)];
    const field = fieldAt(layout, height, xs, ys);
    const before = best;
    for (const [i, ppfd] of field.entries()) {
      if (ppfd > best.ppfd) best = { x: xs[i % 3] as number, y: ys[Math.floor(i / 3)] as number, ppfd };
    }
    if (best.x === before.x && best.y === before.y) step /= 2;
  }
  return best;
}
