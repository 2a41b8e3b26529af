import type { At } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { addScenario } from '../../book/commands/add-scenario.ts';
import { dropScenario } from '../../book/commands/drop-scenario.ts';
import { sameAsBase } from '../../book/commands/same-as-base.ts';
import { addressOf } from '../../book/look-up.ts';
import { type Answer, refused } from '../../book/refused.ts';

export type ScenarioVerb = 'add' | 'drop' | 'same' | 'base';

/** What is done to scenarios from the page: to the one that the chosen cell is of. */
export function scenarioChange(verb: ScenarioVerb, book: Book, table: Table, at: At | undefined): Answer {
  if (verb === 'add') return addScenario(book, { table: table.id });
  if (!at || at.table.id !== table.id) return refused('Choose a cell of the scenario first.');
  if (verb === 'drop') return dropScenario(book, { table: table.id, column: at.columnIndex });
  if (verb === 'same') return sameAsBase(book, { address: addressOf(at) });
  const before = table.base === undefined ? {} : { base: table.base };
  return {
    label: `Compared with ${at.column.label ?? 'another scenario'}`,
    edits: [{ at: 'table fields', table: table.id, before, after: { base: at.column.id } }],
  };
}
