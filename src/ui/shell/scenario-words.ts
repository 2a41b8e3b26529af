/** What is said of scenarios when one of their cells was typed into. */
import { type At, placeIn } from '../../book/address.ts';
import { alsoChanged } from '../../book/also-changed.ts';
import type { Book } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { isFormula } from '../../book/content.ts';

/** Which scenarios it also changed; nothing where there are none. */
export function alsoSaid(book: Book, change: Change): string {
  const letters = alsoChanged(book, change);
  return letters && `Also changes ${letters}`;
}

/** The same; and of a formula in a row in which they have nothing yet, what gives it to them. */
export function ofScenarios(book: Book, change: Change, { table, cell, column, rowIndex }: At): readonly string[] {
  const others = table.columns.filter((each) => each !== column).map((each) => placeIn(table, table.columns.indexOf(each), rowIndex));
  const alone = isFormula(cell?.content ?? '') && others.length > 0 && others.every((at) => !at?.cell?.content);
  return [alsoSaid(book, change), alone ? 'Ctrl Shift F, or the menu of the row, puts the same formula into every scenario' : ''].filter(Boolean);
}
