/** What can't be worked out while a column of a list is blank: the rows that read it, and those that read them. */
import { readReference, tableNamed } from './address.ts';
import type { Book, Row, Table } from './book.ts';
import { isFormula } from './content.ts';
import { named } from './look-up.ts';
import { rewriteFormula } from './references.ts';

/** In tables that are longer a row of a list is read like any other, and none of them is a result. */
const MOST_ROWS = 1000;

/** The labels of the rows that hang on a column of a list, by its place, in the order of their tables; those that only look it up are left out. `only`: the checks among them. */
export function hangsOn(book: Book, list: Table): (column: number, only?: 'check') => readonly string[] {
  const readers = new Map<string, Set<string>>();
  const rows = new Map<string, Row>();
  for (const table of book.tables) {
    if (table === list || table.form === 'list' || table.rows.length > MOST_ROWS) continue;
    for (const [r, row] of table.rows.entries()) {
      const content = Object.values(table.cells[row.id] ?? {}).find((cell) => isFormula(cell.content))?.content;
      if (content === undefined) continue;
      const self = `${table.id} ${r}`;
      rows.set(self, row);
      for (const read of readIn(book, table, list, content)) readers.set(read, (readers.get(read) ?? new Set()).add(self));
    }
  }
  return (column, only) => {
    const direct = readers.get(`column ${column}`) ?? [];
    const found = new Set<string>();
    const waiting = [...direct];
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      if (found.has(next)) continue;
      found.add(next);
      waiting.push(...(readers.get(next) ?? []));
    }
    const beyond = found.size > new Set(direct).size ? new Set(direct) : new Set<string>();
    const own = [...rows].filter(([self, { kind }]) => found.has(self) && !beyond.has(self) && (only === undefined || kind === only));
    return own.flatMap(([, { label }]) => label || []);
  };
}

/** What a formula reads: rows of other tables, columns of the list. */
function readIn(book: Book, home: Table, list: Table, formula: string): ReadonlySet<string> {
  const found = new Set<string>();
  const see = (reference: ReturnType<typeof readReference>): undefined => {
    const table = reference && (reference.table === undefined ? home : tableNamed(book, reference.table));
    if (!table || !reference || (table.form === 'list' && table !== list)) return;
    const [axis, key] = table === list ? (['column', 'column'] as const) : (['row', table.id] as const);
    const [a, b] = [reference.from[axis], reference.to[axis]];
    for (let n = Math.min(a, b); n <= Math.max(a, b) && n < MOST_ROWS; n++) found.add(`${key} ${n}`);
  };
  rewriteFormula(formula, see, (name) => see(readReference(named(book, name) ?? '')));
  return found;
}
