/**
 * The change that an import makes, as it grows: cells of tables that are there, rows and columns put after their last ones, new tables on pages.
 * It keeps within what a book may hold; what is beyond is answered with a reason, so that it can be kept aside with a word.
 */
import { type At, placeIn, tableNamed } from '../../book/address.ts';
import type { Block, Book, Cell, Column, Page, Row, Table } from '../../book/book.ts';
import { amountsOf, BOUNDS, count, noRoomForBlock } from '../../book/bounds.ts';
import type { Change, Edit } from '../../book/change.ts';
import { cellEdit } from '../../book/commands/set-cell.ts';
import { isFormula } from '../../book/content.ts';
import { freshIds } from '../../book/lines.ts';
import { cellNameProblem, tableNameProblem } from '../../book/names.ts';

/** A table that the book does not have yet. Its cells are told by place; labels may come late. */
export interface NewTable {
  readonly name: string;
  readonly page: string;
  readonly rows: Map<number, Omit<Row, 'id'>>;
  readonly columns: Map<number, Omit<Column, 'id'>>;
  /** By row, then by column. */
  readonly cells: Map<number, Map<number, Cell>>;
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** A table's lines with those that this import puts after them, and the number from which fresh ids go on. */
interface Growing {
  readonly rows: Writable<Row>[];
  readonly columns: Writable<Column>[];
  next: number;
}

export class Draft {
  private readonly edits: Edit[] = [];
  private readonly growing = new Map<string, Growing>();
  private readonly added: NewTable[] = [];
  private readonly names = new Map<string, string>();
  private cells: number;
  private formulas: number;

  readonly book: Book;

  constructor(book: Book) {
    this.book = book;
    const amounts = amountsOf(book);
    this.cells = amounts.cells;
    this.formulas = amounts.formulas;
  }

  /** The place as it is before the import, if the table has it; in rows and columns that this import adds, an empty one. */
  placeIn(table: Table, column: number, row: number): At | undefined {
    const grown = this.growing.get(table.id);
    if (!grown) return placeIn(table, column, row);
    const found = { row: grown.rows[row], column: grown.columns[column] };
    if (!found.row || !found.column) return undefined;
    return { table, row: found.row, column: found.column, rowIndex: row, columnIndex: column, cell: table.cells[found.row.id]?.[found.column.id] };
  }

  /** Puts a cell in a place of a table that is there; gives why it can't. */
  set(at: At, after: Cell): string | undefined {
    const problem = this.room(at.cell, after);
    if (problem === undefined) this.edits.push(...cellEdit(at, after));
    return problem;
  }

  /** Makes a table as long and as wide as a place needs; gives why it can't. */
  reach(table: Table, column: number, row: number): string | undefined {
    const problem = outside(column, row);
    if (problem !== undefined) return problem;
    const grown = this.growing.get(table.id) ?? grow(table);
    this.growing.set(table.id, grown);
    for (let index = grown.rows.length; index <= row; index++) {
      const after = { id: `r${grown.next++}` };
      this.edits.push({ at: 'row', table: table.id, index, before: null, after });
      grown.rows.push(after);
    }
    for (let index = grown.columns.length; index <= column; index++) {
      const after = { id: `c${grown.next++}` };
      this.edits.push({ at: 'column', table: table.id, index, before: null, after });
      grown.columns.push(after);
    }
    return undefined;
  }

  /** Labels a row or column that this import put there. */
  label(table: Table, axis: 'row' | 'column', index: number, label: string): void {
    const lines = axis === 'row' ? this.growing.get(table.id)?.rows : this.growing.get(table.id)?.columns;
    const line = index < (axis === 'row' ? table.rows : table.columns).length ? undefined : lines?.[index];
    if (line && label !== '') line.label = label.slice(0, BOUNDS.title);
  }

  /** Begins a table that the book does not have, or gives why it can't. `page` is a page's title. */
  begin(name: string, page: string): NewTable | string {
    const problem = tableNameProblem(name);
    if (problem !== undefined) return problem;
    if (tableNamed(this.book, name) || this.added.some((table) => same(table.name, name))) return `There is a table called “${name}” already.`;
    if (this.book.tables.length + this.added.length >= BOUNDS.tables) return `A book has at most ${BOUNDS.tables} tables.`;
    const full = noRoomForBlock(this.book, this.added.length + 1);
    if (full) return full;
    const made: NewTable = { name, page: page.slice(0, BOUNDS.title), rows: new Map(), columns: new Map(), cells: new Map() };
    this.added.push(made);
    return made;
  }

  /** Puts a cell into a new table; gives why it can't. */
  put(table: NewTable, column: number, row: number, cell: Cell): string | undefined {
    const problem = outside(column, row) ?? this.room(undefined, cell);
    if (problem !== undefined) return problem;
    let line = table.cells.get(row);
    if (!line) {
      line = new Map();
      table.cells.set(row, line);
    }
    line.set(column, cell);
    return undefined;
  }

