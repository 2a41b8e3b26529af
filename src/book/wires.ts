/** The wires that a book lists where it calls them by their gauge: a list of areas is one of metric sizes. */
import { CORD_GAUGES, wireArea } from '../../functions/wire-gauge.ts';
import type { At } from './address.ts';
import type { Book, Range } from './book.ts';
import { wiresOf } from './customs.ts';
import { unitOf } from './look-up.ts';

const isWire = (at: At, range: Range): boolean => range.oneOf !== undefined && unitOf(at) === 'mm²';

/** What is offered in place of the areas; undefined where it is the areas themselves. */
export const gaugeChoices = (book: Book, at: At, range: Range): readonly string[] | undefined =>
  isWire(at, range) && wiresOf(book) === 'AWG' ? CORD_GAUGES.map((awg) => `${awg} AWG`) : undefined;

/** Whether an area in m² is that of a listed gauge: it stays allowed however the book calls its wires. */
export const isGauge = (at: At, range: Range, base: number): boolean =>
  isWire(at, range) && CORD_GAUGES.some((awg) => Math.abs(wireArea(awg) / 1e6 - base) <= 1e-9 * base);
