import { define, isRefusal } from '../define.ts';
import { CROP, CROP_SOURCE, CROPS, type CropRow, cropRow, STAGE } from './crop-table.ts';

/** Whether the row says only what a trial tested: such a range has no middle to aim at. */
export function onlyTried(row: CropRow): boolean {
  const sure = row.at('how sure');
  return typeof sure === 'string' && sure.includes('range tested only');
}

export const CROP_TRIED = define({
  name: 'CROP.TRIED',
  family: 'Crop',
  summary: 'Whether a crop is known at a stage only from trials.',
  use: 'TRUE where the row’s “how sure” says “range tested only”: somebody grew it so, nobody recommends it. CHECK.BAND says so, and CROP.DLI then gives no aim.',
  formula: '“how sure” of the row has “range tested only”',
  params: [CROPS, CROP, STAGE],
  returns: { quantity: 'whether only a range was tried', unit: 'yes or no' },
  source: CROP_SOURCE,
  examples: [
    { formula: 'CROP.TRIED({"crop","stage","how sure";"basil","indoor","read in the source; range tested only"},"basil","indoor")', gives: true },
    { formula: 'CROP.TRIED({"crop","stage","how sure";"basil","indoor","read in the source"},"basil","indoor")', gives: false },
  ],
  work: ([crops, crop, stage], show) => {
    const row = cropRow('CROP.TRIED', crops, crop, stage);
    if (isRefusal(row)) return row;
    const sure = row.at('how sure');
    if (isRefusal(sure)) return sure;
    show?.note(sure === null ? 'the row does not say how sure it is' : `how sure the row is: ${sure}`);
    return onlyTried(row);
  },
});
