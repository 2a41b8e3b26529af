import { calc, define } from '../define.ts';
import { beamExponent, PPF } from '../field/index.ts';
import { ANY_BEAM } from './beam-params.ts';

/** Photons a second and steradian straight ahead. */
export const PEAK_INTENSITY = define({
  name: 'PEAK.INTENSITY',
  family: 'Beam and footprint',
  summary: 'How much light goes straight ahead, into each steradian.',
  use: 'To compare how strongly fixtures throw their light. Far from the face PPFD straight below is this over the height squared.',
  formula: 'I₀ = Φ(m+1)/2π',
  params: [PPF, ANY_BEAM],
  returns: { quantity: 'photon intensity', unit: 'µmol/s/sr' },
  source: 'Closed form: I₀ cosᵐ θ integrated over the half space is Φ',
  examples: [{ formula: 'PEAK.INTENSITY(1000,120)', gives: 318.31, within: 1e-5 }],
  work: ([ppf, beam], show) => {
    const m = beamExponent(beam);
    const peak = (ppf * (m + 1)) / (2 * Math.PI);
    show?.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
    show?.expression('intensity straight ahead', calc`${ppf} * (${m} + 1) / (2 * pi)`, peak, 'µmol/s/sr');
    return peak;
  },
});
