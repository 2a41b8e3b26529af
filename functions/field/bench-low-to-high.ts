import { calc, define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showGrid, showHigh, showLow } from './field-steps.ts';
import { named } from './named.ts';
import { highOf, lowOf, sampleField } from './sample-field.ts';

/** Lowest over highest of the sample grid. */
export const BENCH_LOW_TO_HIGH = define({
  name: 'BENCH.LOW.TO.HIGH',
  family: 'The field over a bench',
  summary: 'Evenness as the dimmest point over the brightest.',
  use: 'A stricter figure than low to mean. It depends on the sample grid: compare only figures of one grid.',
  formula: 'least E / greatest E',
  params: [LAYOUT_TEXT, HEIGHT, NX, NY],
  returns: { quantity: 'evenness, low to high', unit: '1' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; sample grid of cell centres, common practice, no published source',
  examples: [{ formula: 'BENCH.LOW.TO.HIGH(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,24,12)', gives: 0.373514115, within: 1e-6 }],
  work: ([layout, height, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.LOW.TO.HIGH', s);
    const value = lowOf(s) / highOf(s);
    if (show) {
      showGrid(show, s);
      showLow(show, s);
      showHigh(show, s);
      show.expression('low over high', calc`${lowOf(s)} / ${highOf(s)}`, value, '1');
    }
    return value;
  },
});
