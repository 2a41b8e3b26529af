import { calc, define } from '../define.ts';
import { beamExponent, facePpfd, HEIGHT, LIMITS, PPF } from '../field/index.ts';
import { ANY_BEAM } from './beam-params.ts';

/** PPFD from a point source. */
export const POINT_PPFD = define({
  name: 'POINT.PPFD',
  family: 'Beam and footprint',
  summary: 'PPFD from one small fixture, beside the point below it.',
  use: 'For a fixture farther away than five times its largest size; nearer than that BAR.PPFD takes its size into account.',
  formula: '(m+1)Φ/2π·h^(m+1)/(h²+offset²)^((m+3)/2)',
  params: [
    PPF,
    ANY_BEAM,
    HEIGHT,
    { name: 'offset', quantity: 'distance beside the fixture', unit: 'm', meaning: 'from the point straight below it', atLeast: 0, atMost: LIMITS.placeMost },
  ],
  returns: { quantity: 'PPFD', unit: 'µmol/m²/s' },
  source: 'Closed form: I₀ cosᵐ⁺¹ θ / r² with r² = h² + offset²; five times the size: Illuminating Engineering Society, online definitions, entry 9.1.1',
  examples: [{ formula: 'POINT.PPFD(96,120,0.5,0.3)', gives: 66.1, within: 1e-3 }],
  work: ([ppf, beam, height, offset], show) => {
    const m = beamExponent(beam);
    show?.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
    return facePpfd({ ppf, length: 0, width: 0, m }, height, offset, 0, show);
  },
});
