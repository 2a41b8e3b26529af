import { calc, define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT } from '../field/index.ts';
import { fitAt, measured, noModel, PPFD_READINGS } from './fit.ts';
import { pointLabel } from './readings.ts';

const SUSPECT = 0.1;
/** A difference of less than this share of the reading is the rounding of binary numbers, and none of the light's. */
const ROUNDING = 1e-12;

export const METER_MISS = define({
  name: 'METER.MISS',
  family: 'Meter and evenness',
  summary: 'How far the readings lie from the layout’s pattern, after the best factor.',
  use: 'Above 0.10: suspect a dead bar, sun, a shadow, or a map held the wrong way round. Below, the plan describes the bench.',
  formula: '√(Σ (r − f·m)² / n) / r̄',
  params: [PPFD_READINGS, LAYOUT_TEXT, HEIGHT],
  returns: { quantity: 'miss', unit: '1' },
  source: 'Root mean square of the residuals over the mean; 0.10 is common practice, no published source',
  slow: true,
  examples: [{ formula: 'METER.MISS({100},LAYOUT(100,0,0,120,1,1,1,1),0.5)', gives: 0 }],
  work: ([cells, text, height], show) => {
    const m = measured('METER.MISS', cells, text);
    if (isRefusal(m)) return m;
    const { model, factor } = fitAt(m, height);
    if (!Number.isFinite(factor)) return noModel('METER.MISS');
    const { all, values, mean, nx } = m.readings;
    const squares = all.map((r, i) => {
      if (r === null) return null;
      const off = r - factor * (model[i] as number);
      return Math.abs(off) <= ROUNDING * r ? 0 : off * off;
    });
    const ms = squares.reduce<number>((sum, s) => sum + (s ?? 0), 0) / values.length;
    const value = Math.sqrt(ms) / mean;
    if (show) {
      show.note(`factor that fits best, as METER.FIT gives it: ${Number(factor.toPrecision(6))}`);
      const terms = () => squares.flatMap((s, i) => (s === null ? [] : [{ label: pointLabel(i, nx), value: s }]));
      show.sum('mean of the squared differences', terms, 1 / values.length, ms, '1');
      show.expression('its root over the mean reading', calc`sqrt(${ms}) / ${mean}`, value, '1');
      if (values.length === 1) show.note('One reading fits any pattern: it says nothing of this one.');
      if (value > SUSPECT) show.note('More than 10 %: suspect a dead bar, sun, a shadow, or a map held the wrong way round.');
    }
    return value;
  },
});
