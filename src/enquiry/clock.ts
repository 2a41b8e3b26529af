/**
 * Hours by the clock: `from 6 to 22`, `6 am to 10 pm`, `11:00-23:00`, `half past five until half nine at night`, `off at 16:30 and on at 6:30`, `dark between
 * midnight and 6`; and hours on beside hours off, `18/6`.
 */
import { overlaps } from './sentences.ts';

export interface ByClock {
  readonly from: number;
  readonly to: number;
  /** Hours after midnight; one of them may be all that is said. */
  readonly on?: number;
  readonly off?: number;
  /** Why it is to be asked. */
  readonly ask?: string;
}

const WORDS = 'one two three four five six seven eight nine ten eleven twelve'.split(' ');
const NUMBER = new Map(WORDS.map((word, i) => [word, i + 1] as const));
const HALF = "(?: ?(a\\.?m\\.?|p\\.?m\\.?)(?!\\p{L})|(?: ?o'?clock)?(?: (in the morning|in the evening|in the afternoon|at night))?)?";
/** Groups: word, half or quarter before, hour, minutes, half of the day in letters or in words. */
const TIME = `(?:(noon|midnight|midday)|(half past |half |quarter past |quarter to )?(\\d{1,2}|${WORDS.join('|')})(?![\\p{L}]*teen|ty)(?:[:.h](\\d\\d)(?!\\d))?(?: ?h(?:rs|ours)?(?!\\p{L}))?${HALF})`;
const GROUPS = 6;
const SPAN = new RegExp(
  `((?:off|out|dark|no lights?)(?: from| between)? |from |between )?(?<![\\p{L}\\d.,:/])${TIME} ?(?:-|to|till?|until|and|through) ?${TIME}(?![\\d.,:]*\\d)`,
  'gu',
);
const SWITCH = new RegExp(`(?<!\\p{L})(on|off|out)(?!\\p{L}|ly)[^\\d.;:\\n]{0,26}?(?<!\\p{L})(?:at|by|from|around) ${TIME}(?![\\d.,:]*\\d)`, 'gu');
const LIT = /light|lamp|lit(?!\p{L})|leds?|photoperiod|run|burn|on(?!\p{L})|switch|open|timer|hours?|dark|off/u;
/** A number that follows is of something else. */
const UNITS_AFTER =
  /^ ?(?:%|°|µ|u?mol|w(?!\p{L})|watts?|k?lux|mm|cm|m(?!\p{L})|ft|feet|foot|in(?!\p{L})|inch|"|'|v(?!\p{L})|amps?|weeks?|days?|months?|years?|k|hours?|hrs?|h(?!\p{L})|plants?|trays?|shel|of(?!f)|x)/u;
const LIGHTS = /light|lamp|lit(?!\p{L})|leds?|timer|they|them|it(?!\p{L})|go(?!\p{L})|come|switch/u;

type Part = readonly (string | undefined)[];

function timeOf([word, before, hour, minutes, letters, words]: Part): number | undefined {
  if (word !== undefined) return word === 'midnight' ? 0 : 12;
  const number = NUMBER.get(hour ?? '') ?? Number(hour);
  if (number > 24 || Number(minutes ?? 0) > 59) return undefined;
  const late = letters?.startsWith('p') || (words !== undefined && words !== 'in the morning');
  const early = letters?.startsWith('a') || words === 'in the morning';
  const past = before === undefined ? 0 : before.startsWith('half') ? 0.5 : before === 'quarter to ' ? -0.25 : 0.25;
  return (late && number < 12 ? number + 12 : early && number === 12 ? 0 : number) + Number(minutes ?? 0) / 60 + past;
}

const isPlain = ([word, before, , minutes, letters, words]: Part): boolean => [word, before, minutes, letters, words].every((part) => part === undefined);

const DOUBT = 'Are these the hours of the lights?';

export function byClock(text: string): readonly ByClock[] {
  const spans = spansIn(text);
  const isKnown = overlaps(spans);
  const switches = Array.from(text.matchAll(SWITCH)).flatMap((hit) => {
    const time = timeOf(hit.slice(2, 2 + GROUPS));
    const one = { from: hit.index, to: hit.index + hit[0].trimEnd().length, on: hit[1] === 'on', time: time ?? 0 };
    const about = text.slice(Math.max(0, one.from - 60), one.to);
    return time === undefined || isKnown(one) || !LIGHTS.test(about) || UNITS_AFTER.test(text.slice(one.to, one.to + 8)) ? [] : [one];
  });
  const [ons, offs] = [switches.filter(({ on }) => on), switches.filter(({ on }) => !on)];
  const made: ByClock[] = [];
  const [on, off] = [ons[0], offs[0]];
  if (on && off && ons.length === 1 && offs.length === 1 && Math.abs(on.from - off.from) < 200) {
    // `off at ten` is in the evening where the lights go on before.
    const late = off.time <= on.time && off.time <= 12 ? off.time + 12 : off.time;
    made.push({ from: Math.min(on.from, off.from), to: Math.max(on.to, off.to), on: on.time, off: late });
  } else for (const { from, to, on: isOn, time } of switches) made.push({ from, to, ...(isOn ? { on: time } : { off: time <= 12 ? time + 12 : time }) });
  return [...spans, ...made].sort((a, b) => a.from - b.from);
}

function spansIn(text: string): readonly ByClock[] {
  const found: ByClock[] = [];
  for (const hit of text.matchAll(SPAN)) {
    const [first, second] = [hit.slice(2, 2 + GROUPS), hit.slice(2 + GROUPS, 2 + 2 * GROUPS)];
    const [from, to] = [hit.index, hit.index + hit[0].trimEnd().length];
    const lit = LIT.test(text.slice(Math.max(0, from - 60), to + 30));
    const plain = isPlain(first) && isPlain(second);
    const inWords = NUMBER.has(first[2] ?? '') && NUMBER.has(second[2] ?? '');
    const dark = /^(?:off|out|dark|no)/u.test(hit[1] ?? '');
    const led = hit[1] !== undefined;
    // `6 to 22` is a span of hours only where it is said to be one of lights.
    if ((plain && !(lit && (led || (inWords && hit[0].includes(' to '))))) || (isPlain(second) && UNITS_AFTER.test(text.slice(to, to + 8)))) continue;
    let [on, off] = [timeOf(first), timeOf(second)];
    if (on === undefined || off === undefined || on === off) continue;
    if (plain && inWords && off < on) off += 12;
    // `6 to 10 pm` may begin in the evening too.
    const shared = isPlain(first) && (second[4]?.startsWith('p') || second[5] !== undefined);
    if (shared && on < 12 && on + 12 < off && !lit) on += 12;
    if (off === 0) off = 24;
    found.push({ from, to, ...(dark ? { on: off % 24, off: on === 0 ? 24 : on } : { on, off }), ...(lit && !shared ? {} : { ask: DOUBT }) });
  }
  return found;
}

export const hoursOf = (on: number, off: number): number => (off > on ? off - on : off - on + 24);

const CYCLE = /(?<![\d.,/])(\d{1,2})\s?\/\s?(\d{1,2})(?![\d.,/]*\d)/gu;
const ALL_DAY = /(?<!\p{L})(?:day and night|night and day|(?:a)?round the clock|24\/7|24-7)(?!\p{L})/gu;

/** `18/6`: so many hours on and off, which make a day; `day and night`. */
export function cycles(text: string): readonly { readonly from: number; readonly to: number; readonly hours: number }[] {
  const turns = Array.from(text.matchAll(CYCLE))
    .filter(([, on, off]) => Number(on) + Number(off) === 24)
    .map((hit) => ({ from: hit.index, to: hit.index + hit[0].length, hours: Number(hit[1]) }));
  const always = Array.from(text.matchAll(ALL_DAY), (hit) => ({ from: hit.index, to: hit.index + hit[0].length, hours: 24 }));
  return [...turns, ...always].sort((a, b) => a.from - b.from);
}
