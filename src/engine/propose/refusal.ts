/**
 * Why nothing can be proposed for a book as it stands: a mistake of units, a given that lacks or can't be, or a cell that no arrangement makes right, on
 * the way to what its checks say.
 */
import { cellAt } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, standingOf, titleOf } from '../../book/look-up.ts';
import { NOT_ANSWERED, UNIT_ERROR } from '../errors.ts';
import type { Address, Value } from '../types.ts';
import type { Anatomy } from './anatomy.ts';

/** @param following the cells that follow from one, directly or not */
export function inTheWay(
  book: Book,
  { judged, parts }: Anatomy,
  told: (address: Address) => Value | undefined,
  following: (address: Address) => readonly Address[],
): string | undefined {
  const varied = new Set(Object.values(parts).map(addressOf));
  for (const at of judged) {
    const value = told(addressOf(at));
    if (value?.kind !== 'error') continue;
    if (value.word === UNIT_ERROR) return `Nothing is proposed while a mistake of units stands in the way: ${value.message}`;
    const from = (value.from === undefined ? undefined : cellAt(book, value.from)) ?? at;
    const address = addressOf(from);
    if (varied.has(address)) continue;
    if (standingOf(from) === 'given')
      return `Nothing is proposed while ${value.word === NOT_ANSWERED ? 'an answer lacks' : 'a given can not be as it is'}: ${value.message}`;
    if ([...varied].some((part) => following(part).includes(address))) continue;
    return `Nothing is proposed while ${titleOf(from)} can not be worked out: ${value.message}`;
  }
  return undefined;
}
