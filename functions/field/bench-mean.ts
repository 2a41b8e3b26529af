import { define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showHigh, showLow, showMean } from './field-steps.ts';
import { named } from './named.ts';
import { sampleField } from './sample-field.ts';

/** Mean PPFD of the sample grid. */
export const BENCH_MEAN = define({
  name: 'BENCH.MEAN',
  family: 'The field over a bench',
  summary: 'Mean PPFD over the bench, from the sample grid.',
  use: 'For the light that the canopy as a whole gets: new and undimmed; times the dimming for day one, times the maintenance factor for maintained light.',
  formula: 'Σ E / number of points',
  params: [LAYOUT_TEXT, HEIGHT, NX, NY],
  returns: { quantity: 'mean PPFD', unit: 'µmol/m²/s' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; sample grid of cell centres, common practice, no published source',
  examples: [{ formula: 'BENCH.MEAN(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,24,12)', gives: 277, within: 2e-3 }],
  work: ([layout, height, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.MEAN', s);
    if (show) {
      showHigh(show, s);
      showLow(show, s);
      showMean(show, s);
    }
    return s.mean;
  },
});
