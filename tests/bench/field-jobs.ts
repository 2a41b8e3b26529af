/** Jobs of the benchmark that are more than one call. */
import { axisTable } from '../../functions/field/axis-table.ts';
import { axisFactor } from '../../functions/field/face-means.ts';
import { ruleFor, termsFor, weightsAt } from '../../functions/field/gaussian-terms.ts';
import { cellCentres } from '../../functions/field/kernel.ts';
import { centres } from '../../functions/field/layout.ts';
import { addProduct } from '../../functions/field/product.ts';

const [NX, NY] = [24, 12];
const [LENGTH, WIDTH] = [3.6, 1.5];

/**
 * As a search over layouts does it: the tables of each axis are made once for every count and spread, the weights once for every height, and
 * each geometry is one product on the grid with its mean and its lowest point. Gives the best low over mean.
 */
export function manyGeometries(count: number): number {
  const heights = 20;
  const perAxis = Math.round(Math.sqrt(count / heights));
  const terms = termsFor(ruleFor(1), 0.2, 1.2, Math.hypot(LENGTH, WIDTH) + 0.6);
  const table = (n: number, size: number, face: number, cells: number, spread: number) =>
    axisTable(terms, cellCentres(cells, size, cells / 2), { centres: centres(n, size, spread), size: face, bench: size, sides: 0 });
  const alongs = Array.from({ length: perAxis }, (_, i) => table(1 + (i % 5), LENGTH, 0.6, NX, 0.9 + 0.01 * i));
  const acrosses = Array.from({ length: perAxis }, (_, i) => table(1 + (i % 5), WIDTH, 0.06, NY, 0.9 + 0.01 * i));
  const quarter = new Float64Array((NX * NY) / 4);
  let best = 0;
  for (let i = 0; i < heights; i++) {
    const weights = weightsAt(terms, 100, 1, 0.2 + 0.05 * i);
    axisFactor(terms, 0.6, weights);
    axisFactor(terms, 0.06, weights);
    for (const x of alongs) {
      for (const y of acrosses) {
        quarter.fill(0);
        addProduct(weights, x, y, NX / 2, NY / 2, quarter);
        let [low, sum] = [Number.POSITIVE_INFINITY, 0];
        for (let p = 0; p < quarter.length; p++) {
          const e = quarter[p] as number;
          sum += e;
          if (e < low) low = e;
        }
        best = Math.max(best, (low * quarter.length) / sum);
      }
    }
  }
  return best;
}
