import { define, isRefusal } from '../define.ts';
import { brightestOf } from './brightest.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showGrid, showPoint } from './field-steps.ts';
import { named } from './named.ts';
import { sampleField } from './sample-field.ts';

/** PPFD at the brightest point of the bench, wherever it is. */
export const BENCH_BRIGHTEST = define({
  name: 'BENCH.BRIGHTEST',
  family: 'The field over a bench',
  summary: 'The brightest point of the bench itself, between the points of the sample grid too.',
  use: 'For the leaves that get most: close under narrow lights the grid’s best, BENCH.HIGH, can be a fraction of it. Looks around the grid’s best point and right under the faces. Nearer than twice the spacing of the diodes, single diodes are brighter still.',
  formula: 'greatest E(x, y) of the bench',
  params: [LAYOUT_TEXT, HEIGHT, NX, NY],
  returns: { quantity: 'PPFD', unit: 'µmol/m²/s' },
  source: 'Local search on BENCH.PPFD, to one part in a thousand; right under a point source it is the inverse-square law',
  slow: true,
  caution: 'Bright sources: do not stare into them. A ceiling for leaves is no limit for eyes.',
  examples: [{ formula: 'BENCH.BRIGHTEST(LAYOUT(44,0,0,60,1,1,1,1),0.06)', gives: 11318.968, within: 1e-4 }],
  work: ([layout, height, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.BRIGHTEST', s);
    const { x, y, ppfd } = brightestOf(s);
    if (show) {
      showGrid(show, s);
      showPoint(show, s.layout, height, x, y, ppfd, 'brightest point of the bench');
    }
    return ppfd;
  },
});
