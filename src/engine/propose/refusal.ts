/** Why nothing can be proposed for a book as it stands: a mistake of units, or a given that lacks or can't be, on the way to what its checks say. */
import { cellAt } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, standingOf } from '../../book/look-up.ts';
import { NOT_ANSWERED, UNIT_ERROR } from '../errors.ts';
import type { Address, Value } from '../types.ts';
import type { Anatomy } from './anatomy.ts';

export function inTheWay(book: Book, { judged, parts }: Anatomy, told: (address: Address) => Value | undefined): string | undefined {
  const varied = new Set(Object.values(parts).map(addressOf));
  for (const at of judged) {
    const value = told(addressOf(at));
    if (value?.kind !== 'error') continue;
    if (value.word === UNIT_ERROR) return `Nothing is proposed while a mistake of units stands in the way: ${value.message}`;
    const from = value.from === undefined ? undefined : cellAt(book, value.from);
    if (!from || standingOf(from) !== 'given' || varied.has(addressOf(from))) continue;
    return `Nothing is proposed while ${value.word === NOT_ANSWERED ? 'an answer lacks' : 'a given can not be as it is'}: ${value.message}`;
  }
  return undefined;
}
