/** Round places along a length: multiples of a round number of metres, or of inches and feet as a tape has them. */
import { showNumber } from '../../functions/number-text.ts';
import type { Book } from '../book/book.ts';
import { ticks } from './scale.ts';

export interface LengthTick {
  /** m */
  readonly at: number;
  readonly text: string;
}

/** Inches that a tape is marked by, and whole numbers of feet. */
const STEPS = [1, 2, 3, 6, 12, 24, 36, 48, 60, 120, 240, 360, 600, 1200, 2400, 6000, 12_000];
const INCH = 0.0254;

/** From `from` to `to` m, no more than about `most` of them. In feet each says its own unit; metres are said by whoever draws them. */
export function lengthTicks(from: number, to: number, most: number, measures: Book['measures']): readonly LengthTick[] {
  if (measures === 'metric') return ticks(from, to, most).map((at) => ({ at, text: String(at) }));
  const [first, last] = [from / INCH, to / INCH];
  const step = STEPS.find((inches) => (last - first) / inches <= most * (1 + 1e-9)) ?? 12_000;
  const found: LengthTick[] = [];
  for (let n = Math.ceil(first / step - 1e-9); n * step <= last * (1 + 1e-9); n++) found.push({ at: n * step * INCH, text: onTape(n * step) });
  return found;
}

/** Whole feet stand without their inches. */
function onTape(inches: number): string {
  if (inches === 0) return '0';
  return inches % 12 === 0 ? `${inches / 12}′` : showNumber(inches * INCH, 'ft').text;
}

/** What stands under an axis of lengths: "m along, through the middle". */
export const lengthAxis = (words: string, measures: Book['measures']): string => `${measures === 'metric' ? 'm' : 'feet and inches'}${words}`;
