import { calc, define } from '../define.ts';
import { BEAM, beamExponent, facePpfd, HEIGHT } from '../field/index.ts';
import { ACROSS, ALONG, LONG, WIDE } from './beam-params.ts';

/** Too far aside a reading says nothing of the output: below this share of the centre's PPFD it is refused to be a guess. */
const LEAST_SHARE = 1e-6;

/** The output that explains one meter reading under one fixture. */
export const PPF_FROM_READING = define({
  name: 'PPF.FROM.READING',
  family: 'Beam and footprint',
  summary: 'The output of a fixture that explains one meter reading.',
  use: 'To check a data sheet with a meter, one fixture alone, dark otherwise. A height that is one percent off makes the output one to two percent off (FALLOFF.POWER).',
  formula: 'reading / PPFD of 1 µmol/s there',
  params: [
    { name: 'ppfd', quantity: 'reading', unit: 'µmol/m²/s', meaning: 'of a cosine-true meter, level, other light taken off', above: 0, atMost: 1e5 },
    LONG,
    WIDE,
    BEAM,
    HEIGHT,
    ALONG,
    ACROSS,
  ],
  returns: { quantity: 'photon output', unit: 'µmol/s' },
  source: 'BAR.PPFD solved for the output, in which it is linear',
  caution: 'Bright sources: read the meter, do not stare into the light.',
  examples: [{ formula: 'PPF.FROM.READING(BAR.PPFD(96,1.2,0,120,0.25,0.1,0.15),1.2,0,120,0.25,0.1,0.15)', gives: 96 }],
  work: ([ppfd, length, width, beam, height, along, across], show) => {
    const face = { ppf: 1, length, width, m: beamExponent(beam) };
    const perUnit = facePpfd(face, height, along, across);
    if (perUnit < LEAST_SHARE * facePpfd(face, height, 0, 0)) {
      return { refused: true, message: 'PPF.FROM.READING: almost none of this fixture’s light reaches that point; read under it or nearer.' };
    }
    show?.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, face.m, '1');
    facePpfd(face, height, along, across, show, 'PPFD there of 1 µmol/s');
    const ppf = ppfd / perUnit;
    show?.expression('output', calc`${ppfd} / ${perUnit}`, ppf, 'µmol/s');
    return ppf;
  },
});
