/** Whether something read from outside is a book of the current version. Every problem is a sentence that says where. */
import * as v from 'valibot';
import { readReference, tableNamed } from './address.ts';
import type { Book, Table } from './book.ts';
import { amountsOf, BOUNDS, count } from './bounds.ts';
import { isFormula } from './content.ts';
import { cellNameProblem, idIsGood, tableNameProblem } from './names.ts';
import { bookSchema } from './schema.ts';

export type Checked = { readonly ok: true; readonly book: Book } | { readonly ok: false; readonly problems: readonly string[] };

/** A book is about eight deep. The schema walks by recursion, which a file made to be deep would break. */
const DEEPEST = 20;
const MOST_PARTS = 8_000_000;
const MOST_PROBLEMS = 20;

export function checkBook(found: unknown): Checked {
  if (typeof found !== 'object' || found === null || Array.isArray(found)) return { ok: false, problems: ['It is not a book.'] };
  const size = sizeProblem(found);
  if (size) return { ok: false, problems: [size] };
  const shape = v.safeParse(bookSchema, found);
  if (!shape.success) return { ok: false, problems: shape.issues.slice(0, MOST_PROBLEMS).map((issue) => sentence(found, issue)) };
  // The schema passes over keys such as `__proto__` and leaves them out of its copy: from here on it is about what was found itself.
  const problems = meaningProblems(found as Book).slice(0, MOST_PROBLEMS);
  return problems.length === 0 ? { ok: true, book: found as Book } : { ok: false, problems };
}

/** Judged without recursion, before anything that recurses sees it. */
function sizeProblem(found: unknown): string | undefined {
  let level: unknown[] = [found];
  let parts = 0;
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > DEEPEST) return `It is nested more than ${DEEPEST} deep, which no book is.`;
    parts += level.length;
    if (parts > MOST_PARTS) return 'It holds more than any book may.';
    const next: unknown[] = [];
    for (const value of level) {
      if (typeof value !== 'object' || value === null) continue;
      for (const part of Object.values(value)) if (typeof part === 'object' && part !== null) next.push(part);
    }
    level = next;
  }
  return undefined;
}

function sentence(found: unknown, issue: v.BaseIssue<unknown>): string {
  const path = (issue.path ?? []).map((item) => String((item as { key?: unknown }).key));
  const where = path.length === 0 ? 'The book' : placeInWords(found, path);
  if (issue.expected === 'never') return `${where} is a field that a book does not have.`;
  if (issue.kind !== 'schema' || issue.message.startsWith('must'))
    return `${where} ${issue.message.startsWith('must') ? issue.message : `is not allowed: ${issue.message}`}.`;
  if (issue.received === 'undefined') return `${where} is missing.`;
  const wanted = (issue.expected ?? 'something else')
    .toLowerCase()
    .replaceAll('"', '')
    .replaceAll(' | ', ', ')
    .replace('object', 'a group of fields')
    .replace('array', 'a list');
  return `${where} must be ${wanted.replace('string', 'text').replace(/[()]/gu, '')}, but is ${String(issue.received)
    .slice(0, 60)
    .replace(/^"(.*)"$/u, '“$1”')}.`;
}

/** `tables.1.rows.2.label` → "Table “Scenarios”, row 3: label". */
function placeInWords(found: unknown, path: readonly string[]): string {
  const words: string[] = [];
  let here = found;
  for (let i = 0; i < path.length - 1; i++) {
    const key = path[i] ?? '';
    const inside = part(here, key);
    const next = path[i + 1] ?? '';
    if (Array.isArray(inside) && /^\d+$/u.test(next)) {
      const item = part(inside, next);
      const name = part(item, 'name') ?? part(item, 'title');
      words.push(`${key.replace(/s$/u, '')} ${typeof name === 'string' ? `“${name.slice(0, 40)}”` : Number(next) + 1}`);
      here = item;
      i++;
    } else {
      words.push(key);
      here = inside;
    }
  }
  const last = path.at(-1) ?? '';
  const place = words.join(', ');
  const whole = /^\d+$/u.test(last) && words.length > 0 ? place : place === '' ? last : `${place}: ${last}`;
  return whole.charAt(0).toUpperCase() + whole.slice(1);
}

const part = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;

function meaningProblems(book: Book): string[] {
  const problems: string[] = [];
  problems.push(...doubled('pages', book.pages), ...doubled('tables', book.tables));
  const blocks = book.pages.flatMap((page) => page.blocks);
  problems.push(...doubled('blocks', blocks));
  for (const block of blocks) {
    if (block.kind === 'table' && !book.tables.some((table) => table.id === block.table))
      problems.push(`A page shows the table ${block.table}, which is not in the book.`);
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
  problems.push(...nameProblems(book), ...amountProblems(book));
  return problems;
}

function tableProblems(table: Table): string[] {
  const rows = new Set(table.rows.map((row) => row.id));
  const columns = new Set(table.columns.map((column) => column.id));
  const problems = [...doubled(`rows of “${table.name}”`, table.rows), ...doubled(`columns of “${table.name}”`, table.columns)];
  if (table.base !== undefined && !columns.has(table.base)) problems.push(`Table “${table.name}” is compared with a column that it does not have.`);
  for (const [row, line] of Object.entries(table.cells)) {
    if (!rows.has(row)) problems.push(`Table “${table.name}” has cells in a row (${row}) that is not there.`);
    for (const [column, cell] of Object.entries(line)) {
      if (!columns.has(column)) problems.push(`Table “${table.name}” has a cell in a column (${column}) that is not there.`);
      if (isFormula(cell.content) && cell.content.length > BOUNDS.formulaCharacters) {
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
  const names = Object.entries(book.names);
  if (names.length > BOUNDS.names) problems.push(`The book has ${count(names.length)} names; at most ${count(BOUNDS.names)} are allowed.`);
  for (const [name, target] of names) {
    const problem = cellNameProblem(name);
    if (problem) problems.push(problem);
    if (seen.has(name.toLowerCase())) problems.push(`Two names differ in capitals only: “${name}”.`);
    seen.add(name.toLowerCase());
    const reference = readReference(target);
    if (reference?.table === undefined || !tableNamed(book, reference.table))
      problems.push(`The name “${name}” stands for “${target}”, which is no place in the book.`);
  }
  return problems;
}

function amountProblems(book: Book): string[] {
  const amounts = amountsOf(book);
  const problems: string[] = [];
  if (amounts.cells > BOUNDS.filledCells) problems.push(`The book has ${count(amounts.cells)} filled cells; at most ${count(BOUNDS.filledCells)} are allowed.`);
  if (amounts.formulas > BOUNDS.formulas) problems.push(`The book has ${count(amounts.formulas)} formulas; at most ${count(BOUNDS.formulas)} are allowed.`);
  return problems;
}

function doubled(what: string, items: readonly { readonly id: string }[]): string[] {
  const seen = new Set<string>();
  const twice = new Set<string>();
  for (const { id } of items) (seen.has(id) ? twice : seen).add(id);
  return [...twice].map((id) => `Two of the ${what} have the same id: ${id}.`);
}
