/** What stands in the way of proposals, as far as the book and its values say it; whatever else does is said when they are searched for. */
import { placeIn } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, baseColumn, standingOf, titleOf } from '../../book/look-up.ts';
import { lackingIn } from '../../book/said-by.ts';
import type { Values } from '../../engine/types.ts';
import { valueAt } from '../../shown.ts';
import { type Place, placeOfAt } from '../parts/index.ts';

export interface NotYet {
  /** A sentence. */
  readonly why: string;
  /** The first question whose answer lacks. */
  readonly question?: { readonly place: Place; readonly title: string };
}

/** Undefined where they can be searched for. */
export function notYet(book: Book, values: Values): NotYet | undefined {
  const tables = book.tables.filter(({ form }) => form === 'scenarios');
  if (tables.length === 0) return { why: 'Nothing can be proposed here: this book compares no scenarios.' };
  const lacking = lackingIn(book);
  const [first] = lacking;
  if (first) {
    const [question, many] = [{ place: placeOfAt(first), title: titleOf(first) }, `${lacking.length} answers lack, the first of them`];
    return { why: `Nothing is proposed before the brief is answered. ${lacking.length === 1 ? 'One answer lacks' : many}: ${question.title}.`, question };
  }
  // Of the scenario from which is taken what is not varied.
  const judged = tables.flatMap((table) => table.rows.flatMap((_, row) => placeIn(table, baseColumn(table), row) ?? []));
  const found = judged.find((at) => standingOf(at) === 'check' && isMistake(values, addressOf(at)));
  const value = found && valueAt(values, addressOf(found));
  return value?.kind === 'error' ? { why: `Nothing is proposed while a mistake of units stands in the way: ${value.message}` } : undefined;
}

const isMistake = (values: Values, address: string): boolean => {
  const value = valueAt(values, address);
  return value.kind === 'error' && value.word === 'unit error';
};
