/**
 * The terms of the kernel's sum of Gaussians for one exponent, with the error that each choice leaves. (The sum itself: kernel.ts.)
 *
 *   r^(−2k) = 1/Γ(k) ∫ τ^(k−1) e^(−τr²) dτ,  τ = e^x,  trapezoid rule with step Δ at x = jΔ
 *
 * Three errors, each held to EACH of the value, at every r from the height h to the farthest R:
 *  - aliasing: 2|Γ(k + 2πi/Δ)|/Γ(k), whatever r is (Poisson's summation formula). It sets Δ.
 *  - the high end: terms with τr² > s₊ are left out; together they are less than Q(k, s₊ e^(−Δ/2)). It sets the last term, and lets a
 *    table entry be skipped where τ(h² + gap²) > s₊, since the true r² is no smaller.
 *  - the low end: all terms with τR² ≤ s₋ are merged into one with their sum and their mean τ. Since the second derivative of e^(−τr²)
 *    in τ is at most r⁴, this errs by no more than ½ Var(τ) r⁴ times their sum: s₋^(k+2)·k/(2(k+1)²(k+2)Γ(k+1)) of the value. It sets s₋.
 *
 * Where the value has fallen to NOTHING of the peak, R need reach no farther.
 */
import { lnGamma, lnUpperTail } from '../numeric/gamma.ts';
import { rootBetween } from '../numeric/root.ts';
import { newMemory, SLOT } from './memory.ts';

const EACH = 1e-7;
const NOTHING = 1e-24;

/** What depends on the exponent alone. */
export interface Rule {
  /** Half the power of r: (m + 3)/2. */
  readonly k: number;
  readonly step: number;
  /** e^Δ, from one τ to the next. */
  readonly ratio: number;
  /** ln of Δ/Γ(k). */
  readonly lnShare: number;
  /** The merged term beside the one whose place it takes: its τ over that one's, and ln of its weight over that one's. */
  readonly mergedTau: number;
  readonly lnMerged: number;
  /** τr² beyond which a term adds nothing that counts. */
  readonly high: number;
  /** τr² below which terms are merged. */
  readonly low: number;
  /** r²/h² beyond which the value is nothing. */
  readonly reach: number;
}

const rules = new Map<number, Rule>();
/** More than a layout has fixtures, each of which may have a beam of its own. */
const RULES_KEPT = 500;

export function ruleFor(m: number): Rule {
  const known = rules.get(m);
  if (known) return known;
  const k = (m + 3) / 2;
  const lnGammaK = lnGamma(k);
  const alias = (y: number): number => Math.log(2) + lnGamma(k, y) - lnGammaK - Math.log(EACH);
  // |Γ(k+iy)|/Γ(k) falls like e^(−y²/2k) for y < k and like e^(−πy/2) beyond: it has passed 1e-9 at the upper end for every k.
  const step = (2 * Math.PI) / rootBetween(alias, 1, 20 + 7 * Math.sqrt(k), 1e-6);
  const tail = (s: number): number => lnUpperTail(k, s) - Math.log(EACH);
  const high = rootBetween(tail, k + 1, 40 + 2 * k + 10 * Math.sqrt(k), 1e-6) * Math.exp(step / 2);
  const lnLow = (Math.log((2 * EACH * (k + 1) ** 2 * (k + 2)) / k) + lnGamma(k + 1)) / (k + 2);
  // Σ over j ≤ first of two geometric series, for the weights and for weight times τ.
  const [below, belowMean] = [1 - Math.exp(-k * step), 1 - Math.exp(-(k + 1) * step)];
  const merged = { mergedTau: below / belowMean, lnMerged: -Math.log(below) };
  const rule = { k, step, ratio: Math.exp(step), lnShare: Math.log(step) - lnGammaK, ...merged, high, low: Math.exp(lnLow), reach: NOTHING ** (-1 / k) };
  if (rules.size >= RULES_KEPT) rules.delete(rules.keys().next().value as number);
  rules.set(m, rule);
  return rule;
}

/** The terms for heights from `lowest` to `highest` and horizontal distances to `far`; τ rises, and the first one is the merged one. */
export interface Terms {
  readonly rule: Rule;
  readonly lowest: number;
  readonly highest: number;
  readonly count: number;
  readonly tau: Float64Array;
  readonly rootTau: Float64Array;
  /** ln of the weight of a term, without the factors of the height. */
  readonly lnWeight: Float64Array;
  /** j of the merged term: term t ≥ 1 has τ = e^((first + t)Δ). */
  readonly first: number;
}

export function termsFor(rule: Rule, lowest: number, highest: number, far: number, memory = newMemory): Terms {
  const { k, step, ratio, lnShare, mergedTau, lnMerged } = rule;
  const r2 = Math.min(highest * highest + far * far, highest * highest * rule.reach);
  const first = Math.floor(Math.log(rule.low / r2) / step);
  const last = Math.max(first + 1, Math.ceil(Math.log(rule.high / (lowest * lowest)) / step));
  const count = last - first + 1;
  const [tau, rootTau, lnWeight] = [memory(SLOT.tau, count), memory(SLOT.rootTau, count), memory(SLOT.lnWeight, count)];
  // τ is a geometric row: a product each instead of an exponential; 500 of them round to 1e-13.
  let next = Math.exp(first * step);
  for (let t = 0; t < count; t++) {
    tau[t] = next;
    rootTau[t] = Math.sqrt(next);
    lnWeight[t] = k * (first + t) * step + lnShare;
    next *= ratio;
  }
  tau[0] = (tau[0] as number) * mergedTau;
  rootTau[0] = Math.sqrt(tau[0] as number);
  lnWeight[0] = (lnWeight[0] as number) + lnMerged;
  return { rule, lowest, highest, count, tau, rootTau, lnWeight, first };
}

/** Φ(m+1)h^(m+1)/2π times the weight of each term and e^(−τh²): what multiplies the two axes, µmol/m²/s. Zero for terms too narrow to count at h. */
export function weightsAt(terms: Terms, ppf: number, m: number, h: number, memory = newMemory): Float64Array {
  const { tau, lnWeight, count, rule } = terms;
  const scale = (ppf * (m + 1)) / (2 * Math.PI * h * h);
  // h^(m+1) = h^(2k)/h²; inside the exponential, since τᵏ alone overflows for a narrow beam.
  const lnH = rule.k * Math.log(h * h);
  const weights = memory(SLOT.weights, count);
  const most = rule.high / (h * h);
  for (let t = 0; t < count; t++) weights[t] = (tau[t] as number) <= most ? scale * Math.exp((lnWeight[t] as number) + lnH - (tau[t] as number) * h * h) : 0;
  return weights;
}
