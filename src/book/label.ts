/** Words for the list of changes. */
import { type At, cellAt } from './address.ts';
import type { Book, Cell } from './book.ts';
import { columnHeading, pointsAt } from './look-up.ts';
import { sayLost } from './references.ts';

const LONGEST = 40;
const BARE = /^[-+\d.,'’_\s]+$/u;
const unspaced = (text: string): string => text.replace(/\s/gu, '');

/** A cell's content as a person reads it in a label: what was typed, "as A", or "blank". */
export function said(book: Book, at: At, cell: Cell | undefined): string {
  const { typed, content = '' } = cell ?? {};
  // A bare number is said with the unit it was read in: what it meant then is not what it would mean now.
  const text = typed === undefined || BARE.test(typed) || unspaced(typed) === unspaced(content) ? content : typed;
  if (text === '') return 'blank';
  const target = pointsAt({ ...at, cell });
  const other = target === undefined ? undefined : cellAt(book, target);
  if (other && other.table === at.table && other.row === at.row && columnHeading(other) !== '') return `as ${columnHeading(other)}`;
  return short(text.startsWith('=') ? withPlainUnits(sayLost(text)) : text);
}

/** `UNIT(10,"EUR/year")` as it is written: `10 EUR/year`. */
const withPlainUnits = (formula: string): string => formula.replace(/\bUNIT\((-?[\d.]+),"([^"%/][^"]*)"\)/gu, '$1 $2');

/** As a sentence: with a stop, unless it has its own. */
export const sentence = (text: string): string => (/[.?!…]$/u.test(text) ? text : `${text}.`);

/** A heading within a sentence: a word that is no abbreviation begins small. */
export const inSentence = (heading: string): string => (/^\p{Lu}\p{Ll}/u.test(heading) ? heading.slice(0, 1).toLowerCase() + heading.slice(1) : heading);

export const short = (text: string): string => {
  const line = text.replace(/\s+/gu, ' ');
  const letters = [...line];
  return letters.length > LONGEST ? `${letters.slice(0, LONGEST - 1).join('')}…` : line;
};

/** A table’s name as a heading, in words: `LuxMeter` is the lux meter’s. */
export const tableHeading = (name: string): string => name.replace(/(?<=\p{Ll})\p{Lu}(?=\p{Ll})/gu, (letter) => ` ${letter.toLowerCase()}`);
