import { calc, define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showLow, showMean } from './field-steps.ts';
import { named } from './named.ts';
import { lowOf, sampleField } from './sample-field.ts';

/** Lowest over mean of the sample grid. */
export const BENCH_UNIFORMITY = define({
  name: 'BENCH.UNIFORMITY',
  family: 'The field over a bench',
  summary: 'Evenness as the dimmest point over the mean.',
  use: 'For an acceptance figure. It depends on the sample grid: compare only figures of one grid.',
  formula: 'least E / mean E',
  params: [LAYOUT_TEXT, HEIGHT, NX, NY],
  returns: { quantity: 'evenness, low to mean', unit: '1' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; sample grid of cell centres, common practice, no published source',
  examples: [{ formula: 'BENCH.UNIFORMITY(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,24,12)', gives: 0.48, within: 1e-2 }],
  work: ([layout, height, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.UNIFORMITY', s);
    const value = lowOf(s) / s.mean;
    if (show) {
      showLow(show, s);
      showMean(show, s);
      show.expression('low over mean', calc`${lowOf(s)} / ${s.mean}`, value, '1');
    }
    return value;
  },
});
