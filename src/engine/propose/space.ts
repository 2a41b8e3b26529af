/** All arrangements that are tried, in their listed order: fixtures, along, across, turned, spreads, heights. Nothing is kept of them but their number. */
import { readContent } from '../../../functions/quantity-text.ts';
import { fromBase, need } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import { choicesOf } from '../../book/allowed.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, placeOf, rangeOf, titleOf } from '../../book/look-up.ts';
import type { Address, Value } from '../types.ts';
import type { Anatomy, Part } from './anatomy.ts';
import type { Choices, Span } from './types.ts';

/** A height as it is written into its cell, and in m. */
export interface Height {
  readonly content: string;
  readonly metres: number;
}

export interface Space {
  readonly fixtures: readonly string[];
  readonly along: readonly number[];
  readonly across: readonly number[];
  readonly turned: readonly boolean[];
  readonly spreadAlong: readonly string[];
  readonly spreadAcross: readonly string[];
  readonly heights: readonly Height[];
  readonly supplies: readonly string[];
  readonly fuses: readonly string[];
  /** Between two heights, in m, and where it gets finer near the best. */
  readonly step: number;
  readonly fine: number;
  /** Of everything but heights. */
  readonly arrangements: number;
  readonly layouts: number;
}

/** What of an arrangement can be told before it is known how high it hangs. */
export interface Arrangement {
  readonly place: number;
  readonly fixture: string;
  readonly along: number;
  readonly across: number;
  readonly turned: boolean;
  readonly spreadAlong: string;
  readonly spreadAcross: string;
}

type ValueOf = (address: Address) => Value | undefined;

const MOST_ROWS = 12;
const INCH = 0.0254;
/** Steps between heights, in m: by 5 cm and near the best by 1 cm; in a book in feet and inches by 2 in and ½ in. */
const STEPS = { metric: { step: 0.05, fine: 0.01 }, 'US customary': { step: 2 * INCH, fine: INCH / 2 } } as const;
/** Where nothing says how high is too high. */
const HIGHEST = 3;
/** Of a book whose limits lie far apart. */
const MOST_HEIGHTS = 400;

export function spaceOf(book: Book, anatomy: Anatomy, told: ValueOf, choices: Choices): Space | string {
  const { parts } = anatomy;
  const listed = (part: Part, wanted: readonly string[] | undefined): readonly string[] | string => listOf(book, parts[part], wanted);
  const [fixtures, supplies, fuses] = [listed('fixture', choices.fixtures), listed('supply', choices.supplies), listed('fuse', choices.fuses)];
  for (const list of [fixtures, supplies, fuses]) if (typeof list === 'string') return list;
  const along = rows(parts.along, choices.along);
  const across = rows(parts.across, choices.across);
  const turned = parts.turned ? { either: [false, true], yes: [true], no: [false] }[choices.turned ?? 'either'] : [false];
  const spreads = (part: Part, wanted: readonly string[] | undefined): readonly string[] => (parts[part] ? (wanted ?? [ownContent(parts[part])]) : ['']);
  const spreadAlong = spreads('spread_along', choices.spreadAlong);
  const spreadAcross = spreads('spread_across', choices.spreadAcross);
  const { step, fine } = STEPS[book.measures];
  const heights = heightsOf(book, anatomy, told, choices);
  if (typeof heights === 'string') return heights;
  if (heights.length === 0) return 'No height lies between the lowest and the highest at which a light may hang.';
  const arrangements = fixtures.length * along.length * across.length * turned.length * spreadAlong.length * spreadAcross.length;
  if (arrangements * heights.length === 0) return 'With these choices nothing is left to try.';
  return {
    fixtures: fixtures as readonly string[],
    along,
    across,
    turned,
    spreadAlong,
    spreadAcross,
    heights,
    supplies: supplies as readonly string[],
    fuses: fuses as readonly string[],
    step: choices.heights?.step ?? step,
    fine,
    arrangements,
    layouts: arrangements * heights.length,
  };
}

