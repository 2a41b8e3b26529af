/** What a book of an earlier edition of its template does not check, and which of its formulas are still as that edition wrote them. */
import { placeIn } from '../address.ts';
import type { Book, Lacks, Row, Table } from '../book.ts';
import { isFormula } from '../content.ts';
import { standingOf } from '../look-up.ts';
import { type Edition, follow, followed, type Over, tableIn } from './frame.ts';

/** A formula of the template that is another than in the earlier edition, and whose place in the book nobody wrote on since. */
export interface Stale {
  readonly table: string;
  readonly row: string;
  /** The column of the book, and that of the template whose formula belongs there. */
  readonly column: string;
  readonly model: string;
}

export interface Compared {
  /** Rows of checks that the book has not and the earlier edition had not. */
  readonly missing: readonly { readonly table: Table; readonly row: Row }[];
  readonly stale: readonly Stale[];
  /** Labels of checks that work otherwise in the template now, and that the book's owner has written anew. */
  readonly own: readonly string[];
}

const sameFormula = (a: string | undefined, b: string | undefined): boolean => a !== undefined && a === b;

export const isCheck = (table: Table, row: Row): boolean => {
  const at = placeIn(table, 0, table.rows.indexOf(row));
  return at !== undefined && !row.strong && standingOf(at) === 'check';
};

/** Which column of the template says what belongs into a column of the book: the same one, or of a scenario that was added the first. */
export function modelOf(model: Table, table: Table, column: string): { readonly id: string; readonly over: Over } | undefined {
  const to = table.columns.findIndex((each) => each.id === column);
  const same = model.columns.findIndex((each) => each.id === column);
  const from = same >= 0 ? same : model.form === 'scenarios' ? 0 : -1;
  const id = model.columns[from]?.id;
  return id === undefined ? undefined : { id, over: { from, to } };
}

export function compare(book: Book, template: Book, past: Edition): Compared {
  const forward = follow(past, template);
  const here = [follow(past, book), follow(past, book, false)];
  const missing: { table: Table; row: Row }[] = [];
  const stale: Stale[] = [];
  const own = new Set<string>();
  for (const model of template.tables) {
    const before = tableIn(past, model.id);
    const table = tableIn(book, model.id);
    if (!table) continue;
    for (const row of model.rows) {
      const there = table.rows.some((each) => each.id === row.id);
      if (!before?.rows.some((each) => each.id === row.id)) {
        if (!there && isCheck(model, row)) missing.push({ table: model, row });
        continue;
      }
      if (!there || model.form === 'list') continue;
      for (const { id: column } of table.columns) {
        const from = modelOf(model, table, column);
        const was = from && before.cells[row.id]?.[from.id]?.content;
        const now = from && model.cells[row.id]?.[from.id]?.content;
        if (!from || was === undefined || now === undefined || !isFormula(was) || !isFormula(now)) continue;
        // The template wrote the same formula, only elsewhere.
        if (followed(forward, before, was) === now) continue;
        const written = table.cells[row.id]?.[column]?.content;
        if (here.some((each) => sameFormula(followed(each, before, was, from.over), written)))
          stale.push({ table: model.id, row: row.id, column, model: from.id });
        else if (isCheck(model, row)) own.add(row.label ?? row.id);
      }
    }
  }
  return { missing, stale, own: [...own] };
}

/** The labels of the checks; undefined where nothing is lacking. */
export function lacksOf(book: Book, template: Book, past: Edition): Lacks | undefined {
  const { missing, stale } = compare(book, template, past);
  const older = new Set<string>();
  for (const { table, row } of stale) {
    const model = tableIn(template, table);
    const line = model?.rows.find((each) => each.id === row);
    if (model && line && isCheck(model, line)) older.add(line.label ?? line.id);
  }
  const checks = missing.map(({ row }) => row.label ?? row.id);
  return checks.length + older.size === 0 ? undefined : { checks, older: [...older] };
}

/** Whether a book was begun from an earlier edition of this template. */
export const isEarlier = (book: Book, template: Book): boolean =>
  book.template !== undefined && book.template.slug === template.template?.slug && book.template.edition < template.template.edition;

/** The book as it is opened: it says what its template checks and it does not. */
export function withLacks(book: Book, template: Book | undefined, past: Edition | undefined): Book {
  // Where its template is not there it says what it said when it was opened last.
  if (!book.template || !template || !past || book.template.slug !== template.template?.slug) return book;
  const { lacks: _, ...origin } = book.template;
  const found = isEarlier(book, template) ? lacksOf(book, template, past) : undefined;
  return { ...book, template: found ? { ...origin, lacks: found } : origin };
}
