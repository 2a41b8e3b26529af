import { calc, define } from '../define.ts';
import { normalBelow } from '../numeric/normal.ts';
import { CLEARNESS, DAY, FAO, LATITUDE, MOL_PER_MJ_PARAM, MOL_PER_MJ_SOURCE, SHARE } from './params.ts';
import { sunTop } from './sun-top.ts';

const LIGHT = { unit: 'mol/m²/d', atLeast: 0, atMost: 1000 } as const;

export const DULL_DAYS = define({
  name: 'DULL.DAYS',
  family: 'Sun and greenhouse',
  summary: 'Share of the days that miss the target with sun and lamps together.',
  use: 'A lamp that just fills a month’s mean gap misses on about half of its days. Takes the clearness of single days as normally spread about its mean; real days bunch at both ends.',
  formula: 'Φ((needed − clearness) / spread), needed = (target − lamps) / (SUN.TOP · mol per MJ · transmission)',
  params: [
    LATITUDE,
    DAY,
    CLEARNESS,
    { name: 'spread', quantity: 'spread of the daily clearness', unit: '1', meaning: 'standard deviation; some 0.15 to 0.2', atLeast: 0.001, atMost: 1 },
    { ...SHARE, name: 'transmission', quantity: 'share of the sun’s light on the bench', meaning: 'cover times 1 − shade' },
    { ...LIGHT, name: 'lamps', quantity: 'light per day from the lamps', meaning: 'maintained, on the same day' },
    { ...LIGHT, name: 'target', quantity: 'light per day wanted', meaning: 'the crop’s daily light' },
    MOL_PER_MJ_PARAM,
  ],
  returns: { quantity: 'share of the days', unit: '1' },
  source: `${FAO}, eq. 21; ${MOL_PER_MJ_SOURCE}; normal spread of the daily clearness: our own simplification, no published source`,
  examples: [
    { formula: 'DULL.DAYS(45,15,0.42,0.18,0.6256,7.553,14)', gives: 0.5, within: 2e-3 },
    { formula: 'DULL.DAYS(45,15,0.42,0.18,0.6256,14,14)', gives: 0 },
  ],
  work: ([latitude, day, clearness, spread, transmission, lamps, target, molPerMj], show) => {
    if (lamps >= target) {
      show?.note('The lamps alone reach the target.');
      show?.expression('share of the days that miss', '0', 0, '1');
      return 0;
    }
    const brightest = sunTop(latitude, day) * molPerMj * transmission;
    show?.note('Daily clearness is taken as normally spread about its mean.');
    if (brightest < 1e-9) {
      show?.note('There is no sun on this day.');
      show?.expression('share of the days that miss', '1', 1, '1');
      return 1;
    }
    const needed = (target - lamps) / brightest;
    const z = (needed - clearness) / spread;
    const value = normalBelow(z);
    if (show) {
      show.expression('clearness needed', calc`(${target} - ${lamps}) / ${brightest}`, needed, '1');
      show.expression('in spreads from the mean', calc`(${needed} - ${clearness}) / ${spread}`, z, '1');
      show.expression('share of the days below it', calc`(1 + erf(${z} / sqrt(2))) / 2`, value, '1');
    }
    return value;
  },
});
