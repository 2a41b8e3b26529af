/** The gamma function, as far as the field kernel needs it. */

/** From here on three terms of Stirling's series leave less than 2e-11. */
const STIRLING_FROM = 12;

/**
 * ln |Γ(x + iy)| for x > 0, to about 1e-11.
 * Shifted up by Γ(z+1) = z Γ(z), then Stirling's series. Source: NIST Digital Library of Mathematical Functions, eqs. 5.5.1 and 5.11.1.
 */
export function lnGamma(x: number, y = 0): number {
  let shift = 0;
  let re = x;
  for (; re < STIRLING_FROM; re++) shift += Math.log(re * re + y * y) / 2;
  const size = re * re + y * y;
  // Powers of 1/z = conj(z)/|z|², of which only real parts are wanted in the end.
  const [ar, ai] = [re / size, -y / size];
  const [br, bi] = [ar * ar - ai * ai, 2 * ar * ai];
  const cr = ar * br - ai * bi;
  const er = cr * br - (ar * bi + ai * br) * bi;
  const lead = ((re - 0.5) * Math.log(size)) / 2 - y * Math.atan2(y, re) - re + Math.log(2 * Math.PI) / 2;
  return lead + ar / 12 - cr / 360 + er / 1260 - shift;
}

/**
 * ln of a bound from above on Q(k, s) = Γ(k, s)/Γ(k), for k ≥ 1 and s > k: Γ(k, s) ≤ sᵏ e⁻ˢ/(s − k + 1).
 * Source: NIST Digital Library of Mathematical Functions, eq. 8.10.1 and its neighbours (the continued fraction 8.9.2 cut after its first term).
 */
export function lnUpperTail(k: number, s: number): number {
  return k * Math.log(s) - s - Math.log(s - k + 1) - lnGamma(k);
}
