/** The unbroken night of each month that is grown in: what NIGHT.SHORTEST and NIGHT.LONGEST share. Hours are those of the sun: 12 is when it stands highest. */
import { say } from '../check-args.ts';
import { CLOCK } from '../day/params.ts';
import { type Cells, calc, type Refusal, refuse, type Show } from '../define.ts';
import { dayLength } from './day-length.ts';
import { MONTHS } from './months.ts';
import { LATITUDE } from './params.ts';

/** A stretch of the clock, from < 24; to may lie past midnight. */
type Stretch = readonly [from: number, to: number];

export interface Night {
  /** 0 for January. */
  readonly month: number;
  /** Length of the day with twilight, h/d. */
  readonly day: number;
  /** The longest stretch without any light; to may lie past midnight. */
  readonly dark: Stretch;
}

export const hoursOf = ({ dark: [from, to] }: Night): number => to - from;

/** From one hour of the clock to another; to the same hour is nothing, from 0 to 24 the whole day. */
const stretch = (from: number, to: number): Stretch => (to < from ? [from, to + 24] : [from, to]);

/** Its pieces within one day. */
const pieces = ([from, to]: Stretch): readonly Stretch[] =>
  from >= 24
    ? pieces([from - 24, to - 24])
    : to <= 24
      ? [[from, to]]
      : [
          [from, 24],
          [0, to - 24],
        ];

/** What is left of a piece of the day outside some others. */
function less(piece: Stretch, others: readonly Stretch[]): readonly Stretch[] {
  let left: Stretch[] = [piece];
  for (const [a, b] of others) {
    left = left
      .flatMap(([from, to]): Stretch[] =>
        b <= a
          ? [[from, to]]
          : [
              [from, Math.min(to, a)],
              [Math.max(from, b), to],
            ],
      )
      .filter(([from, to]) => to > from);
  }
  return left;
}

/** The longest stretch of the clock, round midnight too, in which none of these pieces lies. */
export function longestDark(light: readonly Stretch[]): Stretch {
  const lit = light
    .flatMap(pieces)
    .filter(([from, to]) => to > from)
    .toSorted((a, b) => a[0] - b[0]);
  const [first] = lit;
  if (!first) return [0, 24];
  let best: Stretch = [0, 0];
  let end = first[0];
  for (const [from, to] of [...lit, [first[0] + 24, first[0] + 24] as const]) {
    if (from - end > best[1] - best[0]) best = [end, from];
    end = Math.max(end, to);
  }
  return best;
}

/** Light is lamps, wherever the cloth is, and the sun where it is not drawn. */
function nightOf(month: number, latitude: number, lamps: Stretch, blackout: Stretch): Night {
  const day = dayLength(latitude, MONTHS[month]?.middle ?? 1);
  const sun = pieces([Math.max(12 - day / 2, 0), Math.min(12 + day / 2, 24)]).flatMap((piece) => less(piece, pieces(blackout)));
  return { month, day, dark: longestDark([lamps, ...sun]) };
}

type Given = readonly [latitude: number, months: Cells | undefined, on: number, off: number, from: number | null | undefined, to: number | null | undefined];

/** The nights of all months that are grown in, January first; or why there are none. */
export function nights(name: string, [latitude, months, on, off, from, to]: Given): readonly Night[] | Refusal {
  const cells = months?.flat() ?? MONTHS.map(() => null);
  if (cells.length !== 12) return refuse(`${name}: months holds ${cells.length} cells; twelve are needed, January first, yes or no or blank.`);
  if (typeof from !== typeof to && (typeof from === 'number' || typeof to === 'number'))
    return refuse(`${name}: of the blackout only one hour is given; give both, or leave both blank.`);
  const blackout: Stretch = typeof from === 'number' && typeof to === 'number' ? stretch(from, to) : [0, 0];
  const grown = cells.flatMap((cell, month) => (cell === false ? [] : [month]));
  if (grown.length === 0) return refuse(`${name}: no month is grown in; say yes to one at least.`);
  return grown.map((month) => nightOf(month, latitude, stretch(on, off), blackout));
}

/** The one that decides, by month and with its reckoning. */
export function tellNight(show: Show | undefined, all: readonly Night[], found: Night, which: string): number {
  const value = hoursOf(found);
  if (!show) return value;
  const { name, middle } = MONTHS[found.month] ?? { name: '', middle: 0 };
  show.note(`nights of the months grown in: ${all.map((night) => `${MONTHS[night.month]?.name} ${say(hoursOf(night))} h`).join(', ')}`);
  show.note(`The ${which} is in ${name} (day ${middle} of the year): with twilight the day is ${say(found.day)} h long.`);
  show.expression('from dusk, or the last lamp, to dawn, or the first', calc`${found.dark[1]} - ${found.dark[0]}`, value, 'h/d');
  return value;
}

const HOUR = { ...CLOCK, quantity: 'clock time' } as const;
const CLOTH = { ...HOUR, optional: true, blankAllowed: true } as const;

export const NIGHT_PARAMS = [
  LATITUDE,
  {
    name: 'months',
    quantity: 'months grown in',
    unit: 'yes or no',
    shape: 'range',
    meaning: 'twelve cells, January first; no leaves a month out, a blank counts as yes; all unless said',
    optional: true,
  },
  { ...HOUR, name: 'lamps on', meaning: 'hour when the lamps come on, by the sun: 12 is when it stands highest' },
  { ...HOUR, name: 'lamps off', meaning: 'hour when they go off; the same hour means not at all' },
  { ...CLOTH, name: 'blackout from', meaning: 'hour from which a cloth keeps the sun out; blank where there is none' },
  { ...CLOTH, name: 'blackout to', meaning: 'hour when it is drawn back' },
] as const;
export const NIGHT_USE =
  'The middle of each month stands for it, and twilight counts as light (DAY.LENGTH). A night that a lamp breaks counts by its longer piece. Under a blackout the lamps still light the bench.';
export const NIGHT_SOURCE = 'By definition: 24 h less the union of lamps and day, its longest unbroken piece; DAY.LENGTH for the day';
