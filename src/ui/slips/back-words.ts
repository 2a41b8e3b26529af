/** What came of working back, in words. */
import { showDecimal } from '../../../functions/number-text.ts';
import { withSpaces } from '../../../functions/quantity-text.ts';
import { fromBase, need, toBase, unit } from '../../../functions/units.ts';
import { cellAt } from '../../book/address.ts';
import { shownChoice } from '../../book/allowed.ts';
import type { Book } from '../../book/book.ts';
import { plainText } from '../../book/content.ts';
import { decimalsOf, titleOf } from '../../book/look-up.ts';
import type { Address, Tried, Value, WayBack, WorkedBack } from '../../engine/types.ts';
import { lineOf, turnOf } from '../../shown.ts';

/** Digits of an exact answer that are shown; what is put in has all. */
const DIGITS = 10;
/** And of what comes of it: a number as short as that is shown whole. */
const CLOSE_DIGITS = 6;

export const titleAt = (book: Book, address: Address): string => {
  const at = cellAt(book, address);
  return at ? titleOf(at) : address;
};

/** A value as its cell shows it. */
export function shownAt(book: Book, address: Address, value: Value): string {
  const at = cellAt(book, address);
  return lineOf(value, at && decimalsOf(at));
}

/** What would be put in, to more digits than the cell shows. */
export function exactText(content: string): string {
  const [, number, unit = ''] = /^(-?\d[\d.]*(?:e[-+]?\d+)?)( .*)?$/i.exec(content) ?? [];
  if (number === undefined) return plainText(shownChoice(content));
  return `${Number(Number(number).toPrecision(DIGITS))}${unit}`;
}

/** What comes of it, with digits enough to see whether it is just what was wanted. */
export function givesText(book: Book, cell: Address, { gives, against }: Tried): string {
  const shown = shownAt(book, cell, gives);
  const said = gives.kind === 'number' && against === undefined ? closely(gives.base, gives.unit) : shown;
  return against === undefined ? said : `${said}, the other ${shownAt(book, cell, against)}`;
}

function closely(base: number, symbol: string): string {
  const u = unit(symbol) ?? need('1');
  return withSpaces(showDecimal(toBase(Number(fromBase(base, u).toPrecision(CLOSE_DIGITS)), u), symbol).text);
}

/** A check that then stands otherwise. */
export interface Turn {
  readonly address: Address;
  readonly from: string;
  readonly to: string;
  readonly state: string;
  readonly margin: string;
}

export function turnsOf({ others }: Tried): readonly Turn[] {
  return others.flatMap(({ address, before, after }) => {
    const turn = turnOf(before, after);
    return turn ? [{ address, from: turn.from.word, to: turn.to.word, state: turn.to.state, margin: turn.to.margin }] : [];
  });
}

/** A given's answers in a sentence, to be read aloud too. */
export function sentenceOf(book: Book, cell: Address, given: Address, worked: WorkedBack): string {
  const title = titleAt(book, given);
  if (!worked.ok) return `${title}: ${worked.message}`;
  const { ways, more, lowest, highest, apart } = worked;
  if (ways.length > 0) return `${title}: ${ways.map((way) => wayWords(book, given, way)).join('; or ')}${more > 0 ? `; and ${more} more` : ''}.`;
  if (apart) return `${title}: the two are never equal: whatever it is, they are ${shownAt(book, cell, apart)} apart.`;
  if (!lowest || !highest) return `${title}: nothing makes it so.`;
  if (lowest.against) return `${title}: the two are never equal.`;
  return `${title}: nothing makes it so. It comes to ${shownAt(book, cell, lowest.gives)} at the least and ${shownAt(book, cell, highest.gives)} at the most.`;
}

function wayWords(book: Book, given: Address, way: WayBack): string {
  const at = (tried: Tried): string => shownAt(book, given, tried.value);
  switch (way.kind) {
    case 'exact':
      return at(way.rounded ?? way.exact);
    case 'stretch':
      return `from ${at(way.from)} to ${at(way.to)}`;
    case 'step':
      return `between ${at(way.from)} and ${at(way.to)}`;
    case 'nearest':
      return `none is just that; nearest ${[way.below, way.above].flatMap((one) => (one ? [at(one)] : [])).join(' and ')}`;
  }
}
