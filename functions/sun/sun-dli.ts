import { calc, define } from '../define.ts';
import { CLEARNESS, DAY, FAO, LATITUDE, MOL_PER_MJ_PARAM, MOL_PER_MJ_SOURCE } from './params.ts';
import { sunTop } from './sun-top.ts';

export const SUN_DLI = define({
  name: 'SUN.DLI',
  family: 'Sun and greenhouse',
  summary: 'Light per day from the sun, in the open.',
  use: 'A mean for days of that clearness. Under a cover times its transmission, under hung fixtures times 1 − FIXTURE.SHADE.',
  formula: 'SUN.TOP · clearness · mol per MJ',
  params: [LATITUDE, DAY, CLEARNESS, MOL_PER_MJ_PARAM],
  returns: { quantity: 'light per day (DLI)', unit: 'mol/m²/d' },
  source: `${FAO}, eq. 21; ${MOL_PER_MJ_SOURCE}`,
  examples: [{ formula: 'SUN.DLI(45,15,0.42)', gives: 10.305, within: 1e-4 }],
  work: ([latitude, day, clearness, molPerMj], show) => {
    const top = sunTop(latitude, day);
    const value = top * clearness * molPerMj;
    if (show) {
      show.note(`radiation above the air as SUN.TOP gives it: ${Number(top.toPrecision(6))} MJ/m²/d`);
      show.expression('of it through the air, as light', calc`${top} * ${clearness} * ${molPerMj}`, value, 'mol/m²/d');
    }
    return value;
  },
});
