import { define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showGrid, showHigh } from './field-steps.ts';
import { named } from './named.ts';
import { highOf, sampleField } from './sample-field.ts';

/** PPFD at the brightest point of the sample grid. */
export const BENCH_HIGH = define({
  name: 'BENCH.HIGH',
  family: 'The field over a bench',
  summary: 'The brightest point of the sample grid.',
  use: 'For the plants that get most. A narrow peak can stand between the points: BENCH.BRIGHTEST looks for the peak itself.',
  formula: 'greatest E of the sample grid',
  params: [LAYOUT_TEXT, HEIGHT, NX, NY],
  returns: { quantity: 'PPFD', unit: 'µmol/m²/s' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; sample grid of cell centres, common practice, no published source',
  examples: [{ formula: 'BENCH.HIGH(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,24,12)', gives: 353.344027, within: 1e-6 }],
  work: ([layout, height, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.HIGH', s);
    if (show) {
      showGrid(show, s);
      showHigh(show, s);
    }
    return highOf(s);
  },
});
