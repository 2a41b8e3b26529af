import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { BEAM, beamExponent, HEIGHT } from '../field/index.ts';
import { quantity } from '../formula-words.ts';
import { endlessRows, gapOverHeight, lowToMean } from './endless-rows.ts';
import { LOW_TO_MEAN, ROW_GAP } from './rows-params.ts';

/** The widest gap between rows that is still even enough: the inverse of MOUNT.HEIGHT.EVEN. */
export const ROW_GAP_MAX = define({
  name: 'ROW.GAP.MAX',
  family: 'Mount height',
  summary: 'How far apart rows of bars may hang to stay even between them.',
  use: 'Interior only: endless rows of endless bars. Edges and corners stay darker however the rows are spaced.',
  formula: 'gap with E midway / (output per metre / gap) = low to mean',
  params: [HEIGHT, BEAM, LOW_TO_MEAN],
  returns: { quantity: 'gap between rows, centre to centre', unit: 'm' },
  source: 'Sum of endless line sources, added up as derived for this program, solved by R. P. Brent’s method (1973, chapter 4)',
  examples: [{ formula: 'ROW.GAP.MAX(0.15,120,0.8)', gives: 0.3, within: 5e-3 }],
  work: ([height, beam, share], show) => {
    const m = beamExponent(beam);
    const ratio = gapOverHeight(m, share);
    if (ratio === undefined) return refuse(`ROW.GAP.MAX: no gap makes rows with a ${beam}° beam even to ${share}; ask for less.`);
    const gap = ratio * height;
    if (gap < ROW_GAP.atLeast || gap > ROW_GAP.atMost) {
      return refuse(`ROW.GAP.MAX: that gap would be ${say(gap)} m; gaps are calculated from ${ROW_GAP.atLeast} to ${ROW_GAP.atMost} m.`);
    }
    if (show) {
      show.expression('exponent of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
      const check = `MOUNT.HEIGHT.EVEN(${quantity(gap, 'm')},${quantity(beam, '°')},${share})`;
      show.search('gap at which the low midway is that share of the mean', gap, 'm', [0.05 * height, 200 * height], check, height, 'm');
      show.sum('low over mean there, a sum of Gaussians over all rows', () => endlessRows(m, gap, height), 1, lowToMean(m, gap, height), '1');
      show.note('Interior only: the edge of a bench tends to half of this light, its corner to a quarter.');
    }
    return gap;
  },
});
