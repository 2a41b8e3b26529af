import { calc, define } from '../define.ts';
import { beamExponent } from '../field/index.ts';
import { ANY_BEAM } from './beam-params.ts';

/** Photons inside the cone of the beam angle over all photons. */
export const SHARE_IN_BEAM = define({
  name: 'SHARE.IN.BEAM',
  family: 'Beam and footprint',
  summary: 'The share of the photons inside the beam angle.',
  use: 'To see how much light falls outside the beam that a data sheet names.',
  formula: '1 − cos^(m+1)(beam/2)',
  params: [ANY_BEAM],
  returns: { quantity: 'share of the photons', unit: '1' },
  source: 'Closed form: I₀ cosᵐ θ integrated over the cone',
  examples: [
    { formula: 'SHARE.IN.BEAM(120)', gives: 0.75 },
    { formula: 'SHARE.IN.BEAM(90)', gives: 0.64644661, within: 1e-7 },
  ],
  work: ([beam], show) => {
    const m = beamExponent(beam);
    const share = 1 - Math.cos((beam * Math.PI) / 360) ** (m + 1);
    show?.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
    show?.expression('share inside the beam', calc`1 - cos(${beam} / 2 * pi / 180)^(${m} + 1)`, share, '1');
    return share;
  },
});
