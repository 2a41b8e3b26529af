/** What is usual where a client is: it is chosen once when a plan is begun, and stands in cells of the book like any other answer. */
import { readContent } from '../../functions/quantity-text.ts';
import { wireArea } from '../../functions/wire-gauge.ts';
import type { At } from './address.ts';
import type { Book } from './book.ts';
import { type Paper, paperOf, type Wires } from './customs.ts';
import { placeOf, rangeOf } from './look-up.ts';

export const WIRES = ['mm²', 'AWG'] as const satisfies readonly Wires[];
export const PAPERS = ['A4', 'letter'] as const satisfies readonly Paper[];
export const MEASURES = ['metric', 'US customary'] as const;

export interface Habits {
  readonly measures: Book['measures'];
  /** A code of ISO 4217. */
  readonly currency: string;
  /** V. */
  readonly mains: number;
  /** Sizes of breakers there are, in A, from the smallest on. */
  readonly breakers: readonly number[];
  /** How cable is marked. */
  readonly wires: Wires;
  readonly paper: Paper;
}

/** The names of the cells in which they stand, where a book has them. */
export const HABIT_CELLS = {
  mains: 'mains_volts',
  breaker: 'breaker',
  assumedBreaker: 'breaker_assumed',
  gauge: 'wire_gauge',
  area: 'wire_area',
} as const;

/** What `wire_gauge` says where the area counts. */
export const BY_AREA = 'by area';

/** What the book says of them. What it has no cell for is left out. */
export function habitsOf(book: Book): Partial<Habits> & Pick<Habits, 'measures' | 'currency' | 'paper'> {
  const mains = amount(book, placeOf(book, HABIT_CELLS.mains));
  const breakers = sizesOf(book);
  const gauge = contentOf(placeOf(book, HABIT_CELLS.gauge));
  return {
    measures: book.measures,
    currency: book.currency,
    paper: paperOf(book),
    ...(mains === undefined ? {} : { mains }),
    ...(breakers === undefined ? {} : { breakers }),
    ...(gauge === undefined ? {} : { wires: gauge === BY_AREA ? 'mm²' : 'AWG' }),
  };
}

const contentOf = (at: At | undefined): string | undefined => at?.cell?.content;

function amount(book: Book, at: At | undefined): number | undefined {
  const read = at && readContent(at.cell?.content ?? '', book.currency);
  return read?.kind === 'number' ? Number(read.base.toPrecision(12)) : undefined;
}

/** A, as they are offered where the breaker is asked for. */
function sizesOf(book: Book): readonly number[] | undefined {
  const at = placeOf(book, HABIT_CELLS.breaker);
  const offered = at && rangeOf(at)?.oneOf;
  return offered?.flatMap((text) => {
    const read = readContent(text, book.currency);
    return read.kind === 'number' ? [Number(read.base.toPrecision(12))] : [];
  });
}

/** `10, 16 and 20 A` → 10, 16, 20. Undefined where something else stands among them, or none does. */
export function breakersIn(text: string): readonly number[] | undefined {
  const found = text.split(/[\s,;]+|\band\b/u).filter((word) => word !== '' && !/^a$/iu.test(word));
  const sizes = found.map((word) => Number(word.replace(/a$/iu, '')));
  if (sizes.length === 0 || sizes.some((size) => !(size >= 1 && size <= 125))) return undefined;
  return [...new Set(sizes)].sort((a, b) => a - b);
}

/** Where nobody has asked yet: the largest there is that is no larger than what the template takes, so that no wire is asked to carry more. */
export const meantBreaker = (sizes: readonly number[], usual: number): number | undefined => sizes.filter((size) => size <= usual).at(-1) ?? sizes[0];

/** The thinnest of the gauges that is no thinner than an area in mm²: the largest number. */
export const gaugeFor = (area: number, gauges: readonly number[]): number | undefined =>
  gauges.filter((gauge) => wireArea(gauge) >= area).sort((a, b) => b - a)[0];
