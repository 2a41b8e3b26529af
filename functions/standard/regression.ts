/**
 * INTERCEPT and FORECAST: the least-squares line through pairs of numbers.
 *
 * Source: OASIS, OpenDocument 1.2, Part 2 (OpenFormula), 2011, section 6.18, Statistical Functions, under each name.
 */

/** Slope and intercept of y on x, or undefined where fewer than two different x are given. */
export function line(ys: readonly number[], xs: readonly number[]): { readonly slope: number; readonly intercept: number } | undefined {
  const n = xs.length;
  const meanX = xs.reduce((sum, x) => sum + x, 0) / n;
  const meanY = ys.reduce((sum, y) => sum + y, 0) / n;
  let sxx = 0;
  let sxy = 0;
  for (const [i, x] of xs.entries()) {
    sxx += (x - meanX) ** 2;
    sxy += (x - meanX) * ((ys[i] ?? 0) - meanY);
  }
  if (n === 0 || sxx === 0) return undefined;
  const slope = sxy / sxx;
  return { slope, intercept: meanY - slope * meanX };
}
