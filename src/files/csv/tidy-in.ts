/**
 * Tidy records back into cells: the same content, shown unit, kind, range, source and note, and nothing else of the cell touched. What the file
 * leaves out (a column, a unit, a kind) stays as the book has it. A table that the book does not have is made, on the page that the file names.
 */
import { readContent } from '../../../functions/quantity-text.ts';
import { unit } from '../../../functions/units.ts';
import { type At, readReference, tableNamed, textOf } from '../../book/address.ts';
import type { Book, Cell, Range, Table } from '../../book/book.ts';
import { BOUNDS } from '../../book/bounds.ts';
import { isFormula, plainText } from '../../book/content.ts';
import { wentSaid } from '../../book/edition/said.ts';
import { named, noteOf, rangeOf, sourceOf, standingOf, unitOf } from '../../book/look-up.ts';
import type { Values } from '../../engine/types.ts';
import { unguard } from './csv.ts';
import type { Draft, NewTable } from './draft.ts';
import type { CsvRecord } from './records.ts';
import { readTidyCell, type TIDY_COLUMNS, type TidyCell } from './tidy.ts';
import { valueAt } from './values.ts';

type Heading = (typeof TIDY_COLUMNS)[number];

export const isTidy = (headings: readonly string[]): boolean =>
  ['table', 'address', 'value'].every((needed) => headings.some((heading) => heading.toLowerCase() === needed));

/** Where a cell went: said in the preview. */
export interface Put {
  readonly where: string;
  readonly content: string;
  /** What deserves a word about it. */
  readonly said?: string;
}

export class TidyPlacer {
  private readonly column: ReadonlyMap<string, number>;
  private readonly seen = new Set<string>();
  private readonly made = new Map<string, NewTable>();

  private readonly draft: Draft;
  private readonly values: Values;

  constructor(draft: Draft, headings: readonly string[], values: Values) {
    this.draft = draft;
    this.values = values;
    this.column = new Map(headings.map((heading, i) => [heading.toLowerCase(), i]));
  }

  /** Puts one record's cell; a text says why it can't be. */
  place({ fields }: CsvRecord): Put | string {
    if (fields.length !== this.column.size) return `It has ${fields.length} fields, the headings are ${this.column.size}.`;
    const field = (name: Heading): string => unguard(fields[this.column.get(name) ?? -1] ?? '');
    const told = readTidyCell(field);
    if (typeof told === 'string') return told;
    const reference = readReference(told.address);
    if (!reference || reference.range) return `“${told.address}” is no cell's address.`;
    if (reference.table !== undefined && reference.table.toLowerCase() !== told.table.toLowerCase())
      return `Its table is “${told.table}”, but its address is in “${reference.table}”.`;
    // By its old address it would land in whatever stands there now.
    const went = field('name')
      .split(' ')
      .flatMap((name) => wentUnless(this.draft.book, name))[0];
    if (went !== undefined) return went;
    const { row, column } = reference.from;
    const address = textOf(told.table, column, row);
    const key = address.toLowerCase();
    if (this.seen.has(key)) return `${told.address} is told a second time; the first stands.`;
    const table = tableNamed(this.draft.book, told.table);
    const problem = table ? this.into(table, told, field, column, row) : this.intoNew(told, field, column, row);
    if (problem !== undefined) return problem;
    this.seen.add(key);
    const said = this.nameIt(field('name'), address);
    return { where: address, content: told.content, ...(said !== undefined && { said }) };
  }

  private into(table: Table, told: TidyCell, field: (name: Heading) => string, column: number, row: number): string | undefined {
    const here = this.draft.placeIn(table, column, row);
    if (!here) {
      const problem = this.draft.reach(table, column, row);
      if (problem !== undefined) return problem;
    }
    const at = here ?? this.draft.placeIn(table, column, row);
    if (!at) return `There is no cell ${told.address}.`;
    const worked = told.kind === 'worked' || told.kind === 'check';
    if (worked && field('formula') === '' && isFormula(at.cell?.content ?? ''))
      return `${told.address} is worked out here, and the file gives its value without a formula.`;
    const problem = this.draft.set(at, this.cellFor(at, told, field));
    if (problem !== undefined) return problem;
    if (row >= table.rows.length) this.draft.label(table, 'row', row, labelOf(field('row'), row, told));
    if (column >= table.columns.length) this.draft.label(table, 'column', column, field('scenario'));
    return undefined;
  }

  private intoNew(told: TidyCell, field: (name: Heading) => string, column: number, row: number): string | undefined {
    const key = told.table.toLowerCase();
    const table = this.made.get(key) ?? this.draft.begin(told.table, field('page') || told.table);
    if (typeof table === 'string') return table;
    this.made.set(key, table);
    const head = told.kind === 'head';
    const blank: At = { table: NOWHERE, row: { id: 'r', head }, column: { id: 'c' }, rowIndex: row, columnIndex: column, cell: undefined };
    const problem = this.draft.put(table, column, row, this.cellFor(blank, told, field));
    if (problem !== undefined) return problem;
    const label = head ? '' : labelOf(field('row'), row, told, table.cells.get(row));
    const known = table.rows.get(row);
    table.rows.set(row, { ...known, ...(head && { head }), ...(label !== '' && { label }) });
    const heading = field('scenario');
    // The heading of a list's column is the text in its heading row, which is a cell of its own.
    if (!head && heading !== '' && heading.length <= BOUNDS.title && ![...table.rows.values()].some((line) => line.head))
      table.columns.set(column, { label: heading });
    return undefined;
  }

