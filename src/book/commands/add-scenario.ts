/** Adds a scenario: a column whose givens are as the base's until they are overwritten, and whose formulas are those of the last one, moved over. */
import { cellOf, columnText, placeIn } from '../address.ts';
import type { Book, Cell, Column, Table } from '../book.ts';
import { BOUNDS } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { isFormula } from '../content.ts';
import { findTable, freshIds } from '../lines.ts';
import { baseColumn, standingOf } from '../look-up.ts';
import { type Rewrite, rewriteFormula } from '../references.ts';
import { type Answer, refused } from '../refused.ts';

export interface AddScenario {
  /** A comparing table's id or name. */
  readonly table: string;
  /** Left out: the next letter. */
  readonly label?: string;
}

/** Other comparing tables of the book with the same scenarios (supply, costs) get the scenario too. */
export function addScenario(book: Book, { table: wanted, label: asked }: AddScenario): Answer {
  const table = findTable(book, wanted);
  if (table?.form !== 'scenarios') return refused(`There is no table ${wanted} that compares scenarios.`);
  if (table.columns.length >= BOUNDS.columns) return refused(`${table.name} has ${BOUNDS.columns} scenarios, which is the most a table may have.`);
  const label = asked ?? nextLabel(table.columns);
  if (table.columns.some((column) => column.label === label)) return refused(`There is already a scenario ${label}.`);
  const tables = tablesWithScenarios(book, table);
  return { label: `Scenario ${label} added`, edits: tables.flatMap((each) => columnEdits(tables, each, label)) };
}

/** The comparing tables whose scenarios are called the same, in the same order. */
export function tablesWithScenarios(book: Book, table: Table): readonly Table[] {
  const labels = (t: Table): string => JSON.stringify(t.columns.map((column) => column.label ?? ''));
  return book.tables.filter((t) => t === table || (t.form === 'scenarios' && labels(t) === labels(table)));
}

function nextLabel(columns: readonly Column[]): string {
  const taken = new Set(columns.map((column) => column.label));
  let n = columns.length;
  while (taken.has(columnText(n))) n++;
  return columnText(n);
}

function columnEdits(tables: readonly Table[], table: Table, label: string): Edit[] {
  const base = baseColumn(table);
  const place = table.columns.length;
  // The last scenario's formulas show which of their references mean the base (the difference from A) and which their own column.
  const source = place - 1;
  const { id: _, label: __, ...line } = table.columns[source] ?? { id: '' };
  const [id = ''] = freshIds(table.columns, 'c', 1);
  const edits: Edit[] = [{ at: 'column', table: table.id, index: place, before: null, after: { ...line, id, label } }];
  const rewrite = movedOver(tables, table, source, place);
  for (const [r, row] of table.rows.entries()) {
    const at = placeIn(table, source, r);
    const model = at?.cell;
    if (!at || !model) continue;
    const standing = standingOf(at);
    const given = standing === 'given' || standing === 'as';
    const content = given ? `=${columnText(base)}${r + 1}` : isFormula(model.content) ? rewriteFormula(model.content, rewrite) : model.content;
    const { typed: _t, source: said, note, ...kept } = model;
    // What was said about the one value is not said about the other.
    const after: Cell = given
      ? { ...kept, content }
      : { ...kept, content, ...(said === undefined ? {} : { source: said }), ...(note === undefined ? {} : { note }) };
    if (!given || cellOf(table, row.id, table.columns[base]?.id ?? ''))
      edits.push({ at: 'cell', table: table.id, row: row.id, column: id, before: null, after });
  }
  return edits;
}

/** References to the one scenario's column, in any of the tables, become references to the other's. A fixed column (`$A7`) and a range across scenarios stay. */
function movedOver(tables: readonly Table[], home: Table, from: number, to: number): Rewrite {
  const names = new Set(tables.map((table) => table.name.toLowerCase()));
  return (reference) => {
    if (!names.has((reference.table ?? home.name).toLowerCase())) return undefined;
    const { from: a, to: b } = reference;
    if (a.column !== from || b.column !== from || a.columnFixed || b.columnFixed) return undefined;
    return { ...reference, from: { ...a, column: to }, to: { ...b, column: to } };
  };
}
