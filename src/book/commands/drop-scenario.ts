/** Takes a scenario away. What was as it is keeps the value: it is given in the first scenario that had it so, and the others are as that one. */
import { cellOf, columnText, placeIn } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Cell, Table } from '../book.ts';
import type { Edit } from '../change.ts';
import { findTable, lostText, lostTogether, NOTHING_LOST, removeLines } from '../lines.ts';
import { baseColumn, pointsAt, standingOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { tablesWithScenarios } from './add-scenario.ts';

export interface DropScenario {
  /** A comparing table's id or name. */
  readonly table: string;
  /** Which column, from 0. */
  readonly column: number;
}

export function dropScenario(book: Book, { table: wanted, column }: DropScenario): Answer {
  const table = findTable(book, wanted);
  const label = table?.columns[column]?.label ?? columnText(column);
  if (table?.form !== 'scenarios' || !table.columns[column]) return refused(`There is no scenario ${label} in ${wanted}.`);
  if (table.columns.length === 1) return refused(`${table.name} must keep at least one scenario.`);
  let now = book;
  const edits: Edit[] = [];
  let lost = NOTHING_LOST;
  const take = (made: readonly Edit[]): void => {
    edits.push(...made);
    now = apply(now, { label: '', edits: made });
  };
  const tables = tablesWithScenarios(book, table).map((each) => each.id);
  const find = (id: string): Table | undefined => now.tables.find((each) => each.id === id);
  for (const id of tables) take(handedOn(find(id), column));
  for (const id of tables) {
    const each = find(id);
    if (!each) continue;
    const base = each.columns[baseColumn(each)]?.id;
    const removed = removeLines(now, each, 'column', column, 1);
    take(removed.edits);
    lost = lostTogether(lost, removed);
    const first = find(id)?.columns[0]?.id;
    if (base === each.columns[column]?.id && first !== undefined) take([{ at: 'table fields', table: id, before: {}, after: { base: first } }]);
  }
  return { label: `Scenario ${label} taken away${lostText(lost)}`, edits };
}

function handedOn(table: Table | undefined, column: number): Edit[] {
  const edits: Edit[] = [];
  for (const [r, row] of table?.rows.entries() ?? []) {
    const going = table && placeIn(table, column, r);
    if (!table || !going) continue;
    const address = pointsAt({ ...going, cell: { content: `=${columnText(column)}${r + 1}` } });
    const followers = table.columns.flatMap((_, c) => {
      const at = placeIn(table, c, r);
      return at?.cell && c !== column && standingOf(at) === 'as' && pointsAt(at)?.toLowerCase() === address?.toLowerCase() ? [at] : [];
    });
    for (const [i, at] of followers.entries()) {
      const before = cellOf(table, row.id, at.column.id) ?? null;
      const first = followers[0];
      const after: Cell =
        i === 0 ? { ...at.cell, ...(going.cell ?? { content: '' }) } : { ...at.cell, content: `=${columnText(first?.columnIndex ?? 0)}${r + 1}` };
      edits.push({ at: 'cell', table: table.id, row: row.id, column: at.column.id, before, after });
    }
  }
  return edits;
}
