/** Whether the fit of a meter's readings is sound enough to be carried into the scenarios, and if so, the change that does it. */
import { counted } from '../../../functions/number-text.ts';
import type { Book } from '../../book/book.ts';
import { carryFit } from '../../book/commands/carry-fit.ts';
import { addressOf, placeOf } from '../../book/look-up.ts';
import { type Answer, refused } from '../../book/refused.ts';
import type { Value, Values } from '../../engine/types.ts';
import { checkOf, lineOf, valueAt } from '../../shown.ts';

/** With fewer points a pattern can't be told from chance. */
const LEAST_POINTS = 5;

export function carryFound(book: Book, values: Values): Answer {
  const value = (name: string): Value => {
    const at = placeOf(book, name);
    return at ? valueAt(values, addressOf(at)) : { kind: 'blank' };
  };
  const found = value('light_found');
  if (found.kind !== 'number') return refused(`Nothing is carried over: ${found.kind === 'error' ? found.message : 'there is no fit yet.'}`);
  const points = ['points_along', 'points_across'].map(value).reduce((n, v) => n * (v.kind === 'number' ? v.base : 1), 1);
  if (points < LEAST_POINTS)
    return refused(`Nothing is carried over: ${counted(points, 'point')} ${points === 1 ? 'is' : 'are'} too few to tell; read at least ${LEAST_POINTS}.`);
  const pattern = checkOf(value('m_pattern'))?.state;
  if (pattern === undefined || pattern === 'unknown') return refused('Nothing is carried over: how far the pattern may be off is not given.');
  if (pattern === 'fails') {
    return refused(`Nothing is carried over: the pattern is off by ${lineOf(value('miss'))}, over ${lineOf(value('miss_limit'))}. See the points first.`);
  }
  const readings = value('read_on');
  return carryFit(book, { share: found.base, readings: readings.kind === 'text' ? readings.text : 'an unknown day' });
}
