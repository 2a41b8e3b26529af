import { calc, define, isRefusal } from '../define.ts';
import { darkFault, pointLabel, READINGS, readingsOf } from './readings.ts';
import { showReadingsMean } from './readings-mean.ts';

const USE = 'It depends on the grid: name the number of points with it. Blanks do not count; more than one in five is refused.';
const CELLS = '{118,142,150,121;150,188,196,155;116,140,147,119}';
const EN = 'EN 12464-1:2021, Light and lighting: illuminance uniformity, least over mean (cited from memory)';

export const READINGS_LOW_TO_MEAN = define({
  name: 'READINGS.LOW.TO.MEAN',
  family: 'Meter and evenness',
  summary: 'Lowest reading over the mean: the usual measure of evenness.',
  use: USE,
  formula: 'least / mean',
  params: [READINGS],
  returns: { quantity: 'evenness', unit: '1' },
  source: EN,
  examples: [{ formula: `READINGS.LOW.TO.MEAN(${CELLS})`, gives: 0.799, within: 1e-3 }],
  work: ([cells], show) => {
    const readings = readingsOf('READINGS.LOW.TO.MEAN', cells);
    if (isRefusal(readings)) return readings;
    const dark = darkFault('READINGS.LOW.TO.MEAN', readings);
    if (dark) return dark;
    const low = Math.min(...readings.values);
    const value = low / readings.mean;
    if (show) {
      showReadingsMean(show, readings, 'any');
      show.expression('least over mean', calc`${low} / ${readings.mean}`, value, '1');
    }
    return value;
  },
});

export const READINGS_LOW_TO_HIGH = define({
  name: 'READINGS.LOW.TO.HIGH',
  family: 'Meter and evenness',
  summary: 'Lowest reading over the highest.',
  use: USE,
  formula: 'least / greatest',
  params: [READINGS],
  returns: { quantity: 'evenness', unit: '1' },
  source: 'By definition: least over greatest; common practice, no published source',
  examples: [{ formula: `READINGS.LOW.TO.HIGH(${CELLS})`, gives: 0.592, within: 1e-3 }],
  work: ([cells], show) => {
    const readings = readingsOf('READINGS.LOW.TO.HIGH', cells);
    if (isRefusal(readings)) return readings;
    const dark = darkFault('READINGS.LOW.TO.HIGH', readings);
    if (dark) return dark;
    const [low, high] = [Math.min(...readings.values), Math.max(...readings.values)];
    const value = low / high;
    show?.expression('least over greatest', calc`${low} / ${high}`, value, '1');
    return value;
  },
});

export const READINGS_SPREAD = define({
  name: 'READINGS.SPREAD',
  family: 'Meter and evenness',
  summary: 'Standard deviation of the readings over their mean.',
  use: `The readings are taken as the whole, not as a sample (divided by n). ${USE}`,
  formula: '√(Σ (x − x̄)² / n) / x̄',
  params: [READINGS],
  returns: { quantity: 'spread', unit: '1' },
  source: 'By definition: standard deviation of the whole over the mean (coefficient of variation); common practice, no published source',
  examples: [{ formula: `READINGS.SPREAD(${CELLS})`, gives: 0.1717, within: 1e-3 }],
  work: ([cells], show) => {
    const readings = readingsOf('READINGS.SPREAD', cells);
    if (isRefusal(readings)) return readings;
    const dark = darkFault('READINGS.SPREAD', readings);
    if (dark) return dark;
    const { all, values, mean, nx } = readings;
    const variance = values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / values.length;
    const value = Math.sqrt(variance) / mean;
    if (show) {
      showReadingsMean(show, readings, 'any');
      const terms = () => all.flatMap((x, i) => (x === null ? [] : [{ label: pointLabel(i, nx), value: (x - mean) ** 2 }]));
      show.sum('mean of the squared differences', terms, 1 / values.length, variance, '1');
      show.expression('its root over the mean', calc`sqrt(${variance}) / ${mean}`, value, '1');
    }
    return value;
  },
});

export const READINGS_EVENNESS = define({
  name: 'READINGS.EVENNESS',
  family: 'Meter and evenness',
  summary: 'Evenness by Christiansen’s coefficient: 100 % is perfectly even.',
  use: `Known from irrigation; it weighs all points, not only the darkest. ${USE}`,
  formula: '100 · (1 − Σ |x − x̄| / (n · x̄))',
  params: [READINGS],
  returns: { quantity: 'evenness', unit: '%' },
  source: 'J. E. Christiansen, Irrigation by Sprinkling, University of California Bulletin 670, 1942',
  examples: [{ formula: 'READINGS.EVENNESS({8,12})', gives: 80 }],
  work: ([cells], show) => {
    const readings = readingsOf('READINGS.EVENNESS', cells);
    if (isRefusal(readings)) return readings;
    const dark = darkFault('READINGS.EVENNESS', readings);
    if (dark) return dark;
    const { all, values, mean, nx } = readings;
    const away = values.reduce((sum, x) => sum + Math.abs(x - mean), 0);
    const value = 100 * (1 - away / (values.length * mean));
    if (show) {
      showReadingsMean(show, readings, 'any');
      const terms = () => all.flatMap((x, i) => (x === null ? [] : [{ label: pointLabel(i, nx), value: Math.abs(x - mean) }]));
      show.sum('differences from the mean', terms, 1, away, '1');
      show.expression('what is left of 100', calc`100 * (1 - ${away} / (${values.length} * ${mean}))`, value, '%');
    }
    return value;
  },
});
