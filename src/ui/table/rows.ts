/**
 * What the rows of a table are drawn from: plain data, worked out of the book, the values and what is chosen, and of nothing on the page. A row
 * whose data say the same as when it was drawn stands there as it should, and is not drawn again.
 */
import type { At } from '../../book/address.ts';
import { placeIn } from '../../book/address.ts';
import type { Area } from '../../book/area.ts';
import type { Book, Row, Table } from '../../book/book.ts';
import { baseColumn, baseOf, rangeOf, sourceOf, titleOf } from '../../book/look-up.ts';
import { isLeft } from '../../book/said-by.ts';
import type { Address } from '../../engine/types.ts';
import type { RowValues, TableValues } from '../../values.ts';
import { allowedText, type CellView, spokenName, viewBeside } from '../cells/index.ts';
import { spotText } from '../parts/index.ts';
import { alike } from './alike.ts';
import type { Fold } from './folds.ts';
import type { Spot } from './grid-moves.ts';
import { isIn } from './selection.ts';

/** What is seen of a table, and what is chosen in it. */
export interface View {
  /** The chosen cell, where it is one of this table. */
  readonly chosen: Spot | undefined;
  /** Several chosen cells. */
  readonly area: Area | undefined;
  /** Cells that were cut. */
  readonly taken: Area | undefined;
  readonly letters: ReadonlyMap<Address, string>;
  readonly pending: ReadonlyMap<Address, string>;
  /** Of a large table, of which not all is drawn. */
  readonly large: Large | undefined;
}

export interface Large {
  /** Where each column begins, and at the end where the last one ends (px). */
  readonly edges: readonly number[];
  /** px */
  readonly rowHeight: number;
  /** Lines of the heading, which count before all others. */
  readonly above: number;
}

/** Where a line is drawn of a large table: its place in the grid (from 1) and from the top (px). */
interface LineLies {
  readonly nth: number;
  readonly top: number;
}

/** Of a cell of a large table, in px: where it begins, how far that is behind the end of the one before, and its width; and its place in its row, from 1. */
export interface CellLies {
  readonly nth: number;
  readonly left: number;
  readonly gap: number;
  readonly width: number;
}

/** A cell, whatever is chosen and marked. */
export interface CellModel {
  readonly id: string;
  readonly column: number;
  /** `row,column`, from 0. */
  readonly spot: string;
  readonly address: Address;
  /** A heading of a list. */
  readonly head: boolean;
  /** px that its column was set to. */
  readonly columnWidth: number | undefined;
  /** Of the scenario that the others are compared with. */
  readonly base: boolean;
  /** Of a comparing table numbers have their points under one another. */
  readonly list: boolean;
  readonly view: CellView;
  /** Its own, which has a mark. */
  readonly note: string | undefined;
  /** By which it is read aloud. */
  readonly name: string;
  /** Under an answer of the brief. */
  readonly said: Said | undefined;
}

/** Who said so, and what may be said. */
interface Said {
  readonly of: string;
  readonly left: boolean;
  readonly teller: string;
  readonly allowed: string;
}

/** `on`: it is the chosen cell. `among`: it is one of those chosen. `cut`: it goes to where it is pasted. */
export interface MarkedCell {
  readonly cell: CellModel;
  readonly on: boolean;
  readonly among: boolean;
  readonly cut: boolean;
  /** Ties it to the margin, or to the formula that is written: it is read there. */
  readonly letter: string | undefined;
  /** What was typed and is being read. */
  readonly pending: string | undefined;
  readonly lies: CellLies | undefined;
}

export interface RowModel {
  readonly kind: 'row';
  readonly id: string;
  readonly row: number;
  readonly looks: string;
  readonly head: boolean;
  readonly labelled: boolean;
  readonly label: string;
  /** The words under the question, in the brief. */
  readonly help: string | undefined;
  readonly cells: readonly MarkedCell[];
  readonly lies: LineLies | undefined;
}

/** The line of a group of rows that are put away, or were. */
export interface FoldModel {
  readonly kind: 'fold';
  readonly fold: Fold;
  readonly open: boolean;
  /** Columns that it lies across. */
  readonly width: number;
  readonly lies: LineLies | undefined;
}

export type LineModel = RowModel | FoldModel;

/** Of which row, and as which line it stands. */
export interface Which {
  readonly row: number;
  readonly line: number;
  /** The columns to draw; all where it is left out. */
  readonly columns?: readonly number[];
}

/** What a row is drawn from. `before`: what it was drawn from last, which is given back where it still says the same. */
export function rowModel(book: Book, table: Table, values: TableValues, view: View, which: Which, before?: LineModel): RowModel {
  const source = allOf(book, table, values, which.row);
  const known = before?.kind === 'row' ? before : undefined;
  const cells = cellsOf(source, known && origins.get(known));
  const row = table.rows[which.row] as Row;
  const model: RowModel = {
    kind: 'row',
    id: row.id,
    row: which.row,
    looks: [row.parted && 'parted', row.strong && 'strong', view.chosen?.row === which.row && 'sel'].filter(Boolean).join(' '),
    head: row.head === true,
    labelled: isLabelled(table.rows),
    label: row.label ?? '',
    help: row.help,
    cells: marked(cells, view, which, known?.cells),
    lies: lineLies(view.large, which.line),
  };
  const same = known && alike(known, model) ? known : model;
  origins.set(same, cells);
  return same;
}

export function foldModel(table: Table, fold: Fold, open: boolean, view: View, line: number, before?: LineModel): FoldModel {
  const model: FoldModel = { kind: 'fold', fold, open, width: table.columns.length + (isLabelled(table.rows) ? 1 : 0), lies: lineLies(view.large, line) };
  return before?.kind === 'fold' && alike(before, model) ? before : model;
}

