/** Which scenarios a change also changed, without a word of them. */
import { type At, placeIn } from './address.ts';
import type { Book } from './book.ts';
import type { Change } from './change.ts';
import { followed } from './ditto.ts';
import { columnHeading } from './look-up.ts';

/** The scenarios, `B, C`, that a change of the cells of others changed too, since they are the same as those. `book`: as it is after it. */
export function alsoChanged(book: Book, { edits }: Change): string {
  const cells = new Set(edits.map((edit) => (edit.at === 'cell' ? `${edit.table} ${edit.row} ${edit.column}` : '')));
  const rows = new Set(edits.map((edit) => (edit.at === 'cell' ? `${edit.table} ${edit.row}` : '')));
  const isEdited = ({ table, row, column }: At): boolean => cells.has(`${table.id} ${row.id} ${column.id}`);
  const found = new Map<number, string>();
  for (const table of book.tables.filter((each) => each.form === 'scenarios')) {
    for (const [r, row] of table.rows.entries()) {
      if (!rows.has(`${table.id} ${row.id}`)) continue;
      for (const c of table.columns.keys()) {
        const at = placeIn(table, c, r);
        if (at && !isEdited(at) && [...followed(at)].some(isEdited)) found.set(c, columnHeading(at));
      }
    }
  }
  return [...found.keys()]
    .sort((a, b) => a - b)
    .map((c) => found.get(c))
    .join(', ');
}
