/** Why nothing can be proposed for a book as it stands: a mistake of units, or an answer that lacks, on the way to what its checks say. */
import { addressOf } from '../../book/look-up.ts';
import { NOT_ANSWERED } from '../errors.ts';
import type { Address, Value } from '../types.ts';
import type { Anatomy } from './anatomy.ts';

export function inTheWay({ judged, parts }: Anatomy, told: (address: Address) => Value | undefined): string | undefined {
  const varied = new Set(Object.values(parts).map(addressOf));
  for (const at of judged) {
    const value = told(addressOf(at));
    if (value?.kind !== 'error') continue;
    if (value.word === 'unit error') return `Nothing is proposed while a mistake of units stands in the way: ${value.message}`;
    if (value.word === NOT_ANSWERED && value.from !== undefined && !varied.has(value.from))
      return `Nothing is proposed while an answer lacks: ${value.message}`;
  }
  return undefined;
}
