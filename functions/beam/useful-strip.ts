/** How far from the centre PPFD under one face keeps a share of the centre's: the heart of USEFUL.WIDTH and USEFUL.LENGTH. */
import { say } from '../check-args.ts';
import { calc, type Refusal, refuse, type Show } from '../define.ts';
import { beamExponent, facePpfd, LIMITS } from '../field/index.ts';
import { quantity } from '../formula-words.ts';
import { rootBetween } from '../numeric/root.ts';

/** Output and centre drop out of the share; any output serves. */
const PPF = 100;

/** The full width of the strip, m, along the face or across it. PPFD falls all the way outwards, so there is one edge each side. */
export function usefulStrip(
  side: 'along' | 'across',
  length: number,
  width: number,
  beam: number,
  height: number,
  share: number,
  show: Show | undefined,
): number | Refusal {
  const face = { ppf: PPF, length, width, m: beamExponent(beam) };
  const at = (d: number, steps?: Show, label?: string): number => facePpfd(face, height, side === 'along' ? d : 0, side === 'across' ? d : 0, steps, label);
  const centre = at(0);
  const wanted = share * centre;
  let outside = height + (side === 'along' ? length : width);
  while (at(outside) > wanted) {
    if (outside >= LIMITS.placeMost) {
      const name = side === 'along' ? 'USEFUL.LENGTH' : 'USEFUL.WIDTH';
      return refuse(`${name}: ${say(outside)} m from the centre there is still ${say(at(outside) / centre)} of its light; ask for a larger share than that.`);
    }
    outside = Math.min(2 * outside, LIMITS.placeMost);
  }
  const edge = rootBetween((d) => at(d) - wanted, 0, outside);
  if (show) {
    show.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, face.m, '1');
    at(0, show, `under the centre, per ${PPF} µmol/s`);
    show.expression('PPFD asked for at the edge', calc`${share} * ${centre}`, wanted, 'µmol/m²/s');
    const sides = side === 'along' ? [quantity(edge, 'm'), '0'] : ['0', quantity(edge, 'm')];
    const given = [quantity(PPF, 'µmol/s'), quantity(length, 'm'), quantity(width, 'm'), quantity(beam, '°'), quantity(height, 'm'), ...sides];
    show.search('distance of the edge from the centre', edge, 'm', [0, outside], `BAR.PPFD(${given.join(',')})`, wanted, 'µmol/m²/s');
    show.expression('both sides', calc`2 * ${edge}`, 2 * edge, 'm');
  }
  return 2 * edge;
}
