import { define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showGrid, showLow } from './field-steps.ts';
import { named } from './named.ts';
import { lowOf, sampleField } from './sample-field.ts';

/** PPFD at the dimmest point of the sample grid. */
export const BENCH_LOW = define({
  name: 'BENCH.LOW',
  family: 'The field over a bench',
  summary: 'The dimmest point of the sample grid.',
  use: 'For the plants that get least. A finer grid reaches farther into the corners and reads lower: name the grid with it.',
  formula: 'least E of the sample grid',
  params: [LAYOUT_TEXT, HEIGHT, NX, NY],
  returns: { quantity: 'PPFD', unit: 'µmol/m²/s' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; sample grid of cell centres, common practice, no published source',
  examples: [{ formula: 'BENCH.LOW(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,24,12)', gives: 132, within: 2e-3 }],
  work: ([layout, height, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.LOW', s);
    if (show) {
      showGrid(show, s);
      showLow(show, s);
    }
    return lowOf(s);
  },
});
