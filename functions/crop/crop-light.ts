import { define, isRefusal } from '../define.ts';
import { cropRange } from './crop-range.ts';
import { CROP, CROP_SOURCE, CROPS, cropRow, SLACK, STAGE, WHICH } from './crop-table.ts';

const USE =
  'A look-up into the book’s own table, which you may edit. “aim” is the middle of the range, or its only bound, a low one with the slack added; a row that a trial only tested has no aim. A blank gives “unknown”, the high end of a row with a low one alone “no high end”.';
/** A row as examples write it: DLI in mol/m²/d, PPFD in mol/m²/s and hours in s/d, the base units of a table. */
const TABLE =
  '{"crop","stage","PPFD low","PPFD high","DLI low","DLI high","hours low","hours high","how sure";"basil","indoor",0.0002,0.0003,12,18,50400,57600,"invented"}';

export const CROP_DLI = define({
  name: 'CROP.DLI',
  family: 'Crop',
  summary: 'Light per day that a crop wants at a stage.',
  use: USE,
  formula: 'low, (low + high) / 2, or high; of one figure: figure × (1 − slack) and figure × (1 + slack); aim of a low end alone: low × (1 + slack)',
  params: [CROPS, CROP, STAGE, WHICH, SLACK],
  returns: { quantity: 'light per day (DLI)', unit: 'mol/m²/d' },
  source: CROP_SOURCE,
  examples: [
    { formula: `CROP.DLI(${TABLE},"basil","indoor")`, gives: 15 },
    { formula: `CROP.DLI(${TABLE},"basil","indoor","low")`, gives: 12 },
    { formula: `CROP.DLI(${TABLE.replace('12,18', '15,15')},"basil","indoor","low",0.1)`, gives: 13.5 },
  ],
  work: ([crops, crop, stage, which, slack], show) => {
    const row = cropRow('CROP.DLI', crops, crop, stage);
    return isRefusal(row) ? row : cropRange('CROP.DLI', row, ['DLI low', 'DLI high'], which, slack, 'mol/m²/d', show);
  },
});

export const CROP_PPFD = define({
  name: 'CROP.PPFD',
  family: 'Crop',
  summary: 'Light on the leaves (PPFD) that a crop wants at a stage.',
  use: USE,
  formula: 'low, (low + high) / 2, or high; of one figure: figure × (1 − slack) and figure × (1 + slack); aim of a low end alone: low × (1 + slack)',
  params: [CROPS, CROP, STAGE, WHICH, SLACK],
  returns: { quantity: 'light on the leaves (PPFD)', unit: 'µmol/m²/s' },
  source: CROP_SOURCE,
  examples: [{ formula: `CROP.PPFD(${TABLE},"basil","indoor")`, gives: 250 }],
  work: ([crops, crop, stage, which, slack], show) => {
    const row = cropRow('CROP.PPFD', crops, crop, stage);
    return isRefusal(row) ? row : cropRange('CROP.PPFD', row, ['PPFD low', 'PPFD high'], which, slack, 'µmol/m²/s', show);
  },
});

export const CROP_HOURS = define({
  name: 'CROP.HOURS',
  family: 'Crop',
  summary: 'Hours of light a day that a crop wants at a stage.',
  use: USE,
  formula: '(low + high) / 2',
  params: [CROPS, CROP, STAGE],
  returns: { quantity: 'photoperiod', unit: 'h/d' },
  source: CROP_SOURCE,
  examples: [{ formula: `CROP.HOURS(${TABLE},"basil","indoor")`, gives: 15 }],
  work: ([crops, crop, stage], show) => {
    const row = cropRow('CROP.HOURS', crops, crop, stage);
    return isRefusal(row) ? row : cropRange('CROP.HOURS', row, ['hours low', 'hours high'], 'aim', 0, 'h/d', show);
  },
});
