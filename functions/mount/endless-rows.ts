/**
 * Endless parallel rows of endless line sources, the middle of a large bench.
 *
 * One endless line of output q per metre: E(y) = q(m+1)h^(m+1)/2π · √π Γ(k−½)/Γ(k) · (h²+y²)^(½−k), k = (m+3)/2. All its photons land, so the mean
 * under rows a gap apart is q/gap. Midway between rows the sum over them of e^(−τy²) is a theta function, taken as it stands or, where
 * it would converge slowly, turned round by Poisson's summation formula: √(π/τ)/gap·Σ (−1)ⁿ e^(−π²n²/(τ gap²)).
 */
import { ruleFor, termsFor, weightsAt } from '../field/index.ts';
import { lnGamma } from '../numeric/gamma.ts';
import { rootBetween } from '../numeric/root.ts';

/** PPFD at a distance across from one endless line of `perMetre` µmol/s and metre. */
export function endlessLinePpfd(perMetre: number, m: number, height: number, across: number): number {
  const k = (m + 3) / 2;
  const along = Math.sqrt(Math.PI) * Math.exp(lnGamma(k - 0.5) - lnGamma(k));
  return ((perMetre * (m + 1)) / (2 * Math.PI)) * along * height ** (m + 1) * (height * height + across * across) ** (0.5 - k);
}

/** What e^(−x) is beyond this is far below rounding. */
const NOTHING = 45;

/** Σ of sign^n·e^(−s(first + n)²) over n from 0. */
function gaussians(s: number, first: number, sign: number): number {
  let [sum, factor] = [0, 1];
  for (let x = first; s * x * x < NOTHING; x++) {
    sum += factor * Math.exp(-s * x * x);
    factor *= sign;
  }
  return sum;
}

/** Σ over all n of e^(−s(n+½)²), in whichever of the two forms converges at once; both halves are alike. */
export function rowSum(s: number): number {
  if (s > Math.PI) return 2 * gaussians(s, 0.5, 1);
  return Math.sqrt(Math.PI / s) * (1 - 2 * gaussians((Math.PI * Math.PI) / s, 1, -1));
}

/** Rows this many gaps away still count: the terms reach down to where what is left out is below 1e-8 even for the widest beam. */
const FAR = 1e7;

/** PPFD midway between the rows over the mean: τ, and each term's part. */
function rowParts(m: number, gap: number, height: number): { tau: Float64Array; parts: Float64Array } {
  const terms = termsFor(ruleFor(m), height, height, FAR * Math.max(gap, height));
  const part = (weight: number, t: number): number => {
    const tau = terms.tau[t] as number;
    return weight * Math.sqrt(Math.PI / tau) * gap * rowSum(tau * gap * gap);
  };
  return { tau: terms.tau, parts: weightsAt(terms, 1, m, height).map(part) };
}

/** The same with labels, for the working. */
export function endlessRows(m: number, gap: number, height: number): { label: string; value: number }[] {
  const { tau, parts } = rowParts(m, gap, height);
  return Array.from(parts, (value, t) => ({ label: `τ = ${Number((tau[t] as number).toPrecision(6))} per m²`, value }));
}

export const lowToMean = (m: number, gap: number, height: number): number => rowParts(m, gap, height).parts.reduce((sum, part) => sum + part, 0);

/** Least and greatest gap over height that are looked at: from even to a billionth to dark between the rows. */
const NARROWEST = 0.05;
const WIDEST = 200;

/** The gap over height at which the low is this share of the mean: it depends on nothing else but the beam. */
export function gapOverHeight(m: number, share: number): number | undefined {
  const off = (x: number): number => lowToMean(m, x, 1) - share;
  return off(NARROWEST) > 0 && off(WIDEST) < 0 ? rootBetween(off, NARROWEST, WIDEST, 1e-12) : undefined;
}
