/** The two ends of a band: what CHECK.WITHIN and CHECK.BAND share. */
import { isRefusal, type Refusal, refuse } from '../define.ts';
import { checkAtLeast } from './check-at-least.ts';
import { checkAtMost } from './check-at-most.ts';
import { type Held, heldTo, onAssumption } from './margin.ts';

export interface Ends {
  readonly low: Held;
  readonly high: Held;
}

/** Each end as it is known, else as it is assumed; refused where they stand the wrong way round. */
export function endsOf(name: string, givenLow: unknown, givenHigh: unknown, assumedLow: unknown, assumedHigh: unknown): Ends | Refusal {
  const low = heldTo(name, 'low', givenLow, assumedLow);
  if (isRefusal(low)) return low;
  const high = heldTo(name, 'high', givenHigh, assumedHigh);
  if (isRefusal(high)) return high;
  if (low.limit !== undefined && high.limit !== undefined && low.limit > high.limit) return refuse(`${name}: the low end is above the high end; swap them.`);
  return { low, high };
}

/** A value against the low end, in the words of a band. */
export const atLowEnd = (value: number, low: number, closeWithin = 0): string =>
  checkAtLeast(value, low, closeWithin).replace('the least', 'the low end').replace('a least', 'a low end');

/** A value against the high end, in the words of a band. */
export const atHighEnd = (value: number, high: number): string =>
  checkAtMost(value, high, 0)
    .replace(/(over|under)$/, '$1 the high end')
    .replace('at the limit', 'at the high end');

/** The text of a check with what was assumed of its ends. What is not known yet says only that. */
export function worded(text: string, { low, high }: Ends, what: string | undefined): string {
  if (text.startsWith('unknown') || (!low.assumed && !high.assumed)) return text;
  return onAssumption(text, low.assumed && high.assumed ? 'both ends' : low.assumed ? 'low end' : 'high end', what);
}
