/** Hours by the clock: `from 6 to 22`, `6 am to 10 pm`, `on at 5 and off at 21:30`, `11:00-23:00`; and hours on beside hours off, `18/6`. */

import { overlaps } from './sentences.ts';

export interface ByClock {
  readonly from: number;
  readonly to: number;
  /** Hours after midnight. */
  readonly on: number;
  readonly off: number;
  /** The text does not say that these are the lights. */
  readonly doubtful: boolean;
}

const HALF = "(?: ?(a\\.?m\\.?|p\\.?m\\.?)(?!\\p{L})| ?(?:o'?clock)?(?: (in the morning|in the evening|in the afternoon|at night))?)?";
const TIME = `(?:(noon|midnight|midday)|(\\d{1,2}|${'one two three four five six seven eight nine ten eleven twelve'.split(' ').join('|')})(?:[:.h](\\d\\d)(?!\\d))? ?(?:h(?:rs|ours)?(?!\\p{L}))?${HALF})`;
const SPAN = new RegExp(`(from |between )?(?<![\\p{L}\\d.,:/])${TIME} ?(?:-|to|till?|until|and|through) ?${TIME}(?![\\d.,:]*\\d)`, 'gu');
const SWITCHED = new RegExp(
  `(?<!\\p{L})on(?: again)?(?: at| by| from| around)? ${TIME}[^\\d.;\\n]{1,30}?off(?: again)?(?: at| by| around)? ${TIME}(?![\\d.,:]*\\d)`,
  'gu',
);
const NUMBER = new Map('one two three four five six seven eight nine ten eleven twelve'.split(' ').map((word, i) => [word, i + 1] as const));
const LIT = /light|lamp|lit|leds?|photoperiod|run|burn|on(?!\p{L})|switch|open|timer|hours?/u;
/** A number that follows is of something else. */
const UNITS_AFTER =
  /^ ?(?:%|°|µ|w(?!\p{L})|watts?|k?lux|mm|cm|m(?!\p{L})|ft|feet|foot|in(?!\p{L})|inch|"|'|v(?!\p{L})|amps?|weeks?|days?|months?|years?|k|hours?|hrs?|h(?!\p{L})|plants?|trays?|shel|of|x)/u;

/** Starts from the part of a match with a time: word, hour, minutes, half of the day by letters or in words. */
function timeOf([word, hour, minutes, letters, words]: readonly (string | undefined)[]): number | undefined {
  if (word !== undefined) return word === 'midnight' ? 0 : 12;
  const number = NUMBER.get(hour ?? '') ?? Number(hour);
  const late = letters?.startsWith('p') || (words !== undefined && words !== 'in the morning');
  const early = letters?.startsWith('a') || words === 'in the morning';
  const hours = (late && number < 12 ? number + 12 : early && number === 12 ? 0 : number) + Number(minutes ?? 0) / 60;
  return number > 24 || Number(minutes ?? 0) > 59 ? undefined : hours;
}

const isPlain = ([word, , minutes, letters, words]: readonly (string | undefined)[]): boolean =>
  word === undefined && minutes === undefined && letters === undefined && words === undefined;

export function byClock(text: string): readonly ByClock[] {
  const found: ByClock[] = [];
  for (const hit of text.matchAll(SWITCHED)) {
    const [on, off] = [timeOf(hit.slice(1, 6)), timeOf(hit.slice(6, 11))];
    if (on !== undefined && off !== undefined) found.push({ from: hit.index, to: hit.index + hit[0].length, on, off, doubtful: false });
  }
  const isKnown = overlaps([...found]);
  for (const hit of text.matchAll(SPAN)) {
    const [first, second] = [hit.slice(2, 7), hit.slice(7, 12)];
    const [from, to] = [hit.index, hit.index + hit[0].trimEnd().length];
    if (isKnown({ from, to })) continue;
    const around = text.slice(Math.max(0, from - 60), to + 30);
    const lit = LIT.test(around);
    // `6 to 22` is a span of hours only where it is said to be one of lights.
    const [plain, tail] = [isPlain(first) && isPlain(second), text.slice(to, to + 8)];
    if ((plain && (hit[1] !== 'from ' || !lit)) || (isPlain(second) && UNITS_AFTER.test(tail))) continue;
    let [on, off] = [timeOf(first), timeOf(second)];
    if (on === undefined || off === undefined || on === off) continue;
    // `6 to 10 pm` begins in the evening too, unless that leaves nothing of the night: it is asked.
    const shared = isPlain(first) && second[3] !== undefined;
    if (shared && second[3]?.startsWith('p') && on < 12 && on + 12 < off && !lit) on += 12;
    if (off === 0) off = 24;
    found.push({ from, to, on, off, doubtful: !lit || shared });
  }
  return found.sort((a, b) => a.from - b.from);
}

export const hoursOf = ({ on, off }: { readonly on: number; readonly off: number }): number => (off > on ? off - on : off - on + 24);

const CYCLE = /(?<![\d.,/])(\d{1,2})\s?\/\s?(\d{1,2})(?![\d.,/]*\d)/gu;

/** `18/6`: so many hours on and off, which make a day. */
export const cycles = (text: string): readonly { readonly from: number; readonly to: number; readonly hours: number }[] =>
  Array.from(text.matchAll(CYCLE))
    .filter(([, on, off]) => Number(on) + Number(off) === 24)
    .map((hit) => ({ from: hit.index, to: hit.index + hit[0].length, hours: Number(hit[1]) }));
