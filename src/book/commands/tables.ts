/** New tables, and tables that go. See rename.ts for their names. */
import { tableNamed } from '../address.ts';
import type { Book, Column, Row, Table } from '../book.ts';
import { BOUNDS, count, noRoomForBlock } from '../bounds.ts';
import { blockIds, freshIds, NOTHING_LOST, tablesOf } from '../lines.ts';
import { tableNameProblem } from '../names.ts';
import { LOST } from '../references.ts';
import { type Answer, refused } from '../refused.ts';
import { type Rewritten, rewriteBook } from '../rewrite-book.ts';

export interface AddTable {
  /** The id of the page on which it is to stand. */
  readonly page: string;
  /** Before which block of the page, from 0; left out: last. */
  readonly at?: number;
  readonly name: string;
  /** A list has its headings in its first row; a comparing table has the scenarios that the book has. */
  readonly form: 'plain' | 'list' | 'scenarios';
  readonly rows: number;
  /** Of a comparing table, only where it is the first in the book. */
  readonly columns: number;
}

export function addTable(book: Book, { page: id, at, name, form, rows, columns }: AddTable): Answer {
  const page = book.pages.find((each) => each.id === id);
  if (!page) return refused(`There is no page ${id} in this book.`);
  const index = at ?? page.blocks.length;
  if (!Number.isInteger(index) || index < 0 || index > page.blocks.length) return refused(`There is no such place on the page ${page.title}.`);
  const problem = tableNameProblem(name);
  if (problem) return refused(problem);
  const other = tableNamed(book, name);
  if (other) return refused(`There is already a table called “${other.name}”.`);
  if (book.tables.length >= BOUNDS.tables) return refused(`This book has ${count(BOUNDS.tables)} tables, which is the most a book may have.`);
  const full = noRoomForBlock(book);
  if (full) return refused(full);
  if (!within(rows, BOUNDS.rows) || !within(columns, BOUNDS.columns))
    return refused(`A table has from 1 to ${count(BOUNDS.rows)} rows and from 1 to ${BOUNDS.columns} columns.`);
  const [tableId = ''] = freshIds(book.tables, 't', 1);
  const [blockId = ''] = freshIds(blockIds(book), 'b', 1);
  const table: Table = {
    id: tableId,
    name,
    form,
    columns: form === 'scenarios' ? scenarios(book, columns) : freshIds([], 'c', columns).map((each) => ({ id: each })),
    rows: freshIds([], 'r', rows).map((each, i): Row => (form === 'list' && i === 0 ? { id: each, head: true } : { id: each })),
    cells: {},
  };
  return {
    label: `Table ${name} added to ${page.title}`,
    edits: [
      { at: 'table', index: book.tables.length, before: null, after: table },
      { at: 'block', page: id, index, before: null, after: { id: blockId, kind: 'table', table: tableId } },
    ],
  };
}

const within = (n: number, most: number): boolean => Number.isInteger(n) && n >= 1 && n <= most;

function scenarios(book: Book, columns: number): readonly Column[] {
  const like = tablesOf(book, 'scenarios')[0];
  if (like) return like.columns.map(({ id, label }) => (label === undefined ? { id } : { id, label }));
  return freshIds([], 'c', Math.min(columns, 26)).map((id, i) => ({ id, label: String.fromCharCode(65 + i) }));
}

/** Takes a table out; nothing on a page may show it any longer. What read its cells says that they are gone. */
export function removeTable(book: Book, id: string): Rewritten {
  const index = book.tables.findIndex((each) => each.id === id);
  const table = book.tables[index];
  if (!table) return { edits: [], ...NOTHING_LOST };
  const name = table.name.toLowerCase();
  const found = rewriteBook(
    book,
    (home) => (reference) => ((reference.table ?? home?.name)?.toLowerCase() === name ? LOST : undefined),
    (home) => home === table,
  );
  // The table goes as it is, its own rows and columns with it.
  const elsewhere = found.edits.filter((edit) => !('table' in edit) || edit.table !== id);
  return { ...found, edits: [...elsewhere, { at: 'table', index, before: table, after: null }] };
}
