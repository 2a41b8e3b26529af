/** What each fixture gives to one point: the terms of the sum that the working shows. Same Gaussians as the grid's, so they add up to its value. */
import { crossings } from './crossings.ts';
import { crossingTables, crossingWeights } from './kernel.ts';
import { type Face, faces, type Layout } from './layout.ts';
import { addProduct } from './product.ts';

export interface FixtureShare {
  readonly face: Face;
  readonly ppf: number;
  readonly m: number;
  /** µmol/m²/s, with its reflections. */
  readonly ppfd: number;
}

/** In the order of `faces`. */
export function fixtureShares(layout: Layout, height: number, x: number, y: number): FixtureShare[] {
  const all = faces(layout);
  const shares: FixtureShare[] = [];
  const one = new Float64Array(1);
  for (const c of crossings(layout)) {
    const columns = c.xs.map((u) => crossingTables(layout, { ...c, xs: [u] }, height, height, [x], [y], c));
    const rows = c.ys.map((v) => crossingTables(layout, { ...c, ys: [v] }, height, height, [x], [y], c));
    const weights = crossingWeights({ crossing: c, terms: (columns[0] as (typeof columns)[0]).terms }, height);
    for (const row of rows) {
      for (const column of columns) {
        one[0] = 0;
        addProduct(weights, column.x, row.y, 1, 1, one);
        shares.push({ face: all[shares.length] as Face, ppf: c.ppf, m: c.m, ppfd: one[0] as number });
      }
    }
  }
  return shares;
}
