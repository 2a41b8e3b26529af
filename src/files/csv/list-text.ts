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
export function rowLines(book: Book, { table, changed, added }: ListRows, most: number): readonly string[] {
  const chosenIn = choosing(book, table);
  return [
    ...changed.slice(0, most).map(({ name, row, cells }) => {
      const chosen = chosenIn(row);
      return `${name} is changed: ${cells.join('; ')}${chosen.length > 0 ? ` (chosen: ${chosen.join('; ')})` : ''}`;
    }),
    ...added.slice(0, Math.max(0, most - changed.length)).map(({ name, cells }) => `${name} is added: ${cells.join('; ')}`),
  ];
}

/** Of each row of a list the answers that take it from there, as people call them. All answers are looked at once, however many rows are asked for. */
export function choosing(book: Book, list: Table): (row: Row) => readonly string[] {
  const name = (at: At): string => nameKey(at.cell?.content ?? '');
  const answers = new Map<string, At[]>();
  for (const table of book.tables.filter(({ form }) => form !== 'list')) {
    for (const r of table.rows.keys()) {
      for (const c of table.columns.keys()) {
        const at = placeIn(table, c, r);
        if (at?.cell && sourceIn(book, at)?.list.id === list.id) answers.set(name(at), [...(answers.get(name(at)) ?? []), at]);
      }
    }
  }
  return (row) => {
    const own = (column: number): string => nameKey(list.cells[row.id]?.[list.columns[column]?.id ?? '']?.content ?? '');
    // What is picked together with it, as the stage of a crop, tells rows apart that begin alike.
    return (answers.get(own(0)) ?? []).filter((at) => pickersOf(book, at).every((one) => name(one.at) === own(one.column))).map(titleOf);
  };
}
