/** The book seen as sheets of positions: which row, column and cell of the book a position is, and back. */
import { type At, cellText, columnText, placeIn, tablePrefix } from '../book/address.ts';
import type { Book, Cell, Column, Row, Table } from '../book/book.ts';
import { isWanted, onlyNoted } from '../book/look-up.ts';
import { type Position, readReference } from './addresses.ts';
import type { Address } from './types.ts';

interface Sheet {
  readonly table: Table;
  readonly rows: ReadonlyMap<string, number>;
  readonly columns: ReadonlyMap<string, number>;
  /** What addresses of its columns begin with: `Scenarios.B`. */
  readonly before: string[];
}

const numbered = (lines: readonly { readonly id: string }[]): ReadonlyMap<string, number> => new Map(lines.map((line, i) => [line.id, i]));

/** A position where a given belongs and nothing stands: its answer is wanted, and it is never read as 0. */
const UNANSWERED: Cell = { content: '' };

function cellIn(table: Table, row: Row, column: Column): Cell | undefined {
  const own = table.cells[row.id]?.[column.id];
  if (own && !onlyNoted(own)) return own;
  return ((row.kind ?? column.kind) === 'given' && !row.head) || isWanted(table, row, column) ? UNANSWERED : undefined;
}

export class Sheets {
  private sheets: readonly Sheet[] = [];
  private byName: ReadonlyMap<string, number> = new Map();
  private byId: ReadonlyMap<string, number> = new Map();
  book: Book | undefined;

  /** Takes a newer book; what did not change in it is not counted again. */
  update(book: Book): void {
    this.book = book;
    this.sheets = book.tables.map((table, i) => {
      const old = this.sheets[i];
      if (old?.table === table) return old;
      return {
        table,
        rows: old && old.table.rows === table.rows ? old.rows : numbered(table.rows),
        columns: old && old.table.columns === table.columns ? old.columns : numbered(table.columns),
        before: old?.table.name === table.name ? old.before : [],
      };
    });
    this.byName = new Map(book.tables.map((table, i) => [table.name.toLowerCase(), i]));
    this.byId = new Map(book.tables.map((table, i) => [table.id, i]));
  }

  get tables(): readonly Table[] {
    return this.sheets.map((sheet) => sheet.table);
  }

  /** Where the book keeps a cell, by the ids of its table, row and column. */
  position(table: string, row: string, column: string): Position | undefined {
    const sheet = this.byId.get(table);
    if (sheet === undefined) return undefined;
    const at = { row: this.sheets[sheet]?.rows.get(row), col: this.sheets[sheet]?.columns.get(column) };
    return at.row === undefined || at.col === undefined ? undefined : { sheet, row: at.row, col: at.col };
  }

  /** The sheet that a name in a formula means; a name's case does not matter. */
  sheet(name: string): number | undefined {
    return this.byName.get(name.toLowerCase());
  }

  size(sheet: number): { readonly name: string; readonly rows: number; readonly columns: number } | undefined {
    const table = this.sheets[sheet]?.table;
    return table && { name: table.name, rows: table.rows.length, columns: table.columns.length };
  }

  row(at: Position): Row | undefined {
    return this.sheets[at.sheet]?.table.rows[at.row];
  }

  column(at: Position): Column | undefined {
    return this.sheets[at.sheet]?.table.columns[at.col];
  }

  /** What stands at a position; an empty cell where a given belongs and none is. */
  cell(at: Position): Cell | undefined {
    const table = this.sheets[at.sheet]?.table;
    const row = table?.rows[at.row];
    const column = table?.columns[at.col];
    return table && row && column && cellIn(table, row, column);
  }

  /** A position as the book knows it; undefined past the edge of a table. */
  inBook(at: Position): At | undefined {
    const table = this.sheets[at.sheet]?.table;
    return table && placeIn(table, at.col, at.row);
  }

  /** A position as formulas say it: `Scenarios.B7`. */
  address(at: Position): Address {
    const sheet = this.sheets[at.sheet];
    if (!sheet) return cellText(at.col, at.row);
    sheet.before[at.col] ??= `${tablePrefix(sheet.table.name)}${columnText(at.col)}`;
    return `${sheet.before[at.col]}${at.row + 1}`;
  }

  /** The position that an address names, or undefined where there is none. A bare `B7` needs `table` to say whose. */
  find(address: Address, table?: number): Position | undefined {
    const written = readReference(address);
    if (!written) return undefined;
    const sheet = written.table === undefined ? table : this.sheet(written.table);
    return sheet === undefined || this.sheets[sheet] === undefined ? undefined : { sheet, ...written.start };
  }

  /** Row and column headings in words: "Bench length", or "Mount height, B" where the columns have headings. */
  heading(at: Position): string {
    const row = this.row(at)?.label ?? '';
    const column = this.column(at)?.label ?? '';
    return [row, column].filter(Boolean).join(', ') || this.address(at);
  }

  /** Every cell that holds something or waits for an answer. */
  *filled(): Generator<readonly [Position, Cell]> {
    for (const [sheet, { table }] of this.sheets.entries()) {
      for (const [row, line] of table.rows.entries()) {
        for (const [col, column] of table.columns.entries()) {
          const cell = cellIn(table, line, column);
          if (cell) yield [{ sheet, row, col }, cell];
        }
      }
    }
  }
}