  /** A name that the book has stays where it points. */
  private nameIt(names: string, address: string): string | undefined {
    const fresh = names.split(' ').filter((name) => name !== '' && named(this.draft.book, name) === undefined);
    const problems = fresh.map((name) => this.draft.name(name, address)).filter((problem) => problem !== undefined);
    return problems.length === 0 ? undefined : problems.join(' ');
  }

  private cellFor(at: At, told: TidyCell, field: (name: Heading) => string): Cell {
    const said = (name: Heading): boolean => this.column.has(name);
    const content = withUnit(at, told);
    const cell: Writable<Cell> = { ...at.cell, content };
    if (at.cell?.content !== content) delete cell.typed;
    if (told.unit !== '' && told.unit !== this.shown(at, content, told.unit)) {
      cell.unit = told.unit;
      if (cell.unit === (at.row.unit ?? at.column.unit)) delete cell.unit;
    }
    if (said('low') && said('high') && !sameRange(rangeOf({ ...at, cell }), told.range)) {
      if (told.range) cell.range = told.range;
      else {
        delete cell.range;
        // Without limits of its own a cell has its row's; an empty range says that it has none.
        if (rangeOf({ ...at, cell })) cell.range = {};
      }
    }
    for (const [name, inherited] of [
      ['source', at.row.source ?? at.column.source],
      ['note', at.row.note ?? at.column.note],
    ] as const) {
      const now = name === 'source' ? sourceOf(at) : noteOf(at);
      if (!said(name) || told[name] === (now ?? '')) continue;
      if (told[name] === (inherited ?? '')) delete cell[name];
      else cell[name] = told[name];
    }
    // A cell with nothing in it is none, and a given that nobody has answered must stand as one.
    const left = Object.keys(cell).length === 1 && content === '' ? undefined : cell;
    if (field('kind') !== '' && told.kind !== 'head' && (kindOf({ ...at, cell }) !== told.kind || standingOf({ ...at, cell: left }) === 'blank'))
      cell.kind = told.kind;
    return cell;
  }

  /** The unit in which the content will be shown without being told; `told` where it can't be known yet. */
  private shown(at: At, content: string, told: string): string | undefined {
    const set = unitOf(at);
    const read = readContent(content);
    if (read.kind === 'number') return told === read.unit && (set === undefined || isOther(set, told)) ? told : (set ?? read.unit);
    if (set !== undefined || read.kind !== 'formula') return set;
    const value = at.cell?.content === content ? valueAt(this.values, at) : undefined;
    return value?.kind === 'number' ? value.unit : undefined;
  }
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

const isOther = (a: string, b: string): boolean => {
  const [x, y] = [unit(a), unit(b)];
  return !x || !y || x.dimension !== y.dimension || x.reading !== y.reading;
};

/** Why a record of a name that an earlier edition had finds no place. */
function wentUnless(book: Book, name: string): readonly string[] {
  const went = named(book, name) === undefined ? wentSaid(book, name) : undefined;
  return went === undefined ? [] : [went];
}

const NOWHERE: Table = { id: 't', name: '', form: 'plain', columns: [], rows: [], cells: {} };

/** A bare number in a file without units is in the unit that its cell shows, as if it were typed there. */
function withUnit(at: At, told: TidyCell): string {
  const set = unitOf(at);
  const read = readContent(told.content);
  const bare = read.kind === 'number' && read.unit === '' && !told.content.includes(' ');
  return told.unit === '' && bare && set !== undefined && set !== '' && set !== '1' ? `${told.content} ${set}` : told.content;
}

function kindOf(at: At): string {
  const standing = standingOf(at);
  return standing === 'as' || standing === 'blank' ? 'given' : standing;
}

function sameRange(a: Range | undefined, b: Range | undefined): boolean {
  const text = (range: Range = {}): string =>
    JSON.stringify([range.low, range.high, range.unit || undefined, range.oneOf, range.from].map((part) => part ?? null));
  return text(a) === text(b);
}

/** A row's own label; not the text of its first cell or its number, which stand for a label where it has none. */
function labelOf(text: string, row: number, told: TidyCell, line?: ReadonlyMap<number, Cell>): string {
  const first = [...(line?.values() ?? [])].map((cell) => cell.content).find((content) => content !== '' && !isFormula(content));
  if (text === `row ${row + 1}` || (first !== undefined && text === plainText(first)) || text === plainText(told.content)) return '';
  return text.length > BOUNDS.title ? '' : text;
}
