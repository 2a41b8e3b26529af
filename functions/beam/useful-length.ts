import { define } from '../define.ts';
import { BEAM, HEIGHT } from '../field/index.ts';
import { LONG, SHARE, WIDE } from './beam-params.ts';
import { usefulStrip } from './useful-strip.ts';

/** The strip along the face in which PPFD is at least a share of the centre's. */
export const USEFUL_LENGTH = define({
  name: 'USEFUL.LENGTH',
  family: 'Beam and footprint',
  summary: 'How far along one fixture the light is worth having: where PPFD is at least a share of the centre’s.',
  use: 'For one fixture by itself; over a bench neighbours add light, and BENCH.SHARE.LIT counts it.',
  formula: 'twice the distance along at which PPFD = share × centre',
  params: [LONG, WIDE, BEAM, HEIGHT, SHARE],
  returns: { quantity: 'length of the strip', unit: 'm' },
  source: 'Solved from BAR.PPFD by R. P. Brent’s method (Algorithms for Minimization Without Derivatives, 1973, chapter 4)',
  examples: [
    { formula: 'USEFUL.LENGTH(1.2,0,120,0.25,0.5)', gives: 1.21, within: 3e-3 },
    { formula: 'USEFUL.LENGTH(1.2,0,120,0.25,0.8)', gives: 0.941, within: 1e-3 },
  ],
  work: ([length, width, beam, height, share], show) => usefulStrip('along', length, width, beam, height, share, show),
});
