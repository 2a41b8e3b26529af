/** A given that is "same as" another scenario's: what it stands for, and who follows whom. */
import { type At, placeIn, readReference } from './address.ts';
import type { Book } from './book.ts';
import type { Change } from './change.ts';
import { addressOf, columnHeading, pointsAt, standingOf } from './look-up.ts';

/** The cell beside it that a given of a scenario is the same as: of whichever scenario, not only of the one that all are compared with. */
export function sameAs(at: At): At | undefined {
  const points = at.table.form === 'scenarios' && standingOf(at) === 'as' ? pointsAt(at) : undefined;
  const reference = points === undefined ? undefined : readReference(points);
  const beside = reference && placeIn(at.table, reference.from.column, at.rowIndex);
  return beside && beside.column !== at.column && points === addressOf(beside) ? beside : undefined;
}

/** From one to the next, down to the one that has a value or a formula of its own. Where they go in a circle it ends. */
function* followed(from: At): Generator<At> {
  const seen = new Set([from.column.id]);
  for (let at = sameAs(from); at && !seen.has(at.column.id); at = sameAs(at)) {
    seen.add(at.column.id);
    yield at;
  }
}

/** The cell whose value or formula a given stands for: its own, where it is the same as none. */
export const stoodFor = (at: At): At => [...followed(at)].at(-1) ?? at;

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
