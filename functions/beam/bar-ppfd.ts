import { calc, define } from '../define.ts';
import { BEAM, beamExponent, facePpfd, HEIGHT, NEAR_DIODES, PPF } from '../field/index.ts';
import { ACROSS, ALONG, LONG, WIDE } from './beam-params.ts';

/** PPFD from one face: a rectangle, a line or a point by its size. */
export const BAR_PPFD = define({
  name: 'BAR.PPFD',
  family: 'Beam and footprint',
  summary: 'PPFD from one fixture of any size, under its centre or to the side.',
  use: 'For a single bar or panel: how bright below, how bright beside. A size of zero both ways is a point.',
  formula: 'Φ(m+1)h^(m+1)/(2πA) ∫ dA / r^(m+3)',
  params: [PPF, LONG, WIDE, BEAM, HEIGHT, ALONG, ACROSS],
  returns: { quantity: 'PPFD', unit: 'µmol/m²/s' },
  source:
    'Rectangle of a cosine emitter: J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, 2010, entry B-3; line and point: closed forms of the same law; other beams: sum of Gaussians',
  examples: [
    { formula: 'BAR.PPFD(96,1.2,0,120,0.25)', gives: 156, within: 2e-3 },
    { formula: 'BAR.PPFD(96,1.2,0,120,0.25,0,0.15)', gives: 97.1, within: 1e-3 },
    { formula: 'BAR.PPFD(100,1.2,0.6,120,0.3,0.6,0.3)', gives: 30.663559, within: 1e-7 },
  ],
  work: ([ppf, length, width, beam, height, along, across], show) => {
    const m = beamExponent(beam);
    show?.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
    const value = facePpfd({ ppf, length, width, m }, height, along, across, show);
    show?.note(NEAR_DIODES);
    return value;
  },
});
