import type { CropHeading } from '../data/crops.ts';
import { type Cells, calc, define, isRefusal, type Refusal, type Show } from '../define.ts';
import { tellSource, UNKNOWN } from './crop-range.ts';
import { CROP, CROP_SOURCE, CROPS, cropNumber, cropRow, STAGE } from './crop-table.ts';

const USE = 'A look-up into the book’s own table, which you may edit. A blank limit gives “unknown”: no check takes that as holding.';

function limit(
  name: string,
  [crops, crop, stage]: readonly [Cells, string, string],
  heading: CropHeading,
  unit: string,
  show?: Show,
): number | string | Refusal {
  const row = cropRow(name, crops, crop, stage);
  if (isRefusal(row)) return row;
  const value = cropNumber(row, heading);
  if (isRefusal(value)) return value;
  if (value === null) {
    show?.note(`the table has no “${heading}” for this row`);
    return UNKNOWN;
  }
  show?.expression(`“${heading}” of the row`, calc`${value}`, value, unit);
  tellSource(row, show);
  return value;
}

export const CROP_HOURS_LIMIT = define({
  name: 'CROP.HOURS.LIMIT',
  family: 'Crop',
  summary: 'Most hours of light a day that a crop can take at a stage.',
  use: USE,
  formula: 'hours limit of the row',
  params: [CROPS, CROP, STAGE],
  returns: { quantity: 'photoperiod', unit: 'h/d' },
  source: CROP_SOURCE,
  examples: [
    { formula: 'CROP.HOURS.LIMIT({"crop","stage","hours limit";"tomato","fruiting",64800},"tomato","fruiting")', gives: 18 },
    { formula: 'CROP.HOURS.LIMIT({"crop","stage","hours limit";"basil","indoor",""},"basil","indoor")', gives: 'unknown' },
  ],
  work: (args, show) => limit('CROP.HOURS.LIMIT', args, 'hours limit', 'h/d', show),
});

export const CROP_PPFD_LIMIT = define({
  name: 'CROP.PPFD.LIMIT',
  family: 'Crop',
  summary: 'Most PPFD on the leaves that a crop can take at a stage.',
  use: USE,
  formula: 'PPFD limit of the row',
  params: [CROPS, CROP, STAGE],
  returns: { quantity: 'light on the leaves (PPFD)', unit: 'µmol/m²/s' },
  source: CROP_SOURCE,
  examples: [{ formula: 'CROP.PPFD.LIMIT({"crop","stage","PPFD limit";"basil","indoor",0.0005},"basil","indoor")', gives: 500 }],
  work: (args, show) => limit('CROP.PPFD.LIMIT', args, 'PPFD limit', 'µmol/m²/s', show),
});

export const CROP_DAY_LENGTH = define({
  name: 'CROP.DAY.LENGTH',
  family: 'Crop',
  summary: 'Day-length response of a crop: short, long or neutral.',
  use: USE,
  formula: 'day length of the row',
  params: [CROPS, CROP, STAGE],
  returns: { quantity: 'kind of crop by day length', unit: 'text' },
  source: CROP_SOURCE,
  examples: [{ formula: 'CROP.DAY.LENGTH({"crop","stage","day length";"basil","indoor","neutral"},"basil","indoor")', gives: 'neutral' }],
  work: ([crops, crop, stage], show) => {
    const row = cropRow('CROP.DAY.LENGTH', crops, crop, stage);
    if (isRefusal(row)) return row;
    const cell = row.at('day length');
    if (isRefusal(cell)) return cell;
    show?.note(cell === null ? 'the table has no “day length” for this row' : `day length of the row: ${cell}`);
    tellSource(row, show);
    return cell === null ? UNKNOWN : String(cell);
  },
});
