import { calc, define } from '../define.ts';

/** The full angle at half of the peak intensity for a cosine-power emitter: the inverse of `beamExponent`. */
export function beamAngle(exponent: number): number {
  return (360 / Math.PI) * Math.acos(0.5 ** (1 / exponent));
}

export const BEAM_ANGLE = define({
  name: 'BEAM.ANGLE',
  family: 'Beam and footprint',
  summary: 'The beam angle that belongs to a power of the cosine.',
  use: 'To say an exponent from a fit or a paper as the angle on a data sheet.',
  formula: 'beam = 2 acos(½^(1/m))',
  params: [{ name: 'exponent', quantity: 'exponent of the cosine', unit: '1', meaning: '1 is a Lambertian emitter', above: 0, atMost: 10_000 }],
  returns: { quantity: 'beam angle', unit: '°' },
  source: 'Closed form: cosᵐ(beam/2) = ½ solved for the angle',
  examples: [
    { formula: 'BEAM.ANGLE(1)', gives: 120 },
    { formula: 'BEAM.ANGLE(2)', gives: 90 },
  ],
  work: ([m], show) => {
    const beam = beamAngle(m);
    show?.expression('full angle at half of the peak', calc`2 * acos(0.5^(1 / ${m})) * 180 / pi`, beam, '°');
    return beam;
  },
});