const lineLies = (large: Large | undefined, line: number): LineLies | undefined =>
  large && { nth: line + large.above + 1, top: Math.max(line, 0) * large.rowHeight };

/** Everything that a row's cells may be made of: `cellModel` has nothing else at hand. */
interface Source {
  /** The table's place in the book, by which its cells have their ids. */
  readonly place: number;
  readonly id: string;
  readonly name: string;
  readonly form: Table['form'];
  readonly base: string | undefined;
  readonly columns: Table['columns'];
  readonly rows: Table['rows'];
  readonly row: number;
  readonly cells: Table['cells'][string] | undefined;
  /** Of the row of headings, by its id. */
  readonly head: string | undefined;
  readonly headings: Table['cells'][string] | undefined;
  readonly values: RowValues | undefined;
}

function allOf(book: Book, table: Table, values: TableValues, row: number): Source {
  const { id, name, form, base, columns, rows, cells } = table;
  const head = headOf(rows);
  return {
    place: book.tables.indexOf(table),
    id,
    name,
    form,
    base,
    columns,
    rows,
    row,
    cells: cells[rows[row]?.id ?? ''],
    head,
    headings: head === undefined ? undefined : cells[head],
    values: values[row],
  };
}

/** The cells of a row that were made of one source, each when it is first drawn. */
interface Cells {
  readonly source: Source;
  readonly made: (CellModel | undefined)[];
  /** The same with no more in it than the source has. */
  readonly table: Table;
}

/** What each row was made of. */
const origins = new WeakMap<RowModel, Cells>();

function cellsOf(source: Source, known: Cells | undefined): Cells {
  if (known && (Object.keys(source) as (keyof Source)[]).every((key) => source[key] === known.source[key])) return known;
  const { id, name, form, base, columns, rows, row, cells, head, headings } = source;
  const held: Record<string, Table['cells'][string]> = {};
  if (head !== undefined && headings) held[head] = headings;
  if (cells) held[rows[row]?.id ?? ''] = cells;
  return { source, made: [], table: { id, name, form, columns, rows, cells: held, ...(base === undefined ? {} : { base }) } };
}

function cellModel({ source, table }: Cells, column: number): CellModel {
  const { place, form, row, values } = source;
  const at = placeIn(table, column, row) as At;
  const view = viewBeside(at, values?.[column], baseOf(at) && values?.[baseColumn(table)]);
  const asked = form === 'brief';
  const allowed = asked ? allowedText(at) : '';
  const words = asked ? [at.row.help, sourceOf(at), allowed && `allowed: ${allowed}`] : [];
  return {
    id: `cell-${place}-${row}-${column}`,
    column,
    spot: spotText({ row, column }),
    address: view.address,
    head: at.row.head === true,
    columnWidth: at.column.width,
    base: form === 'scenarios' && column === baseColumn(table),
    list: form !== 'scenarios',
    view,
    note: at.cell?.note,
    name: [spokenName(at, view), ...words, at.cell?.note && `note: ${at.cell.note}`].filter(Boolean).join('. '),
    said: asked ? said(at, allowed) : undefined,
  };
}

function said(at: At, allowed: string): Said {
  const range = rangeOf(at);
  return {
    of: titleOf(at),
    left: isLeft(at),
    teller: sourceOf(at) ?? 'who said so?',
    allowed: allowed || (range?.oneOf || range?.from ? 'choose from the list' : ''),
  };
}

function marked(
  cells: Cells,
  { chosen, area, taken, letters, pending, large }: View,
  { row, columns }: Which,
  before: readonly MarkedCell[] = [],
): readonly MarkedCell[] {
  const mark = (column: number, nth: number): MarkedCell => {
    cells.made[column] ??= cellModel(cells, column);
    const cell = cells.made[column];
    const on = chosen?.row === row && chosen.column === column;
    const made: MarkedCell = {
      cell,
      on,
      among: on || isIn(area, { row, column }),
      cut: isIn(taken, { row, column }),
      letter: letters.get(cell.address),
      pending: pending.get(cell.address),
      lies: large && cellLies(large.edges, column, columns?.[nth - 1], isLabelled(cells.source.rows)),
    };
    const earlier = before[nth]?.cell.column === column ? before[nth] : before.find((each) => each.cell.column === column);
    if (!earlier || !alike(earlier, made)) return made;
    // The next question is answered by the object itself.
    cells.made[column] = earlier.cell;
    return earlier;
  };
  return columns ? columns.map(mark) : cells.source.columns.map((_, column) => mark(column, column));
}

function cellLies(edges: readonly number[], column: number, before: number | undefined, labelled: boolean): CellLies {
  const left = edges[column] ?? 0;
  return {
    nth: column + (labelled ? 2 : 1),
    left,
    gap: left - (edges[before === undefined ? 0 : before + 1] ?? 0),
    width: (edges[column + 1] ?? 0) - left,
  };
}

interface Headings {
  /** The id of the row of headings. */
  readonly head: string | undefined;
  /** Whether rows have labels. */
  readonly labelled: boolean;
}

/** Asked of every row that is drawn. */
const headings = new WeakMap<readonly Row[], Headings>();

function headingsOf(rows: readonly Row[]): Headings {
  const known = headings.get(rows);
  if (known) return known;
  const made = { head: rows.find((row) => row.head)?.id, labelled: rows.some((row) => row.label) };
  headings.set(rows, made);
  return made;
}

const headOf = (rows: readonly Row[]): string | undefined => headingsOf(rows).head;
const isLabelled = (rows: readonly Row[]): boolean => headingsOf(rows).labelled;