  /** Lets a name stand for an address; gives why it can't. */
  name(name: string, address: string): string | undefined {
    const problem = cellNameProblem(name);
    if (problem !== undefined) return problem;
    const known = [...Object.keys(this.book.names), ...this.names.keys()].some((other) => same(other, name));
    if (known) return `“${name}” names another cell already.`;
    if (Object.keys(this.book.names).length + this.names.size >= BOUNDS.names) return `A book has at most ${count(BOUNDS.names)} names.`;
    this.names.set(name, address);
    return undefined;
  }

  change(label: string): Change {
    const tables: { readonly table: Table; readonly page: string }[] = [];
    for (const made of this.added) {
      const [id = ''] = freshIds([...this.book.tables, ...tables.map(({ table }) => table)], 't', 1);
      tables.push({ table: finished(made, id), page: made.page });
    }
    const tableEdits = tables.map(({ table }, i): Edit => ({ at: 'table', index: this.book.tables.length + i, before: null, after: table }));
    const nameEdits = [...this.names].map(([name, after]): Edit => ({ at: 'name', name, before: null, after }));
    return { label, edits: [...this.edits, ...tableEdits, ...this.pageEdits(tables), ...nameEdits] };
  }

  /** Each new table goes to the foot of the page that is called as it says; without one there, to a new page at the end. */
  private pageEdits(tables: readonly { readonly table: Table; readonly page: string }[]): Edit[] {
    const edits: Edit[] = [];
    const pages: Page[] = [...this.book.pages];
    for (const { table, page: title } of tables) {
      const [id = ''] = freshIds(
        pages.flatMap((page) => page.blocks),
        'b',
        1,
      );
      const block: Block = { id, kind: 'table', table: table.id };
      const index = pages.findIndex((page) => same(page.title, title));
      const found = pages[index];
      if (found) {
        edits.push({ at: 'block', page: found.id, index: found.blocks.length, before: null, after: block });
        pages[index] = { ...found, blocks: [...found.blocks, block] };
      } else {
        const [pageId = ''] = freshIds(pages, 'p', 1);
        const page: Page = { id: pageId, title: title || table.name, blocks: [block] };
        edits.push({ at: 'page', index: pages.length, before: null, after: page });
        pages.push(page);
      }
    }
    return edits;
  }

  private room(before: Cell | undefined, after: Cell): string | undefined {
    const { content } = after;
    const formula = isFormula(content);
    if (formula && content.length > BOUNDS.formulaCharacters) return `A formula has at most ${count(BOUNDS.formulaCharacters)} characters.`;
    for (const text of [content, after.source ?? '', after.note ?? ''])
      if (text.length > BOUNDS.text) return `A text has at most ${count(BOUNDS.text)} characters.`;
    const cells = this.cells + (before ? 0 : 1);
    const formulas = this.formulas + (formula ? 1 : 0) - (before && isFormula(before.content) ? 1 : 0);
    if (cells > BOUNDS.filledCells) return `A book has at most ${count(BOUNDS.filledCells)} filled cells.`;
    if (formulas > BOUNDS.formulas && formulas > this.formulas) return `A book has at most ${count(BOUNDS.formulas)} formulas.`;
    this.cells = cells;
    this.formulas = formulas;
    return undefined;
  }
}

function grow(table: Table): Growing {
  const [fresh = ''] = freshIds([...table.rows, ...table.columns], 'r', 1);
  return { rows: [...table.rows], columns: [...table.columns], next: Number(fresh.slice(1)) };
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

function outside(column: number, row: number): string | undefined {
  if (row >= BOUNDS.rows) return `A table has at most ${count(BOUNDS.rows)} rows.`;
  return column >= BOUNDS.columns ? `A table has at most ${BOUNDS.columns} columns.` : undefined;
}

function finished(made: NewTable, id: string): Table {
  const deepest = (keys: Iterable<number>): number => [...keys].reduce((most, key) => Math.max(most, key), -1);
  const length = 1 + Math.max(deepest(made.rows.keys()), deepest(made.cells.keys()));
  let width = 1 + deepest(made.columns.keys());
  for (const line of made.cells.values()) width = Math.max(width, 1 + deepest(line.keys()));
  const columns = Array.from({ length: width }, (_, c): Column => ({ id: `c${c + 1}`, ...made.columns.get(c) }));
  const rows = Array.from({ length }, (_, r): Row => ({ id: `r${r + 1}`, ...made.rows.get(r) }));
  const cells: Record<string, Record<string, Cell>> = {};
  for (const [r, line] of made.cells) cells[`r${r + 1}`] = Object.fromEntries([...line].map(([c, cell]) => [`c${c + 1}`, cell]));
  return { id, name: made.name, form: formOf(rows, columns), columns, rows, cells };
}

/** Headings in a row of their own make a list, several headed columns are scenarios. */
function formOf(rows: readonly Row[], columns: readonly Column[]): Table['form'] {
  if (rows.some((row) => row.head)) return 'list';
  return columns.filter((column) => column.label !== undefined).length > 1 ? 'scenarios' : 'plain';
}