export function arrangementAt(space: Space, place: number): Arrangement {
  let rest = place;
  const pick = <T>(list: readonly T[]): T => {
    const found = list[rest % list.length] as T;
    rest = Math.floor(rest / list.length);
    return found;
  };
  const spreadAcross = pick(space.spreadAcross);
  const spreadAlong = pick(space.spreadAlong);
  const turned = pick(space.turned);
  const across = pick(space.across);
  const along = pick(space.along);
  return { place, fixture: pick(space.fixtures), along, across, turned, spreadAlong, spreadAcross };
}

const ownContent = (at: At | undefined): string => at?.cell?.content ?? '';

/** The choices of a given, or those of them that are wanted; nothing where the book has no such row. */
function listOf(book: Book, at: At | undefined, wanted: readonly string[] | undefined): readonly string[] | string {
  if (!at) return [''];
  const range = rangeOf(at);
  const offered = (range && choicesOf(book, at, range)) ?? [ownContent(at)];
  if (!wanted) return offered;
  const open = range?.low !== undefined || range?.high !== undefined;
  const strange = wanted.find((one) => !open && !offered.some((other) => other.toLowerCase() === one.toLowerCase()));
  if (strange !== undefined) return `${titleOf(at)}: “${strange}” is not one of the choices.`;
  // In the order of the list, whatever the order in which they were said: ties take the first.
  return open ? wanted : offered.filter((other) => wanted.some((one) => one.toLowerCase() === other.toLowerCase()));
}

function rows(at: At | undefined, wanted: Span | undefined): readonly number[] {
  if (!at) return [1];
  const range = rangeOf(at);
  const low = Math.max(1, Math.ceil(range?.low ?? 1), Math.ceil(wanted?.low ?? 1));
  const high = Math.min(Math.floor(range?.high ?? MOST_ROWS), Math.floor(wanted?.high ?? MOST_ROWS));
  return Array.from({ length: Math.max(0, high - low + 1) }, (_, i) => low + i);
}

/** Whole multiples of the step between the limits, and the limits themselves. */
function heightsOf(book: Book, { parts }: Anatomy, told: ValueOf, choices: Choices): readonly Height[] | string {
  const at = parts.height;
  if (!at) return [{ content: '', metres: Number.NaN }];
  const limit = (name: string): number | undefined => {
    const place = placeOf(book, name);
    const value = place && told(addressOf(place));
    return value?.kind === 'number' ? value.base : undefined;
  };
  const range = rangeOf(at);
  const inMetres = (number: number | undefined): number | undefined => (number === undefined ? undefined : readMetres(`${number} ${range?.unit ?? 'm'}`));
  const hangs = at.row.id === 'height';
  const least = inMetres(range?.low) ?? 0;
  const most = inMetres(range?.high) ?? HIGHEST;
  const low = Math.max(least, choices.heights?.low ?? (hangs ? limit('lowest_mount') : 0) ?? least);
  const found = choices.heights?.high ?? (hangs ? (limit('highest_mount') ?? limit('lift_top')) : limit('tier_gap'));
  const high = Math.min(most, found ?? low + HIGHEST);
  const step = choices.heights?.step ?? STEPS[book.measures].step;
  if (!(step > 0) || (high - low) / step > MOST_HEIGHTS) return `${titleOf(at)}: these are more than ${MOST_HEIGHTS} heights; say a wider step.`;
  return stepped(low, high, step).map((metres) => heightOf(book, metres));
}

/** A bit of a micrometre is no other height. */
const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-7;

export function stepped(low: number, high: number, step: number): readonly number[] {
  if (high < low && !same(high, low)) return [];
  const found = [low];
  for (let n = Math.floor(low / step) + 1; n * step < high && !same(n * step, high); n++) if (!same(n * step, low)) found.push(n * step);
  if (!same(low, high)) found.push(high);
  return found;
}

/** As it is written in a book with these measures; the value is that of what is written. */
export function heightOf(book: Book, metres: number): Height {
  const symbol = book.measures === 'metric' ? 'm' : 'in';
  const content = `${Number(fromBase(metres, need(symbol)).toFixed(9))} ${symbol}`;
  return { content, metres: readMetres(content) ?? metres };
}

function readMetres(content: string): number | undefined {
  const read = readContent(content);
  return read.kind === 'number' ? read.base : undefined;
}
