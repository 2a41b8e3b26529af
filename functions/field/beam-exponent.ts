import { calc, define } from '../define.ts';

/**
 * The exponent m of a cosine-power emitter, I(θ) = I₀ cosᵐ θ, whose intensity falls to half the peak at half the beam angle.
 * Limits: 0.1° ≤ beam ≤ 179.9°; a measured distribution with shoulders or a hollow middle is not of this form.
 */
export function beamExponent(beam: number): number {
  // 120° is a Lambertian emitter exactly; without rounding it would come out as 1 − 2e-16 and miss the closed forms.
  const m = Math.log(0.5) / Math.log(Math.cos((beam * Math.PI) / 360));
  return Math.abs(m - Math.round(m)) < 1e-12 ? Math.round(m) : m;
}

export const BEAM_EXPONENT = define({
  name: 'BEAM.EXPONENT',
  family: 'Beam and footprint',
  summary: 'How strongly a beam is bundled: the power of the cosine that it follows.',
  use: 'To turn a data sheet’s beam angle into a light distribution. Fits plain optics; not a beam with shoulders or a hollow middle.',
  formula: 'm = ln ½ / ln cos(beam/2)',
  params: [{ name: 'beam', quantity: 'beam angle', unit: '°', meaning: 'full angle at half of the peak intensity', atLeast: 0.1, atMost: 179.9 }],
  returns: { quantity: 'exponent', unit: '1' },
  source: 'Closed form: cosᵐ(beam/2) = ½ solved for m; a Lambertian emitter (m = 1) has a 120° beam (J. H. Lambert, Photometria, 1760)',
  examples: [
    { formula: 'BEAM.EXPONENT(120)', gives: 1 },
    { formula: 'BEAM.EXPONENT(90)', gives: 2 },
    { formula: 'BEAM.EXPONENT(60)', gives: 4.8188417, within: 1e-8 },
  ],
  work: ([beam], show) => {
    const m = beamExponent(beam);
    show?.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
    return m;
  },
});
