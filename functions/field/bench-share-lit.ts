import { define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showGrid, showHigh, showLow } from './field-steps.ts';
import { named } from './named.ts';
import { sampleField } from './sample-field.ts';

/** Share of the sample grid that reaches a target. */
export const BENCH_SHARE_LIT = define({
  name: 'BENCH.SHARE.LIT',
  family: 'The field over a bench',
  summary: 'The share of the bench that gets the target or more.',
  use: 'For how much of a bench is usable for a crop. In steps of one cell: a finer grid says it finer.',
  formula: 'points with E ≥ target / all points',
  params: [
    LAYOUT_TEXT,
    HEIGHT,
    { name: 'target', quantity: 'PPFD asked for', unit: 'µmol/m²/s', meaning: 'a point counts from this PPFD on; of 0, all count', atLeast: 0, atMost: 1e5 },
    NX,
    NY,
  ],
  returns: { quantity: 'share of the bench', unit: '1' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; sample grid of cell centres, common practice, no published source',
  examples: [{ formula: 'BENCH.SHARE.LIT(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,200,24,12)', gives: 0.889, within: 1e-3 }],
  work: ([layout, height, target, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.SHARE.LIT', s);
    let lit = 0;
    for (let i = 0; i < s.field.length; i++) if ((s.field[i] as number) >= target) lit++;
    const value = lit / s.field.length;
    if (show) {
      showGrid(show, s);
      showLow(show, s);
      showHigh(show, s);
      const marks = () => Array.from(s.field, (e, i) => ({ label: `point ${i + 1}: ${Number(e.toPrecision(6))} µmol/m²/s`, value: e >= target ? 1 : 0 }));
      show.sum(`points that reach ${Number(target.toPrecision(6))} µmol/m²/s, over all`, marks, 1 / s.field.length, value, '1');
    }
    return value;
  },
});
