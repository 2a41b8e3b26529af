/** What new lights cost by the year, and how much of day one's light is there on the mean, over 8 years at 6 %: worked bit by bit, sharing nothing with the product. */
export function newLights(hoursAYear: number, l90: number, once: number): { readonly yearly: number; readonly mean: number } {
  const lasts = l90 / hoursAYear;
  let worth = 0;
  for (let year = lasts; year < 8 - 1e-9; year += lasts) worth += once / 1.06 ** year;
  // 0.9^(t / L90), added up from one set of lights to the next.
  let light = 0;
  for (let from = 0; from < 8 - 1e-9; from += lasts) light += (lasts / Math.log(0.9)) * (0.9 ** (Math.min(lasts, 8 - from) / lasts) - 1);
  return { yearly: (worth * 0.06) / (1 - 1.06 ** -8), mean: (0.95 * light) / 8 };
}
