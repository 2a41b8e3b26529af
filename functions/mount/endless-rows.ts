/**
 * Endless parallel rows of endless line sources, the middle of a large bench.
 *
 * One endless line of output q per metre: E(y) = q(m+1)h^(m+1)/2π · √π Γ(k−½)/Γ(k) · (h²+y²)^(½−k), k = (m+3)/2. All its photons land, so the mean
 * under rows a gap apart is q/gap. Midway between rows the sum over them of e^(−τy²) is a theta function, taken as it stands or, where
 * it would converge slowly, turned round by Poisson's summation formula: √(π/τ)/gap·Σ (−1)ⁿ e^(−π²n²/(τ gap²)).
 */
import { ruleFor, termsFor, weightsAt } from '../field/gaussian-terms.ts';
import { lnGamma } from '../numeric/gamma.ts';
import { rootBetween } from '../numeric/root.ts';

/** PPFD at a distance across from one endless line of `perMetre` µmol/s and metre. */
export function endlessLinePpfd(perMetre: number, m: number, height: number, across: number): number {
  const k = (m + 3) / 2;
  const along = Math.sqrt(Math.PI) * Math.exp(lnGamma(k - 0.5) - lnGamma(k));
  return ((perMetre * (m + 1)) / (2 * Math.PI)) * along * height ** (m + 1) * (height * height + across * across) ** (0.5 - k);
}

/** Σ over all n of e^(−s(n+½)²) for midway, or of e^(−sn²) for under a row: whichever of the two forms converges at once. */
export function rowSum(s: number, midway: boolean): number {
  const shift = midway ? 0.5 : 0;
  let sum = 0;
  if (s > Math.PI) {
    // Both signs of n: e^(−π·6.5²) is far below rounding.
    for (let n = -7; n <= 6; n++) sum += Math.exp(-s * (n + shift) ** 2);
    return sum;
  }
  for (let n = -6; n <= 6; n++) sum += (midway && n % 2 !== 0 ? -1 : 1) * Math.exp((-Math.PI * Math.PI * n * n) / s);
  return Math.sqrt(Math.PI / s) * sum;
}

/** Rows this many gaps away still count: the terms reach down to where what is left out is below 1e-8 even for the widest beam. */
const FAR = 1e7;

/** PPFD midway between the rows (or under one) over the mean. Labels and terms for the working. */
export function endlessRows(m: number, gap: number, height: number, midway: boolean): { label: string; value: number }[] {
  const terms = termsFor(ruleFor(m), height, height, FAR * Math.max(gap, height));
  const weights = weightsAt(terms, 1, m, height);
  return Array.from(weights, (w, t) => {
    const tau = terms.tau[t] as number;
    return { label: `τ = ${Number(tau.toPrecision(6))} per m²`, value: w * Math.sqrt(Math.PI / tau) * gap * rowSum(tau * gap * gap, midway) };
  });
}

export const lowToMean = (m: number, gap: number, height: number): number => endlessRows(m, gap, height, true).reduce((sum, { value }) => sum + value, 0);

/** Least and greatest gap over height that are looked at: from even to a billionth to dark between the rows. */
const NARROWEST = 0.05;
const WIDEST = 200;

/** The gap over height at which the low is this share of the mean: it depends on nothing else but the beam. */
export function gapOverHeight(m: number, share: number): number | undefined {
  const off = (x: number): number => lowToMean(m, x, 1) - share;
  return off(NARROWEST) > 0 && off(WIDEST) < 0 ? rootBetween(off, NARROWEST, WIDEST, 1e-12) : undefined;
}
