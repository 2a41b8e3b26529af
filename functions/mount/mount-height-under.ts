import { say, sayMost } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { BEAM, beamExponent, FACE_LENGTH, FACE_WIDTH, facePpfd, LIMITS, NEAR_DIODES, type OneFace, PPF } from '../field/index.ts';
import { quantity } from '../formula-words.ts';
import { brent } from '../numeric/root.ts';

/** Above rounding, and above what a sum of Gaussians may err by. */
const MARGIN = 1 + 1e-6;

/**
 * A height at or above the one that gives the target. Under its centre no face outshines a point of the same output, and none falls off
 * faster than a point does: so where the point has the target is high enough, and from there down by the root of what lacks still is.
 */
function highEnough(at: (height: number) => number, { ppf, m }: OneFace, target: number): number {
  const { heightLeast, heightMost } = LIMITS;
  const ofPoint = Math.min(heightMost, MARGIN * Math.sqrt(((m + 1) * ppf) / (2 * Math.PI * target)));
  return Math.min(ofPoint, Math.max(heightLeast, MARGIN * ofPoint * Math.sqrt(at(ofPoint) / target)));
}

/** The height at which PPFD under the centre of one face is a target. It falls all the way up, so there is one. */
export const MOUNT_HEIGHT_UNDER = define({
  name: 'MOUNT.HEIGHT.UNDER',
  family: 'Mount height',
  summary: 'The height at which the centre under one fixture gets the target.',
  use: 'For a single fixture. Over a bench with neighbours MOUNT.HEIGHT is the one to take.',
  formula: 'h with BAR.PPFD(…, h) = target',
  params: [
    PPF,
    FACE_LENGTH,
    FACE_WIDTH,
    BEAM,
    { name: 'target', quantity: 'PPFD asked for', unit: 'µmol/m²/s', meaning: 'under the centre', above: 0, atMost: 1e5 },
  ],
  returns: { quantity: 'mount height', unit: 'm' },
  source: 'Solved from BAR.PPFD by R. P. Brent’s method (Algorithms for Minimization Without Derivatives, 1973, chapter 4)',
  caution: 'Keep clear of foliage, and never hang anything lower or heavier than its maker and the support allow.',
  examples: [
    { formula: 'MOUNT.HEIGHT.UNDER(96,1.2,0,120,194)', gives: 0.203, within: 3e-3 },
    { formula: 'MOUNT.HEIGHT.UNDER(156,1.2,0,120,194)', gives: 0.319, within: 3e-3 },
  ],
  work: ([ppf, length, width, beam, target], show) => {
    const face = { ppf, length, width, m: beamExponent(beam) };
    const lowest = LIMITS.heightLeast;
    const at = (h: number): number => facePpfd(face, h, 0, 0);
    const most = at(lowest);
    if (most < target)
      return refuse(`MOUNT.HEIGHT.UNDER: the centre gets at most ${sayMost(most)} µmol/m²/s, at ${lowest} m; take that target or less, or more output.`);
    const above = highEnough(at, face, target);
    const least = at(above);
    if (least > target)
      return refuse(`MOUNT.HEIGHT.UNDER: at ${say(above)} m the centre still gets ${say(least)} µmol/m²/s; dim to ${sayMost(target / least)} of it there.`);
    // Light goes like 1/h near a line and like 1/h² far from it: over 1/h it is all but straight.
    const height = 1 / brent((w) => at(1 / w) - target, 1 / lowest, 1 / above, most - target, least - target).x;
    if (show) {
      const given = [quantity(ppf, 'µmol/s'), quantity(length, 'm'), quantity(width, 'm'), quantity(beam, '°'), quantity(height, 'm')];
      show.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, face.m, '1');
      show.search('height at which the centre gets the target', height, 'm', [lowest, above], `BAR.PPFD(${given.join(',')})`, target, 'µmol/m²/s');
      facePpfd(face, height, 0, 0, show, 'PPFD under the centre there');
      show.note(NEAR_DIODES);
    }
    return height;
  },
});
