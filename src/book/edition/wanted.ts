/** Which rows a book of an earlier edition is to take in: those that came, and those that were taken out of it and that they read. */
import { readReference, tableNamed } from '../address.ts';
import type { Book, Table } from '../book.ts';
import { isFormula } from '../content.ts';
import { referencesIn, rewriteFormula } from '../references.ts';
import { type Edition, keyIn, tableIn } from './frame.ts';
import type { Stale } from './lacks.ts';

type Rows = Map<string, Set<string>>;

export function wantedRows(book: Book, template: Book, past: Edition, stale: readonly Stale[]): ReadonlyMap<string, ReadonlySet<string>> {
  const wanted: Rows = new Map();
  const waiting: { readonly table: Table; readonly formula: string }[] = [];
  const want = (table: Table, row: string | undefined): void => {
    const rows = wanted.get(table.id) ?? new Set();
    const here = tableIn(book, table.id);
    if (row === undefined || rows.has(row) || !here || here.rows.some((each) => each.id === row)) return;
    wanted.set(table.id, rows.add(row));
    for (const cell of Object.values(table.cells[row] ?? {})) if (isFormula(cell.content)) waiting.push({ table, formula: cell.content });
  };
  for (const table of template.tables) {
    const before = tableIn(past, table.id);
    if (!before || table.form === 'list') continue;
    for (const row of table.rows) if (!before.rows.some((each) => each.id === row.id)) want(table, row.id);
  }
  for (const { table: id, row, model } of stale) {
    const table = tableIn(template, id);
    if (table) waiting.push({ table, formula: table.cells[row]?.[model]?.content ?? '' });
  }
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    for (const { table, row } of readBy(template, next.table, next.formula)) if (table.form !== 'list') want(table, table.rows[row]?.id);
  }
  return wanted;
}

/** The rows whose cells a formula of the template names: of a range its ends. */
function readBy(template: Book, home: Table, formula: string): readonly { readonly table: Table; readonly row: number }[] {
  const found = referencesIn(formula);
  const references = [...found];
  rewriteFormula(
    formula,
    () => undefined,
    (name) => {
      const key = keyIn(template.names, name);
      const reference = key === undefined ? undefined : readReference(template.names[key] ?? '');
      if (reference) references.push(reference);
      return undefined;
    },
  );
  return references.flatMap(({ table: said, from, to }) => {
    const table = said === undefined ? home : tableNamed(template, said);
    return table ? [from.row, to.row].map((row) => ({ table, row })) : [];
  });
}
