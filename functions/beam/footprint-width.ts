import { calc, define } from '../define.ts';
import { beamExponent, LIMITS } from '../field/index.ts';
import { ANY_BEAM } from './beam-params.ts';

/** PPFD at the edge of the beam over PPFD at its centre, for a point source: half the intensity, farther away and aslant. */
export const shareAtEdge = (beam: number): number => Math.cos((beam * Math.PI) / 360) ** (beamExponent(beam) + 3);

/** Where the edges of the beam meet the canopy. */
export const FOOTPRINT_WIDTH = define({
  name: 'FOOTPRINT.WIDTH',
  family: 'Beam and footprint',
  summary: 'The width that the beam angle covers at the canopy.',
  use: 'To read a data sheet’s footprint. It is not the useful width: at its edge little of the centre is left, as the working says; see USEFUL.WIDTH.',
  formula: '2h·tan(beam/2)',
  params: [{ name: 'height', quantity: 'mount height', unit: 'm', meaning: 'from the face down to the canopy', above: 0, atMost: LIMITS.heightMost }, ANY_BEAM],
  returns: { quantity: 'width of the footprint', unit: 'm' },
  source: 'Geometry of the beam’s edge',
  examples: [{ formula: 'FOOTPRINT.WIDTH(0.25,120)', gives: 0.866, within: 1e-4 }],
  work: ([height, beam], show) => {
    const width = 2 * height * Math.tan((beam * Math.PI) / 360);
    const left = shareAtEdge(beam);
    show?.expression('width between the edges of the beam', calc`2 * ${height} * tan(${beam} / 2 * pi / 180)`, width, 'm');
    show?.expression('share of the centre left at that edge, point source', calc`cos(${beam} / 2 * pi / 180)^(${beamExponent(beam)} + 3)`, left, '1');
    return width;
  },
});
