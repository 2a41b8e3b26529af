import type { Checks } from '../outside.ts';

const RAIN = '{47,42,45,24,13,26,33,34,27,30,40,44,32,12,12}';
const FIVE = '{100,120,80,110,90}';

/** The sample's deviation (n − 1) from ours of the whole (n). */
const sample = (cells: string, n: number) => ({ formula: `READINGS.SPREAD(${cells})*SQRT(${n}/${n - 1})`, of: 'cvSample' });

export const checks: Checks = {
  'uniformity-01': { formula: `READINGS.EVENNESS(${RAIN})`, in: '%' },
  'uniformity-03': { formula: 'READINGS.EVENNESS({8,12})', in: '%' },
  'uniformity-02': [
    { formula: `READINGS.MEAN(${RAIN})`, of: 'mean' },
    { formula: `READINGS.LOW.TO.MEAN(${RAIN})`, of: 'minOverMean' },
    { formula: `READINGS.LOW.TO.HIGH(${RAIN})`, of: 'minOverMax' },
    { formula: `READINGS.SPREAD(${RAIN})`, of: 'cvPopulation' },
    { formula: `READINGS.MEAN(${RAIN})*READINGS.LOW.TO.MEAN(${RAIN})`, of: 'min' },
    { formula: `READINGS.MEAN(${RAIN})*READINGS.LOW.TO.MEAN(${RAIN})/READINGS.LOW.TO.HIGH(${RAIN})`, of: 'max' },
    sample(RAIN, 15),
  ],
  'uniformity-04': [
    { formula: `READINGS.MEAN(${FIVE})`, of: 'mean' },
    { formula: `READINGS.LOW.TO.MEAN(${FIVE})`, of: 'minOverMean' },
    { formula: `READINGS.LOW.TO.HIGH(${FIVE})`, of: 'minOverMax' },
    { formula: `1/READINGS.LOW.TO.HIGH(${FIVE})`, of: 'maxOverMin' },
    { formula: `READINGS.SPREAD(${FIVE})`, of: 'cvPopulation' },
    { formula: `READINGS.EVENNESS(${FIVE})`, in: '%', of: 'christiansenPercent' },
    sample(FIVE, 5),
  ],
};
