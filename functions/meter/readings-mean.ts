import { define, isRefusal, type Show } from '../define.ts';
import { pointLabel, READINGS, type Readings, readingsOf } from './readings.ts';

/** Shows how the mean of the readings comes about; the terms only when asked for. */
export function showReadingsMean(show: Show, { all, values, nx, mean }: Readings, unit: string): void {
  const terms = () => all.flatMap((x, i) => (x === null ? [] : [{ label: pointLabel(i, nx), value: x }]));
  show.sum(`mean of ${values.length} readings`, terms, 1 / values.length, mean, unit);
  if (values.length < all.length) show.note(`${all.length - values.length} of ${all.length} points were not read; they do not count.`);
}

export const READINGS_MEAN = define({
  name: 'READINGS.MEAN',
  family: 'Meter and evenness',
  summary: 'Mean of a grid of meter readings.',
  use: 'With points at the centres of equal cells, so that all weigh the same. Blanks do not count; more than one in five is refused.',
  formula: 'Σ x / n',
  params: [READINGS],
  returns: { quantity: 'mean of the readings', unit: 'any' },
  source: 'By definition: arithmetic mean',
  examples: [{ formula: 'READINGS.MEAN({118,142,150,121;150,188,196,155;116,140,147,119})', gives: 145.1666666667 }],
  work: ([cells], show) => {
    const readings = readingsOf('READINGS.MEAN', cells);
    if (isRefusal(readings)) return readings;
    if (show) showReadingsMean(show, readings, 'any');
    return readings.mean;
  },
});
