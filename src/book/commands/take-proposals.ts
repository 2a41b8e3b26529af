/** Writes proposals into the scenarios, one a column from the first on: what they say goes into its givens, and every other given is as the first scenario has it. */
import { columnText, placeIn } from '../address.ts';
import type { Book } from '../book.ts';
import { noRoomFor } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { baseColumn, columnHeading, standingOf, titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface TakeProposals {
  /** The id of the table of scenarios. */
  readonly table: string;
  /** For each column the contents of its givens, by the ids of their rows. */
  readonly columns: readonly Readonly<Record<string, string>>[];
}

/** Refused where there are fewer scenarios than proposals. */
export function takeProposals(book: Book, { table: id, columns }: TakeProposals): Answer {
  const table = book.tables.find((one) => one.id === id && one.form === 'scenarios');
  if (!table) return refused('This book has no such table of scenarios.');
  if (columns.length > table.columns.length)
    return refused(`${table.name} has ${table.columns.length} scenarios, too few for ${columns.length} proposals: add one first.`);
  const base = baseColumn(table);
  const places = [base, ...[...table.columns.keys()].filter((c) => c !== base)];
  const edits: Edit[] = [];
  for (const [n, contents] of columns.entries()) {
    for (const [r, row] of table.rows.entries()) {
      const at = placeIn(table, places[n] as number, r);
      if (!at || !['given', 'as'].includes(standingOf(at))) continue;
      const said = contents[row.id];
      if (said === undefined && at.columnIndex === base) continue;
      const { typed: _, ...kept } = at.cell ?? { content: '' };
      const { source: __, unit: ___, ...plain } = kept;
      const after = said === undefined ? { ...plain, content: `=${columnText(base)}${r + 1}` } : { ...kept, content: said };
      const problem = noRoomFor(book, after.content, at.cell?.content);
      if (problem !== undefined) return refused(`${titleOf(at)}: ${problem}`);
      edits.push(...cellEdit(at, after));
    }
  }
  const named = columns.map((_, n) => columnHeading(placeIn(table, places[n] as number, 0) as NonNullable<ReturnType<typeof placeIn>>));
  return { label: `Proposals put into ${table.name}: ${named.join(', ')}`, edits };
}
