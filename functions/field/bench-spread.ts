import { calc, define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showMean } from './field-steps.ts';
import { named } from './named.ts';
import { sampleField } from './sample-field.ts';

/** Standard deviation over mean of the sample grid. */
export const BENCH_SPREAD = define({
  name: 'BENCH.SPREAD',
  family: 'The field over a bench',
  summary: 'Unevenness as the standard deviation over the mean.',
  use: 'Weighs the whole bench, where low to mean hangs on one point. Standard deviation of all the points (population).',
  formula: '√(Σ (E − mean)² / n) / mean',
  params: [LAYOUT_TEXT, HEIGHT, NX, NY],
  returns: { quantity: 'unevenness', unit: '1' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; sample grid of cell centres, common practice, no published source',
  examples: [{ formula: 'BENCH.SPREAD(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,24,12)', gives: 0.204931517, within: 1e-6 }],
  work: ([layout, height, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.SPREAD', s);
    const variance = s.field.reduce((sum, e) => sum + (e - s.mean) ** 2, 0) / s.field.length;
    const value = Math.sqrt(variance) / s.mean;
    if (show) {
      showMean(show, s);
      // The terms are plain numbers: squares of µmol/m²/s have no use of their own.
      const squares = () => Array.from(s.field, (e, i) => ({ label: `point ${i + 1}, squared difference from the mean`, value: (e - s.mean) ** 2 }));
      show.sum('mean squared difference from the mean', squares, 1 / s.field.length, variance, '1');
      show.expression('standard deviation over mean', calc`sqrt(${variance}) / ${s.mean}`, value, '1');
    }
    return value;
  },
});
