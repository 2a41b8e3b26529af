import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { BEAM, beamExponent, LIMITS } from '../field/index.ts';
import { quantity } from '../formula-words.ts';
import { endlessRows, gapOverHeight, lowToMean } from './endless-rows.ts';
import { LOW_TO_MEAN, ROW_GAP } from './rows-params.ts';

/** How high rows must hang to be even between them, far from the edges of the bench. */
export const MOUNT_HEIGHT_EVEN = define({
  name: 'MOUNT.HEIGHT.EVEN',
  family: 'Mount height',
  summary: 'The height at which rows of bars light the strip between them evenly enough.',
  use: 'Interior only: endless rows of endless bars. Edges and corners stay darker however the rows are spaced; BENCH.UNIFORMITY counts them.',
  formula: 'h with E midway / (output per metre / gap) = low to mean',
  params: [ROW_GAP, BEAM, LOW_TO_MEAN],
  returns: { quantity: 'mount height', unit: 'm' },
  source: 'Sum of endless line sources, added up as derived for this program, solved by R. P. Brent’s method (1973, chapter 4)',
  examples: [
    { formula: 'MOUNT.HEIGHT.EVEN(0.3,120,0.8)', gives: 0.15, within: 5e-3 },
    { formula: 'MOUNT.HEIGHT.EVEN(0.3,120,0.9)', gives: 0.19, within: 5e-3 },
  ],
  work: ([gap, beam, share], show) => {
    const m = beamExponent(beam);
    const ratio = gapOverHeight(m, share);
    if (ratio === undefined) return refuse(`MOUNT.HEIGHT.EVEN: no height makes rows with a ${beam}° beam even to ${share}; ask for less.`);
    const height = gap / ratio;
    if (height < LIMITS.heightLeast || height > LIMITS.heightMost) {
      return refuse(`MOUNT.HEIGHT.EVEN: that takes ${say(height)} m; heights are calculated from ${LIMITS.heightLeast} to ${LIMITS.heightMost} m.`);
    }
    if (show) {
      show.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
      const check = `ROW.GAP.MAX(${quantity(height, 'm')},${quantity(beam, '°')},${share})`;
      show.search('height at which the low midway is that share of the mean', height, 'm', [gap / 200, gap / 0.05], check, gap, 'm');
      show.sum('low over mean there, a sum of Gaussians over all rows', () => endlessRows(m, gap, height), 1, lowToMean(m, gap, height), '1');
      show.note('Interior only: the edge of a bench tends to half of this light, its corner to a quarter.');
    }
    return height;
  },
});
