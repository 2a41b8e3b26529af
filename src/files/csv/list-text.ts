/** What a file does to the rows of a list, in words: before it is done, and as the change is called. */
import { type At, placeIn } from '../../book/address.ts';
import type { Book, Row, Table } from '../../book/book.ts';
import { count } from '../../book/bounds.ts';
import { pickersOf } from '../../book/goes-with.ts';
import { nameKey } from '../../book/list-rows.ts';
import { sourceIn, titleOf } from '../../book/look-up.ts';
import type { ListRows } from './list-names.ts';

/** "Fixtures: 1 row changed, 1 added, 1 as before". */
export function rowsText({ table, changed, added, same }: ListRows): string {
  const rows = (n: number): string => `${count(n)} ${n === 1 ? 'row' : 'rows'}`;
  return `${table.name}: ${rows(changed.length)} changed, ${count(added.length)} added, ${count(same)} as before`;
}

export const rowsSaid = (rows: ListRows): string => `${rowsText(rows)}; ${count(rows.stay)} that the file lacks ${rows.stay === 1 ? 'stays' : 'stay'}.`;

/** A line for each row that is changed or added; the first of them. */
export const rowLines = (book: Book, { table, changed, added }: ListRows, most: number): readonly string[] => [
  ...changed.slice(0, most).map(({ name, row, cells }) => {
    const chosen = chosenIn(book, table, row);
    return `${name} is changed: ${cells.join('; ')}${chosen.length > 0 ? ` (chosen: ${chosen.join('; ')})` : ''}`;
  }),
  ...added.slice(0, Math.max(0, most - changed.length)).map(({ name, cells }) => `${name} is added: ${cells.join('; ')}`),
];

/** The answers that take the row from the list, as people call them. */
export function chosenIn(book: Book, table: Table, row: Row): readonly string[] {
  const name = (at: At | undefined): string => nameKey(at?.cell?.content ?? '');
  const own = (column: number): string => name(placeIn(table, column, table.rows.indexOf(row)));
  const first = own(0);
  return book.tables.flatMap((other) =>
    other.form === 'list'
      ? []
      : other.rows.flatMap((_, r) =>
          other.columns.flatMap((_, c) => {
            const at = placeIn(other, c, r);
            const from = at && name(at) === first ? sourceIn(book, at) : undefined;
            // What is picked together with it, as the stage of a crop, tells rows apart that begin alike.
            return at && from?.list.id === table.id && pickersOf(book, at).every((one) => name(one.at) === own(one.column)) ? [titleOf(at)] : [];
          }),
        ),
  );
}
