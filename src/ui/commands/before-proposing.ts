/** What stands in the way of proposals, as far as the book and its values say it; whatever else does is said when they are searched for. */
import { type At, placeIn } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, baseColumn, standingOf, titleOf } from '../../book/look-up.ts';
import { mustBeAsked, questionsOn, saidBy } from '../../book/said-by.ts';
import type { Values } from '../../engine/types.ts';
import { valueAt } from '../../shown.ts';

/** A sentence; undefined where they can be searched for. */
export function notYet(book: Book, values: Values): string | undefined {
  const tables = book.tables.filter(({ form }) => form === 'scenarios');
  if (tables.length === 0) return 'Nothing can be proposed here: this book compares no scenarios.';
  const asked = book.pages.flatMap((page) => questionsOn(book, page)).filter(lacks);
  const [first] = asked;
  if (first)
    return `Nothing is proposed before the brief is answered. ${asked.length === 1 ? 'One answer lacks' : `${asked.length} answers lack, the first of them`}: ${titleOf(first)}.`;
  // Of the scenario from which is taken what is not varied.
  const judged = tables.flatMap((table) => table.rows.flatMap((_, row) => placeIn(table, baseColumn(table), row) ?? []));
  const found = judged.find((at) => standingOf(at) === 'check' && isMistake(values, addressOf(at)));
  const value = found && valueAt(values, addressOf(found));
  return value?.kind === 'error' ? `Nothing is proposed while a mistake of units stands in the way: ${value.message}` : undefined;
}

/** What only the client can say, and has not. A default that nobody has agreed to is taken as it stands: it is listed among what is left to ask. */
const lacks = (at: At): boolean =>
  at.table.form === 'brief' && (mustBeAsked(at) || ((at.cell?.content ?? '') === '' && saidBy(at.row.source)?.teller === 'client'));

const isMistake = (values: Values, address: string): boolean => {
  const value = valueAt(values, address);
  return value.kind === 'error' && value.word === 'unit error';
};
