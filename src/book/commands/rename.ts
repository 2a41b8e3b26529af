/** New names: of the book and its client, of pages, of tables, of rows and columns, and names for cells. */
import { cellAt, referenceText, tableNamed } from '../address.ts';
import type { Book, Table } from '../book.ts';
import { BOUNDS } from '../bounds.ts';
import type { BookFields, Edit } from '../change.ts';
import { type Axis, findTable, lineEdit, linesOf } from '../lines.ts';
import { named, titleOf } from '../look-up.ts';
import { cellNameProblem, tableNameProblem } from '../names.ts';
import { followName } from '../references.ts';
import { type Answer, type Refused, refused } from '../refused.ts';
import { rewriteBook } from '../rewrite-book.ts';
import { tablesWithScenarios } from './add-scenario.ts';

const tooLong = (text: string): Refused | undefined =>
  text.length > BOUNDS.title ? refused(`“${text.slice(0, 20)}…” is too long: at most ${BOUNDS.title} characters.`) : undefined;

export interface RenameBook {
  readonly title?: string;
  readonly client?: string;
}

export function renameBook(book: Book, args: RenameBook): Answer {
  const before: Record<string, string> = {};
  const after: Record<string, string> = {};
  for (const key of ['title', 'client'] as const) {
    const text = args[key];
    if (text === undefined || text === book[key]) continue;
    if (key === 'title' && text.trim() === '') return refused('A book needs a title.');
    const problem = tooLong(text);
    if (problem) return problem;
    before[key] = book[key];
    after[key] = text;
  }
  const label = Object.entries(after)
    .map(([key, text]) => `${key === 'title' ? 'Title' : 'Client'}: ${text}`)
    .join(', ');
  return { label, edits: label === '' ? [] : [{ at: 'book', before: before as BookFields, after: after as BookFields }] };
}

export interface RenamePage {
  /** The page's id. */
  readonly page: string;
  readonly title: string;
}

export function renamePage(book: Book, { page: id, title }: RenamePage): Answer {
  const index = book.pages.findIndex((page) => page.id === id);
  const page = book.pages[index];
  if (!page) return refused(`There is no page ${id} in this book.`);
  if (title.trim() === '') return refused('A page needs a title.');
  const edits: Edit[] = title === page.title ? [] : [{ at: 'page', index, before: page, after: { ...page, title } }];
  return tooLong(title) ?? { label: `Page ${page.title}: now ${title}`, edits };
}

export interface RenameTable {
  /** The table's id or name. */
  readonly table: string;
  readonly name: string;
}

/** Every formula, name, chip and picture that says the table's name says the new one. */
export function renameTable(book: Book, { table: wanted, name }: RenameTable): Answer {
  const table = findTable(book, wanted);
  if (!table) return refused(`There is no table ${wanted} in this book.`);
  const problem = tableNameProblem(name);
  if (problem) return refused(problem);
  const other = tableNamed(book, name);
  if (other && other !== table) return refused(`There is already a table called “${other.name}”.`);
  const label = `Table ${table.name}: now ${name}`;
  if (name === table.name) return { label, edits: [] };
  const { edits } = rewriteBook(book, () => followName(table.name, name));
  return { label, edits: [...edits, { at: 'table fields', table: table.id, before: { name: table.name }, after: { name } }] };
}

export interface SetHeading {
  /** The table's id or name. */
  readonly table: string;
  readonly axis: Axis;
  readonly at: number;
  /** Empty: none. */
  readonly label: string;
}

/** A scenario is called the same in every table that compares it. */
export function setHeading(book: Book, { table: wanted, axis, at, label }: SetHeading): Answer {
  const table = findTable(book, wanted);
  const line = table && linesOf(table, axis)[at];
  if (!table || !line) return refused(`There is no such ${axis} in ${wanted}.`);
  const old = line.label;
  const scenario = table.form === 'scenarios' && axis === 'column';
  const again = (each: Table): Edit => {
    const before = linesOf(each, axis)[at] ?? line;
    const { label: _, ...rest } = before;
    return lineEdit(each, axis, at, before, label === '' ? rest : { ...rest, label });
  };
  const problem = tooLong(label) ?? (scenario ? scenarioProblem(table, at, label) : undefined);
  if (problem) return problem;
  const said = `${scenario ? 'Scenario' : 'Heading'} ${old ?? 'none'}: now ${label || 'none'}`;
  if ((old ?? '') === label) return { label: said, edits: [] };
  return { label: said, edits: scenario ? tablesWithScenarios(book, table).map(again) : [again(table)] };
}

function scenarioProblem(table: Table, at: number, label: string): Refused | undefined {
  if (label.trim() === '') return refused('A scenario needs a name.');
  return table.columns.some((column, i) => i !== at && column.label === label) ? refused(`There is already a scenario ${label}.`) : undefined;
}

export interface SetName {
  readonly name: string;
  /** The cell that it stands for; null takes the name away. */
  readonly address: string | null;
}

/** Names a cell. A name taken away leaves the formulas that say it without a cell: they show that there is no such name. */
export function setName(book: Book, { name, address }: SetName): Answer {
  const before = Object.hasOwn(book.names, name) ? (book.names[name] ?? null) : null;
  if (address === null)
    return before === null
      ? refused(`There is no name ${name} in this book.`)
      : { label: `Name ${name} taken away`, edits: [{ at: 'name', name, before, after: null }] };
  const problem = cellNameProblem(name);
  if (problem) return refused(problem);
  if (before === null && named(book, name) !== undefined) return refused(`There is already a name that differs from ${name} in capitals only.`);
  const at = cellAt(book, address);
  if (!at) return refused(`There is no cell ${address} in this book.`);
  const corner = { column: at.columnIndex, row: at.rowIndex, columnFixed: true, rowFixed: true };
  const after = referenceText({ table: at.table.name, from: corner, to: corner, range: false });
  return { label: `${titleOf(at)}: named ${name}`, edits: before === after ? [] : [{ at: 'name', name, before, after }] };
}

export interface RenameName {
  readonly name: string;
  readonly to: string;
}

/** Every formula, chip and picture that says the name says the new one. */
export function renameName(book: Book, { name, to }: RenameName): Answer {
  const target = Object.hasOwn(book.names, name) ? book.names[name] : undefined;
  if (target === undefined) return refused(`There is no name ${name} in this book.`);
  const problem = cellNameProblem(to);
  if (problem) return refused(problem);
  const lower = name.toLowerCase();
  if (to.toLowerCase() !== lower && named(book, to) !== undefined) return refused(`There is already a name ${to}.`);
  const label = `Name ${name}: now ${to}`;
  if (to === name) return { label, edits: [] };
  const { edits } = rewriteBook(
    book,
    () => () => undefined,
    () => false,
    (word) => (word.toLowerCase() === lower ? to : undefined),
  );
  return { label, edits: [...edits, { at: 'name', name, before: target, after: null }, { at: 'name', name: to, before: null, after: target }] };
}
