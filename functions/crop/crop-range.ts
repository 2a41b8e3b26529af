/** Low, aim and high of a crop's row: what CROP.DLI, CROP.PPFD and CROP.HOURS share. */
import { say } from '../check-args.ts';
import type { CropHeading } from '../data/crops.ts';
import { calc, isRefusal, type Refusal, refuse, type Show } from '../define.ts';
import { type CropRow, cropNumber } from './crop-table.ts';
import { onlyTried } from './crop-tried.ts';

/** What a look-up gives where the table has a blank: a text that no check takes for a limit that holds. */
export const UNKNOWN = 'unknown';

/** What a look-up gives for the high end of a row that names a low one alone: the source says at least so much, and no more. */
export const NO_HIGH_END = 'no high end';

export function cropRange(
  name: string,
  row: CropRow,
  [lowHeading, highHeading]: readonly [CropHeading, CropHeading],
  which: string,
  slack: number,
  unit: string,
  show: Show | undefined,
): number | string | Refusal {
  const low = cropNumber(row, lowHeading);
  if (isRefusal(low)) return low;
  const high = cropNumber(row, highHeading);
  if (isRefusal(high)) return high;
  if (which !== 'aim') {
    const end = which === 'low' ? low : high;
    if (end === null) {
      show?.note(`the table has no “${which === 'low' ? lowHeading : highHeading}” for this row`);
      return which === 'high' && low !== null ? NO_HIGH_END : UNKNOWN;
    }
    if (low === high && slack > 0) {
      const ends = { low: end * (1 - slack), high: end * (1 + slack) };
      const value = which === 'low' ? ends.low : ends.high;
      const text = which === 'low' ? calc`${end} * (1 - ${slack})` : calc`${end} * (1 + ${slack})`;
      show?.note('the row has one figure: how far a plan may differ from it is a choice, not the source’s');
      show?.expression(`one figure, ${which === 'low' ? 'less' : 'more'} the share allowed`, text, value, unit);
      tellSource(row, show);
      return value;
    }
    show?.expression(`“${which === 'low' ? lowHeading : highHeading}” of the row`, calc`${end}`, end, unit);
    tellSource(row, show);
    return end;
  }
  if (onlyTried(row)) {
    const tested = low === null || high === null ? '' : ` (${say(low)} to ${say(high)} ${unit})`;
    return refuse(`${name}: this row says only what a trial tested${tested}, not what to aim at. Choose a value yourself, or ask for “low” or “high”.`);
  }
  if (low === null && high === null) return refuse(`${name}: the table has neither “${lowHeading}” nor “${highHeading}” for this row.`);
  if (low !== null && high === null && slack > 0) {
    const value = low * (1 + slack);
    show?.note('the row has a low end alone: how far above it to aim is a choice, not the source’s');
    show?.expression('low end, more the share allowed', calc`${low} * (1 + ${slack})`, value, unit);
    tellSource(row, show);
    return value;
  }
  if (low === null || high === null) {
    const only = low ?? high ?? 0;
    show?.expression('the only bound that the row has', calc`${only}`, only, unit);
    tellSource(row, show);
    return only;
  }
  const value = (low + high) / 2;
  show?.expression('middle of the row’s range', calc`(${low} + ${high}) / 2`, value, unit);
  tellSource(row, show);
  return value;
}

export function tellSource(row: CropRow, show: Show | undefined): void {
  if (!show) return;
  const [source, sure] = [row.at('source'), row.at('how sure')];
  if (typeof source === 'string') show.note(`source: ${source}${typeof sure === 'string' ? ` (${sure})` : ''}`);
}
