import { calc, define, isRefusal, refuse } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT } from './field-params.ts';
import { showMean } from './field-steps.ts';
import { cellCentres, fieldAt } from './kernel.ts';
import { LIMITS } from './limits.ts';
import { named } from './named.ts';
import { sampleField } from './sample-field.ts';

/** What like benches beside this one add to its mean. */
export const NEIGHBOUR_SPILL = define({
  name: 'NEIGHBOUR.SPILL',
  family: 'The field over a bench',
  summary: 'How much neighbouring benches with the same lights add to the mean.',
  use: 'For a house of equal benches, side by side across their width, all lit alike. Without reflecting sides between them.',
  formula: 'mean with neighbours / mean without − 1',
  params: [
    LAYOUT_TEXT,
    HEIGHT,
    { name: 'aisle', quantity: 'width of the aisle', unit: 'm', meaning: 'from bench to bench', atLeast: 0, atMost: LIMITS.benchMost },
    {
      name: 'neighbours',
      quantity: 'neighbouring benches',
      unit: '1',
      meaning: '1 is the one beyond y = width; 2 are one on either side',
      optional: true,
      fallback: 2,
      whole: true,
      atLeast: 0,
      atMost: 2,
    },
  ],
  returns: { quantity: 'gain of the mean', unit: '1' },
  source: 'The same field at points one bench and aisle away',
  examples: [{ formula: 'NEIGHBOUR.SPILL(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,0.6)', gives: 0.05, within: 2e-2 }],
  work: ([text, height, aisle, neighbours], show) => {
    const s = sampleField(text, height);
    if (isRefusal(s)) return named('NEIGHBOUR.SPILL', s);
    const { bench, beside, sides } = s.layout;
    if (beside) return refuse('NEIGHBOUR.SPILL: the layout has rows beside it already; take the layout of one bench alone.');
    if (sides > 0) return refuse('NEIGHBOUR.SPILL: reflecting sides shut the neighbours out; take a layout with wall reflectance 0.');
    if (neighbours === 0 && !show) return 0;
    const away = bench.width + aisle;
    const [xs, ys] = [cellCentres(s.nx, bench.length), cellCentres(s.ny, bench.width)];
    // A bench that lies beyond y = width sees this one's points as lying below its own origin, and the other way about.
    const shifts = [-away, away].slice(0, neighbours);
    const fields = shifts.map((shift) =>
      fieldAt(
        s.layout,
        height,
        xs,
        ys.map((y) => y + shift),
      ),
    );
    const means = fields.map((field) => field.reduce((sum, e) => sum + e, 0) / field.length);
    const gain = means.reduce((sum, mean) => sum + mean, 0) / s.mean;
    if (show) {
      showMean(show, s);
      for (const [i, field] of fields.entries()) {
        const label = `mean of what neighbour ${i + 1} adds on the same grid`;
        show.sum(label, () => Array.from(field, (value, n) => ({ label: `point ${n + 1}`, value })), 1 / field.length, means[i] as number, 'µmol/m²/s');
      }
      show.expression('gain', calc`(${means.length > 0 ? means.map((mean) => calc`${mean}`).join(' + ') : '0'}) / ${s.mean}`, gain, '1');
    }
    return gain;
  },
});
