/** One axis of the separable sum: for each point and each term, the means over the faces, summed over fixtures along the axis and their mirror images. */
import { addFaces } from './face-means.ts';
import type { Terms } from './gaussian-terms.ts';
import { type AxisSources, imagesOf } from './images.ts';
import { evenMoments, wideImages } from './wide-images.ts';

export interface AxisTable {
  /** How many terms. */
  readonly count: number;
  /** Point by point, `count` values each; without the factor that `axisFactor` gives. */
  readonly values: Float64Array;
  /** How many of a point's terms are not zero. */
  readonly filled: readonly number[];
}

export function axisTable(
  terms: Terms,
  points: readonly number[],
  sources: AxisSources,
  values: Float64Array = new Float64Array(points.length * terms.count),
): AxisTable {
  const { count } = terms;
  const { size, bench, sides } = sources;
  values.fill(0, 0, points.length * count);
  if (sides === 0) return { count, values, filled: addFaces(terms, 0, count, points, imagesOf(sources, 0), size, values) };
  // With mirrors the wide terms, of which every image counts, are taken by polynomials, and the narrow ones reach a few images.
  const wide = wideImages(terms, size, bench, sides);
  const filled = addFaces(terms, wide.count, count, points, imagesOf(sources, wide.imagesBeyond), size, values);
  for (const [i, x] of points.entries()) wide.addTo(values, i * count, evenMoments(x, sources));
  return { count, values, filled };
}
