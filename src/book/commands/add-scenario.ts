/** Adds a scenario: a column whose givens are as the base's until they are overwritten, and whose formulas are those of the last one, moved over. */
import { type At, cellOf, columnText, placeIn } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Cell, Column, Table } from '../book.ts';
import { BESIDE, BOUNDS } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { isFormula } from '../content.ts';
import { stoodFor } from '../ditto.ts';
import { findTable, freshIds } from '../lines.ts';
import { baseColumn, standingOf } from '../look-up.ts';
import { type Rewrite, rewriteFormula } from '../references.ts';
import { type Answer, refused } from '../refused.ts';
import { rewriteBook } from '../rewrite-book.ts';
import { asideAnew } from '../set-aside.ts';

export interface AddScenario {
  /** A comparing table's id or name. */
  readonly table: string;
  /** Left out: the next letter. */
  readonly label?: string;
}

/** Other comparing tables of the book with the same scenarios (supply, costs) get the scenario too. */
export function addScenario(book: Book, { table: wanted, label: asked }: AddScenario): Answer {
  return added(book, wanted, asked, undefined);
}

export interface CopyScenario extends AddScenario {
  /** Which column is copied, from 0. */
  readonly column: number;
}

/** Adds a scenario that has the givens of another, to be changed by themselves from then on. */
export function copyScenario(book: Book, { table: wanted, label: asked, column }: CopyScenario): Answer {
  return added(book, wanted, asked, column);
}

function added(book: Book, wanted: string, asked: string | undefined, copied: number | undefined): Answer {
  const table = findTable(book, wanted);
  if (table?.form !== 'scenarios') return refused(`There is no table ${wanted} that compares scenarios.`);
  if (table.columns.length >= BOUNDS.columns) return refused(`${table.name} has ${BOUNDS.columns} scenarios, which is the most a table may have.`);
  const label = asked ?? nextLabel(table.columns);
  if (table.columns.some((column) => column.label === label)) return refused(`There is already a scenario ${label}.`);
  const model = copied === undefined ? undefined : table.columns[copied];
  if (copied !== undefined && !model) return refused(`There is no such scenario in ${table.name}.`);
  const tables = tablesWithScenarios(book, table);
  const many = table.columns.length >= BESIDE ? ` (more than ${BESIDE} are narrow on paper)` : '';
  const said = model ? `Scenario ${label}: a copy of ${model.label ?? columnText(copied ?? 0)}${many}` : `Scenario ${label} added${many}`;
  const { edits } = rewriteBook(book, (home) => widened(tables, home));
  const ids = tables.map((each) => each.id);
  const wider = apply(book, { label: said, edits }).tables.filter((each) => ids.includes(each.id));
  return { label: said, edits: [...edits, ...wider.flatMap((each) => columnEdits(wider, each, label, copied))] };
}

/** A range across scenarios that reaches to the last one reaches to the new one: what is the cheapest of all is so of it too. */
function widened(tables: readonly Table[], home: Table | undefined): Rewrite {
  const last = new Map(tables.map((table) => [table.name.toLowerCase(), table.columns.length - 1]));
  return (reference) => {
    const { from, to } = reference;
    if (from.column === to.column || to.column !== last.get((reference.table ?? home?.name ?? '').toLowerCase())) return undefined;
    return { ...reference, to: { ...to, column: to.column + 1 } };
  };
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

function columnEdits(tables: readonly Table[], table: Table, label: string, copied: number | undefined): Edit[] {
  const base = baseColumn(table);
  const place = table.columns.length;
  // The last scenario's formulas show which of their references mean the base (the difference from A) and which their own column.
  const last = place - 1;
  const source = copied === undefined || copied === base ? last : copied;
  const { id: _, label: __, ...line } = table.columns[copied ?? last] ?? { id: '' };
  const [id = ''] = freshIds(table.columns, 'c', 1);
  const edits: Edit[] = [{ at: 'column', table: table.id, index: place, before: null, after: { ...line, id, label } }];
  const over = movedOver(tables, table, source, place);
  for (const [r, row] of table.rows.entries()) {
    const model = placeIn(table, source, r);
    const original = copied === undefined ? model : placeIn(table, copied, r);
    const given = [model, original].some((at) => at && ['given', 'as'].includes(standingOf(at)));
    const inBase = cellOf(table, row.id, table.columns[base]?.id ?? '');
    const after = !given ? moved(model?.cell, over) : copied === undefined ? sameAs(model, inBase, base) : ofItsOwn(tables, original, place);
    // Without anything in it there is no cell.
    if (after && (after.content !== '' || Object.keys(after).length > 1))
      edits.push({ at: 'cell', table: table.id, row: row.id, column: id, before: null, after });
  }
  return edits;
}

/** A given that is as the base's; none where the base has none. What was said about the one value is not said about the other. */
function sameAs(model: At | undefined, inBase: Cell | undefined, base: number): Cell | undefined {
  if (!model?.cell || !inBase) return undefined;
  const { typed: _, source: __, note: ___, ...kept } = model.cell;
  return { ...kept, content: `=${columnText(base)}${model.rowIndex + 1}` };
}

/** What was the same as in another scenario becomes the value or the formula that it stood for, with what was said of that. */
function ofItsOwn(tables: readonly Table[], original: At | undefined, to: number): Cell | undefined {
  if (!original?.cell) return undefined;
  const end = stoodFor(original);
  if (end.column === original.column) return moved(original.cell, movedOver(tables, end.table, end.columnIndex, to));
  const { typed: _, source: __, ...kept } = original.cell;
  const { content = '', typed, source, unit } = end.cell ?? {};
  const said = { content, ...(typed === undefined ? {} : { typed }), ...(source === undefined ? {} : { source }) };
  return moved({ ...(unit === undefined ? {} : { unit }), ...kept, ...said }, movedOver(tables, end.table, end.columnIndex, to));
}

function moved(cell: Cell | undefined, rewrite: Rewrite): Cell | undefined {
  if (!cell) return undefined;
  const told = asideAnew(cell, (formula) => rewriteFormula(formula, rewrite));
  const content = isFormula(cell.content) ? rewriteFormula(cell.content, rewrite) : cell.content;
  if (content === cell.content) return told;
  const { typed: _, ...kept } = told;
  return { ...kept, content };
}

/** References to the one scenario's column, in any of the tables, become references to the other's. A fixed column (`$A7`) and a range across scenarios stay. */
export function movedOver(tables: readonly Table[], home: Table, from: number, to: number): Rewrite {
  const names = new Set(tables.map((table) => table.name.toLowerCase()));
  return (reference) => {
    if (!names.has((reference.table ?? home.name).toLowerCase())) return undefined;
    const { from: a, to: b } = reference;
    if (a.column !== from || b.column !== from || a.columnFixed || b.columnFixed) return undefined;
    return { ...reference, from: { ...a, column: to }, to: { ...b, column: to } };
  };
}
