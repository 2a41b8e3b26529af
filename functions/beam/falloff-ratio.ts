import { calc, define } from '../define.ts';
import { BEAM, beamExponent, facePpfd, HEIGHT } from '../field/index.ts';
import { LONG, WIDE } from './beam-params.ts';

/** What is left under the centre of one face after a move from one height to another. */
export const FALLOFF_RATIO = define({
  name: 'FALLOFF.RATIO',
  family: 'Beam and footprint',
  summary: 'What a move from one height to another leaves of the light under one fixture.',
  use: 'For raise-or-dim questions about a single fixture. A full bench loses less, since neighbours fill in: compare BENCH.MEAN at both heights.',
  formula: 'PPFD(h₂) / PPFD(h₁) under the centre',
  params: [LONG, WIDE, BEAM, { ...HEIGHT, name: 'h1', quantity: 'first height' }, { ...HEIGHT, name: 'h2', quantity: 'second height' }],
  returns: { quantity: 'PPFD after over PPFD before', unit: '1' },
  source: 'Ratio of two BAR.PPFD',
  examples: [{ formula: 'FALLOFF.RATIO(1.2,0,120,0.2,0.4)', gives: 0.466, within: 1e-3 }],
  work: ([length, width, beam, h1, h2], show) => {
    const face = { ppf: 100, length, width, m: beamExponent(beam) };
    show?.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, face.m, '1');
    const before = facePpfd(face, h1, 0, 0, show, 'at the first height, per 100 µmol/s');
    const after = facePpfd(face, h2, 0, 0, show, 'at the second height');
    const ratio = after / before;
    show?.expression('after over before', calc`${after} / ${before}`, ratio, '1');
    show?.expression('what the inverse square of a point would leave', calc`(${h1} / ${h2})^2`, (h1 / h2) ** 2, '1');
    return ratio;
  },
});
