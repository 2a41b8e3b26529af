import { calc, define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT } from '../field/index.ts';
import { fitAt, measured, noModel, PPFD_READINGS } from './fit.ts';
import { pointLabel } from './readings.ts';

export const METER_FIT = define({
  name: 'METER.FIT',
  family: 'Meter and evenness',
  summary: 'The factor by which the layout’s light must be multiplied to match the readings.',
  use: 'Against full light it should come out as dimming times whatever ageing and dirt there is. Take the dark readings (lamps off) away first. METER.MISS tells whether the pattern fits; one dark fixture does not drag the “middle”.',
  formula: 'Σ m·r / Σ m²; middle: median of r / m',
  params: [
    PPFD_READINGS,
    LAYOUT_TEXT,
    HEIGHT,
    {
      name: 'way',
      quantity: 'way of fitting',
      unit: 'text',
      meaning: '“squares”, least squares; or “middle”, the median of reading over model',
      optional: true,
      fallback: 'squares',
      oneOf: ['squares', 'middle'],
    },
  ],
  returns: { quantity: 'factor', unit: '1' },
  source: 'Least squares through the origin: NIST/SEMATECH e-Handbook of Statistical Methods, 2012, section 4.4.3 (cited from memory)',
  slow: true,
  examples: [
    { formula: 'METER.FIT({100},LAYOUT(100,0,0,120,1,1,1,1),0.5)', gives: 0.7853981634, within: 1e-6 },
    { formula: 'METER.FIT({100,90,20},LAYOUT(100,0,0,120,3,1,3,1),0.5,"middle")', gives: 0.6544984695, within: 1e-6 },
  ],
  work: ([cells, text, height, way], show) => {
    const m = measured('METER.FIT', cells, text);
    if (isRefusal(m)) return m;
    const { model, mr, mm, factor } = fitAt(m, height);
    if (!Number.isFinite(factor)) return noModel('METER.FIT');
    if (way === 'middle') {
      const ratios = m.readings.all.flatMap((r, i) => (r === null ? [] : [r / (model[i] as number)])).sort((a, b) => a - b);
      const [low, high] = [ratios[(ratios.length - 1) >> 1] as number, ratios[ratios.length >> 1] as number];
      show?.expression('median of reading over model', calc`(${low} + ${high}) / 2`, (low + high) / 2, '1');
      return (low + high) / 2;
    }
    if (show) {
      const { all, nx } = m.readings;
      const terms = (of: (r: number, model: number) => number) => () =>
        all.flatMap((r, i) => (r === null ? [] : [{ label: pointLabel(i, nx), value: of(r, model[i] as number) }]));
      show.sum(
        'reading times model, point by point',
        terms((r, e) => r * e),
        1,
        mr,
        '1',
      );
      show.sum(
        'model squared, point by point',
        terms((_, e) => e * e),
        1,
        mm,
        '1',
      );
      show.expression('factor that fits best', calc`${mr} / ${mm}`, factor, '1');
    }
    return factor;
  },
});
