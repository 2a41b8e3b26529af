/** What holds for a cell, when its own word, its row's and its column's are put together; and what it is called. */
import { type At, cellAt, placeIn, readReference, tableNamed, textOf } from './address.ts';
import type { Book, Cell, Column, Kind, Range, Row, Table } from './book.ts';
import { isFormula, plainText } from './content.ts';

/** The shown unit that was set, on the cell, else its row, else its column. A worked cell without one shows the unit that its formula gives. */
export const unitOf = ({ cell, row, column }: At): string | undefined => cell?.unit ?? row.unit ?? column.unit;

export const decimalsOf = ({ cell, row, column }: At): number | undefined => cell?.decimals ?? row.decimals ?? column.decimals;

export const sourceOf = ({ cell, row, column }: At): string | undefined => cell?.source ?? row.source ?? column.source;

export const noteOf = ({ cell, row, column }: At): string | undefined => cell?.note ?? row.note ?? column.note;

/** The allowed range, with the unit in which its limits are. */
export function rangeOf(at: At): Range | undefined {
  // A column's range is for what stands under its heading, not for the heading.
  const range = at.cell?.range ?? at.row.range ?? (at.row.head ? undefined : at.column.range);
  if (!range || (range.low === undefined && range.high === undefined)) return range;
  // Limits that don't say their unit are in the one that is set where they stand: a row's in the row's.
  const unit = range.unit ?? (at.cell?.range ? unitOf(at) : at.row.range ? (at.row.unit ?? at.column.unit) : at.column.unit);
  return unit === undefined ? range : { ...range, unit };
}

/** The list that a given takes its text from, and where in it. */
export function sourceIn(book: Book, at: At) {
  const reference = readReference(rangeOf(at)?.from ?? '');
  const list = reference && tableNamed(book, reference.table ?? at.table.name);
  return list && { list, column: reference.from.column, last: reference.to.column, from: reference.from.row, to: reference.to.row };
}

/** A note says nothing of what belongs there: a blank with nothing else is as blank as one without. */
export const onlyNoted = (cell: Cell): boolean => cell.content === '' && cell.note !== undefined && Object.keys(cell).length === 2;

/** What a cell is: a given whose formula only points at another cell is "as" that one; a look-up table's headings are neither. */
export type Standing = Kind | 'as' | 'head' | 'blank';

export function standingOf(at: At): Standing {
  if (at.row.head) return 'head';
  const kind = at.cell?.kind ?? at.row.kind ?? at.column.kind;
  const content = at.cell?.content ?? '';
  if (isFormula(content)) return kind === 'given' ? (pointsAt(at) === undefined ? 'worked' : 'as') : (kind ?? 'worked');
  if ((!at.cell || onlyNoted(at.cell)) && kind !== 'given') return isWanted(at.table, at.row, at.column) ? 'given' : 'blank';
  return kind === 'worked' || kind === 'check' ? kind : 'given';
}

/** Whether a blank there is a given that is not answered: a column of a list says that it is needed, and the row is filled. */
export function isWanted(table: Table, row: Row, column: Column): boolean {
  if (!column.needed || table.form !== 'list' || row.head) return false;
  const [first] = table.columns;
  return first !== undefined && first !== column && (table.cells[row.id]?.[first.id]?.content ?? '') !== '';
}

/** The address that a cell's formula points at, where it does nothing else: `=A7`, `=Brief.A1`. */
export function pointsAt(at: At): string | undefined {
  const content = at.cell?.content ?? '';
  const reference = isFormula(content) ? readReference(content.slice(1)) : undefined;
  if (!reference || reference.range) return undefined;
  return textOf(reference.table ?? at.table.name, reference.from.column, reference.from.row);
}

/** The heading of a row: its label, else the first text in it, else its number. */
export function rowHeading(at: At): string {
  if (at.row.label) return at.row.label;
  for (const column of at.table.columns) {
    if (column.id === at.column.id) break;
    const content = at.table.cells[at.row.id]?.[column.id]?.content;
    if (content && !isFormula(content)) return plainText(content);
  }
  return `row ${at.rowIndex + 1}`;
}

/** The heading of a column: its label, else its text in the heading row, else nothing. */
export function columnHeading(at: At): string {
  if (at.column.label) return at.column.label;
  const head = headRow(at.table);
  return plainText((head && at.table.cells[head.id]?.[at.column.id]?.content) ?? '');
}

/** Asked of every cell that is shown or written, so that the rows are not searched again each time. */
const heads = new WeakMap<readonly Row[], Row | null>();

function headRow({ rows }: Table): Row | null {
  const known = heads.get(rows);
  if (known !== undefined) return known;
  const found = rows.find((row) => row.head) ?? null;
  heads.set(rows, found);
  return found;
}

/** What people call a cell: "Mount height, B". */
export function titleOf(at: At): string {
  const column = columnHeading(at);
  return column === '' ? rowHeading(at) : `${rowHeading(at)}, ${column}`;
}

export const addressOf = (at: At): string => textOf(at.table.name, at.columnIndex, at.rowIndex);

/** The cell or range that a name stands for, or undefined. Names are told apart without regard to capitals. */
export function named(book: Book, name: string): string | undefined {
  const lower = name.toLowerCase();
  const found = Object.keys(book.names).find((known) => known.toLowerCase() === lower);
  return found === undefined ? undefined : book.names[found];
}

/** The names that stand for just this cell. */
export const namesOf = (book: Book, at: At): readonly string[] => namesByAddress(book.names).get(addressOf(at).toLowerCase()) ?? [];

const byAddress = new WeakMap<Book['names'], ReadonlyMap<string, readonly string[]>>();

function namesByAddress(names: Book['names']): ReadonlyMap<string, readonly string[]> {
  const known = byAddress.get(names);
  if (known) return known;
  const made = new Map<string, string[]>();
  for (const [name, target] of Object.entries(names)) {
    const reference = readReference(target);
    if (reference?.table === undefined || reference.range) continue;
    const address = textOf(reference.table, reference.from.column, reference.from.row).toLowerCase();
    made.set(address, [...(made.get(address) ?? []), name]);
  }
  byAddress.set(names, made);
  return made;
}

/** The place of a name or an address. */
export function placeOf(book: Book, text: string): At | undefined {
  return cellAt(book, named(book, text) ?? text);
}

/** The column that the other scenarios are compared with: the one marked, else the first. */
export function baseColumn(table: Table): number {
  return Math.max(
    table.columns.findIndex((column) => column.id === table.base),
    0,
  );
}

/** The cell beside it in the base scenario; undefined in the base itself and outside comparing tables. */
export function baseOf(at: At): At | undefined {
  if (at.table.form !== 'scenarios') return undefined;
  const column = baseColumn(at.table);
  return column === at.columnIndex ? undefined : placeIn(at.table, column, at.rowIndex);
}

/** The table that a block of a page shows. */
export const tableOfBlock = (book: Book, id: string): Table | undefined => book.tables.find((table) => table.id === id);
