/** Whether something read from outside is a book of the current version. Every problem is a sentence that says where. */
import * as v from 'valibot';
import { readReference, tableNamed } from './address.ts';
import type { Book, Table } from './book.ts';
import { BOUNDS, count } from './bounds.ts';
import { isFormula } from './content.ts';
import { cellNameProblem, idIsGood, tableNameProblem } from './names.ts';
import { sentence } from './problem-words.ts';
import { bookSchema } from './schema.ts';
import { sizeOf } from './size.ts';

export type Checked = { readonly ok: true; readonly book: Book } | { readonly ok: false; readonly problems: readonly string[] };

const MOST_PROBLEMS = 20;
/** A book with more values than this tells one problem of its shape and no more: to find them all would take its time for each. */
const MANY = 20_000;

export function checkBook(found: unknown): Checked {
  if (typeof found !== 'object' || found === null || Array.isArray(found)) return { ok: false, problems: ['It is not a book.'] };
  const size = sizeOf(found);
  if (size.problems.length > 0) return { ok: false, problems: size.problems.slice(0, MOST_PROBLEMS) };
  const shape = v.safeParse(bookSchema, found, { abortEarly: size.values > MANY });
  if (!shape.success) return { ok: false, problems: shape.issues.slice(0, MOST_PROBLEMS).map((issue) => sentence(found, issue)) };
  // The schema passes over keys such as `__proto__` and leaves them out of its copy: from here on it is about what was found itself.
  const problems = meaningProblems(found as Book).slice(0, MOST_PROBLEMS);
  return problems.length === 0 ? { ok: true, book: found as Book } : { ok: false, problems };
}

function meaningProblems(book: Book): string[] {
  const problems: string[] = [...doubled('pages', book.pages), ...doubled('tables', book.tables)];
  const blocks = book.pages.flatMap((page) => page.blocks);
  problems.push(...doubled('blocks', blocks));
  const tables = new Set(book.tables.map(({ id }) => id));
  for (const block of blocks) {
    if (problems.length >= MOST_PROBLEMS) return problems;
    if (block.kind === 'table' && !tables.has(block.table)) problems.push(`A page shows the table ${block.table}, which is not in the book.`);
  }
  for (const block of blocks) {
    if (block.kind === 'picture' && !Object.keys(block.reads).every(idIsGood)) problems.push('A picture reads something under a key that is not allowed.');
  }
  const seen = new Set<string>();
  for (const table of book.tables) {
    const problem = tableNameProblem(table.name);
    if (problem) problems.push(problem);
    const lower = table.name.toLowerCase();
    if (seen.has(lower)) problems.push(`Two tables are called “${table.name}”.`);
    seen.add(lower);
    problems.push(...tableProblems(table));
  }
  problems.push(...nameProblems(book));
  return problems;
}

function tableProblems(table: Table): string[] {
  const rows = new Set(table.rows.map((row) => row.id));
  const columns = new Set(table.columns.map((column) => column.id));
  const problems = [...doubled(`rows of “${table.name}”`, table.rows), ...doubled(`columns of “${table.name}”`, table.columns)];
  if (table.base !== undefined && !columns.has(table.base)) problems.push(`Table “${table.name}” is compared with a column that it does not have.`);
  for (const [row, line] of Object.entries(table.cells)) {
    if (problems.length >= MOST_PROBLEMS) break;
    // The schema passes over some keys. None of them is the id of a row or a column, so what stands under them is not looked at.
    if (!rows.has(row)) {
      problems.push(`Table “${table.name}” has cells in a row (${row}) that is not there.`);
      continue;
    }
    for (const [column, cell] of Object.entries(line)) {
      if (!columns.has(column)) problems.push(`Table “${table.name}” has a cell in a column (${column}) that is not there.`);
      else if (isFormula(cell.content) && cell.content.length > BOUNDS.formulaCharacters) {
        problems.push(
          `Table “${table.name}” has a formula of ${count(cell.content.length)} characters; at most ${count(BOUNDS.formulaCharacters)} are allowed.`,
        );
      }
    }
  }
  return problems;
}

function nameProblems(book: Book): string[] {
  const problems: string[] = [];
  const seen = new Set<string>();
  for (const [name, target] of Object.entries(book.names)) {
    if (problems.length >= MOST_PROBLEMS) break;
    const problem = cellNameProblem(name);
    if (problem) problems.push(problem);
    if (seen.has(name.toLowerCase())) problems.push(`Two names differ in capitals only: “${name}”.`);
    seen.add(name.toLowerCase());
    const reference = readReference(target);
    if (reference?.table === undefined || !tableNamed(book, reference.table))
      problems.push(`The name “${name}” stands for “${target}”, which is not a place in the book.`);
  }
  return problems;
}

function doubled(what: string, items: readonly { readonly id: string }[]): string[] {
  const seen = new Set<string>();
  const twice = new Set<string>();
  for (const { id } of items) (seen.has(id) ? twice : seen).add(id);
  return [...twice].slice(0, MOST_PROBLEMS).map((id) => `Two of the ${what} have the same id: ${id}.`);
}
