import { calc, define } from '../define.ts';
import { beamExponent, LIMITS } from '../field/index.ts';
import { ANY_BEAM } from './beam-params.ts';
import { shareAtEdge } from './footprint-width.ts';

/** The height at which the beam covers a width: the inverse of FOOTPRINT.WIDTH. */
export const FOOTPRINT_HEIGHT = define({
  name: 'FOOTPRINT.HEIGHT',
  family: 'Beam and footprint',
  summary: 'The height at which the beam angle covers a width.',
  use: 'The inverse of FOOTPRINT.WIDTH, with its limits: little of the centre’s light is left at the edges.',
  formula: 'width / (2·tan(beam/2))',
  params: [{ name: 'width', quantity: 'width to cover', unit: 'm', meaning: 'at the canopy', above: 0, atMost: LIMITS.benchMost }, ANY_BEAM],
  returns: { quantity: 'mount height', unit: 'm' },
  source: 'Geometry of the beam’s edge',
  examples: [{ formula: 'FOOTPRINT.HEIGHT(0.866025404,120)', gives: 0.25, within: 1e-8 }],
  work: ([width, beam], show) => {
    const height = width / (2 * Math.tan((beam * Math.PI) / 360));
    show?.expression('height', calc`${width} / (2 * tan(${beam} / 2 * pi / 180))`, height, 'm');
    show?.expression(
      'share of the centre left at that edge, point source',
      calc`cos(${beam} / 2 * pi / 180)^(${beamExponent(beam)} + 3)`,
      shareAtEdge(beam),
      '1',
    );
    return height;
  },
});
