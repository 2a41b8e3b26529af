/**
 * Applies a change to a book. What it does not touch is shared with the book before, which stays as it was unless it is given away (`own`).
 */
import type { Book, Cell, Table } from './book.ts';
import type { Change, Edit } from './change.ts';

/**
 * The book after the change. Throws where the change was made for another book: that is a fault in the program, not in the input.
 * `own`: nobody else has the book before, whose tables' records of cells may then be written on. Copying that of a large table takes longer than
 * all else about an edit.
 */
export function apply(book: Book, change: Change, own = false): Book {
  const draft: Draft = { book, fresh: new Set(own ? unshared(book.tables) : []) };
  for (const edit of change.edits) applyEdit(draft, edit);
  return draft.book;
}

/** The book as it stands between two edits, and the objects that this change made itself and may therefore write on. */
interface Draft {
  book: Book;
  readonly fresh: Set<object>;
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };
type CellsByLine = Record<string, Record<string, Cell>>;

function applyEdit(draft: Draft, edit: Edit): void {
  switch (edit.at) {
    case 'cell': {
      setCell(draft, edit);
      return;
    }
    case 'row': {
      const table = own(draft, tableById(draft.book, edit.table), replaceTable(draft));
      table.rows = spliced(draft, table.rows, edit);
      return;
    }
    case 'column': {
      const table = own(draft, tableById(draft.book, edit.table), replaceTable(draft));
      table.columns = spliced(draft, table.columns, edit);
      return;
    }
    case 'table': {
      const book = ownBook(draft);
      book.tables = spliced(draft, book.tables, edit);
      return;
    }
    case 'table fields': {
      const table = own(draft, tableById(draft.book, edit.table), replaceTable(draft));
      changeFields(table, edit.before, edit.after);
      return;
    }
    case 'page': {
      const book = ownBook(draft);
      book.pages = spliced(draft, book.pages, edit);
      return;
    }
    case 'block': {
      const book = ownBook(draft);
      const index = book.pages.findIndex((page) => page.id === edit.page);
      const page = book.pages[index];
      if (!page) throw new Error(`a change speaks of a page that is not in the book: ${edit.page}`);
      book.pages = book.pages.with(index, { ...page, blocks: spliced(draft, page.blocks, edit) });
      return;
    }
    case 'name': {
      const book = ownBook(draft);
      const names = { ...book.names };
      if (edit.after === null) delete names[edit.name];
      else names[edit.name] = edit.after;
      book.names = names;
      return;
    }
    case 'book':
      changeFields(ownBook(draft), edit.before, edit.after);
  }
}

function setCell(draft: Draft, edit: Edit & { at: 'cell' }): void {
  const table = own(draft, tableById(draft.book, edit.table), replaceTable(draft));
  const spare = spares.get(table.cells);
  // It stands for the record as it was.
  spares.delete(table.cells);
  if (!draft.fresh.has(table.cells)) {
    table.cells = spare ?? copied(table.cells);
    draft.fresh.add(table.cells);
  }
  const cells = table.cells as CellsByLine;
  let row = cells[edit.row] ?? {};
  if (!draft.fresh.has(row)) {
    row = { ...row };
    draft.fresh.add(row);
    cells[edit.row] = row;
  }
  if (edit.after === null) delete row[edit.column];
  else row[edit.column] = edit.after;
  // A row without cells has no record, so that a book undone is the book as it was.
  if (Object.keys(row).length === 0) delete cells[edit.row];
}

/** Two tables may have one record of cells, where one was made as the other is. */
function unshared(tables: readonly Table[]): readonly Table['cells'][] {
  const all = tables.map((table) => table.cells);
  return all.filter((cells) => all.indexOf(cells) === all.lastIndexOf(cells));
}

/** Rows of a table whose record is copied beforehand. */
const LARGE = 500;
/** Copies of records, each for the next change of its own. */
const spares = new WeakMap<Table['cells'], CellsByLine>();

/** Copies what the next change of a cell would have to copy first: of ten thousand rows that takes longer than all else about an edit. */
export function prepare(book: Book): void {
  for (const { rows, cells } of book.tables) if (rows.length >= LARGE && !spares.has(cells)) spares.set(cells, copied(cells));
}

/** Of thousands of rows a spread takes twice as long. */
function copied(cells: Table['cells']): CellsByLine {
  const made: CellsByLine = {};
  for (const row of Object.keys(cells)) made[row] = cells[row] as CellsByLine[string];
  return made;
}

function tableById(book: Book, id: string): Table {
  const table = book.tables.find((t) => t.id === id);
  if (!table) throw new Error(`a change speaks of a table that is not in the book: ${id}`);
  return table;
}

function ownBook(draft: Draft): Writable<Book> {
  return own(draft, draft.book, (_, made) => {
    draft.book = made;
  });
}

const replaceTable =
  (draft: Draft) =>
  (table: Table, made: Table): void => {
    const book = ownBook(draft);
    book.tables = book.tables.with(book.tables.indexOf(table), made);
  };

/** The object itself where this change made it, else a copy put in its place. */
function own<T extends object>(draft: Draft, object: T, replace: (object: T, made: T) => void): Writable<T> {
  if (draft.fresh.has(object)) return object;
  const made = { ...object };
  draft.fresh.add(made);
  replace(object, made);
  return made;
}

interface ListEdit<T> {
  readonly index: number;
  readonly before: T | null;
  readonly after: T | null;
}

function spliced<T extends { readonly id: string }>(draft: Draft, list: readonly T[], edit: ListEdit<T>): readonly T[] {
  const { index, before, after } = edit;
  if (index < 0 || index > list.length || (before && list[index]?.id !== before.id)) {
    throw new Error(`a change does not fit this book: ${before ? `${before.id} is not at place ${index}` : `there is no place ${index}`}`);
  }
  // Deleting a thousand rows in one change must not copy the list a thousand times.
  const made = draft.fresh.has(list) ? (list as T[]) : [...list];
  draft.fresh.add(made);
  made.splice(index, before ? 1 : 0, ...(after ? [after] : []));
  return made;
}

function changeFields<T extends object>(target: T, before: Partial<T>, after: Partial<T>): void {
  for (const key of Object.keys(before) as (keyof T)[]) if (!(key in after)) delete target[key];
  Object.assign(target, after);
}
