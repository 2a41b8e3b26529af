/**
 * The mean of the sample grid as a function of the height. The tables of the two axes do not depend on the height, and the mean of a product
 * over a grid is the product of two means: after the tables, one height costs one exponential a term.
 */
import type { AxisTable } from './axis-table.ts';
import { crossings } from './crossings.ts';
import { axisFactor } from './face-means.ts';
import { cellCentres, crossingTables } from './kernel.ts';
import type { Layout } from './layout.ts';

/** The mean over the points of each term. A half row stands for the whole one, its middle point counted once where the number is odd. */
function termMeans({ values, filled }: AxisTable, count: number, cells: number, halved: boolean): Float64Array {
  const means = new Float64Array(count);
  for (let i = 0; i < filled.length; i++) {
    const weight = halved && !(cells % 2 === 1 && i === filled.length - 1) ? 2 : 1;
    for (let t = 0; t < (filled[i] as number); t++) means[t] = (means[t] as number) + (weight / cells) * (values[i * count + t] as number);
  }
  return means;
}

/** Good for heights from `lowest` to `highest`. */
export function meanByHeight(layout: Layout, lowest: number, highest: number, nx: number, ny: number): (height: number) => number {
  const { length, width } = layout.bench;
  const parts = crossings(layout).map((c) => {
    const points = (cells: number, size: number): number[] => cellCentres(cells, size, c.centred ? (cells + 1) >> 1 : cells);
    const tables = crossingTables(layout, c, lowest, highest, points(nx, length), points(ny, width));
    const { count, tau, lnWeight, rule } = tables.terms;
    const product = termMeans(tables.x, count, nx, c.centred);
    const other = termMeans(tables.y, count, ny, c.centred);
    for (let t = 0; t < count; t++) product[t] = ((product[t] as number) * (other[t] as number) * c.ppf * (c.m + 1)) / (2 * Math.PI);
    axisFactor(tables.terms, c.length, product);
    axisFactor(tables.terms, c.width, product);
    return { product, count, tau, lnWeight, k: rule.k };
  });
  return (height) => {
    const h2 = height * height;
    let mean = 0;
    for (const { product, count, tau, lnWeight, k } of parts) {
      const lnH = k * Math.log(h2);
      for (let t = 0; t < count; t++) mean += (product[t] as number) * Math.exp((lnWeight[t] as number) + lnH - (tau[t] as number) * h2);
    }
    return mean / h2;
  };
}
