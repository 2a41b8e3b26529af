/** What an edition of a template was, and where what stands in one book stands in another: lines by their ids, never by their places. */
import type { Corner, Reference } from '../address.ts';
import type { Book, Row, Table } from '../book.ts';
import { LOST, type Rewrite, type RewriteName, rewriteFormula, rewriteTarget } from '../references.ts';

/** What formulas are told by: the tables with their lines, and the names. */
export type Frame = Pick<Book, 'tables' | 'names'>;

/** An earlier edition: of its cells only formulas, allowed ranges, and in lists what rows are called. */
export interface Edition extends Frame {
  readonly slug: string;
  readonly edition: number;
}

export const tableIn = ({ tables }: Frame, id: string): Table | undefined => tables.find((table) => table.id === id);

const called = ({ tables }: Frame, name: string): Table | undefined => tables.find((table) => table.name.toLowerCase() === name.toLowerCase());

/** What a row of a list is called: what stands first in it. */
export function firstText(table: Table, row: Row | undefined): string {
  const [first] = table.columns;
  return (row && first && table.cells[row.id]?.[first.id]?.content) ?? '';
}

/** Where a row stands in the other table. In a list ids say only which row came first; there what stands first in it tells it. */
export function rowIn(from: Table, to: Table, index: number): number | undefined {
  const row = from.rows[index];
  if (!row) return undefined;
  const said = from.form === 'list' && !row.head ? firstText(from, row) : '';
  const alike = said === '' ? -1 : to.rows.findIndex((each) => !each.head && firstText(to, each) === said);
  const found = alike >= 0 ? alike : to.rows.findIndex((each) => each.id === row.id);
  return found < 0 ? undefined : found;
}

/** A formula of one scenario that is written into another: columns of comparing tables, in the one book and in the other. */
export interface Over {
  readonly from: number;
  readonly to: number;
}

export interface Follow {
  /** Of a text that stands in this table of the first book, or in none. */
  readonly rewrite: (home: Table | undefined, over?: Over) => Rewrite;
  readonly name: RewriteName;
}

/** A formula of a table of the first book, as it reads the same cells in the other; it has LOST in it where they are not there. */
export const followed = (follow: Follow, home: Table, formula: string, over?: Over): string => rewriteFormula(formula, follow.rewrite(home, over), follow.name);

/** `toLast`: a range over all rows of a list goes over all that the other has, else to the row that was the last. */
export function follow(from: Frame, to: Frame, toLast = true): Follow {
  const rewrite =
    (home: Table | undefined, over?: Over): Rewrite =>
    (reference) => {
      const source = reference.table === undefined ? home : called(from, reference.table);
      const target = source && tableIn(to, source.id);
      return target ? moved(reference, source, target, over, toLast) : LOST;
    };
  return { rewrite, name: (name) => nameIn(from, to, rewrite(undefined), name) };
}

function moved(reference: Reference, source: Table, target: Table, over: Over | undefined, toLast: boolean): Reference | typeof LOST {
  const rows = reference.range ? rowSpan(source, target, reference, toLast) : both(rowIn(source, target, reference.from.row));
  const columns = columnSpan(source, target, reference, over);
  if (!rows || !columns) return LOST;
  const corner = (old: Corner, row: number, column: number): Corner => ({ ...old, row, column });
  return {
    ...reference,
    table: reference.table === undefined ? undefined : target.name,
    from: corner(reference.from, rows[0], columns[0]),
    to: corner(reference.to, rows[1], columns[1]),
  };
}

type Ends = readonly [number, number];
const both = (place: number | undefined): Ends | undefined => (place === undefined ? undefined : [place, place]);
const ends = (a: number | undefined, b: number | undefined): Ends | undefined => (a === undefined || b === undefined ? undefined : [a, b]);

function rowSpan(source: Table, target: Table, { from, to }: Reference, toLast: boolean): Ends | undefined {
  const data = source.rows.findIndex((row) => !row.head);
  const last = source.rows.length - 1;
  if (source.form !== 'list' || to.row !== last || from.row > data) return ends(rowIn(source, target, from.row), rowIn(source, target, to.row));
  const start = source.rows[from.row]?.head ? rowIn(source, target, from.row) : target.rows.findIndex((row) => !row.head);
  // The rows may have been sorted: the last one is told by its id, as what stands in it is not meant.
  const end = toLast ? target.rows.length - 1 : target.rows.findIndex((row) => row.id === source.rows[last]?.id);
  return ends(start, end < 0 ? undefined : end);
}

function columnSpan(source: Table, target: Table, { from, to, range }: Reference, over: Over | undefined): Ends | undefined {
  const scenarios = source.form === 'scenarios';
  const one = (corner: Corner): number | undefined => {
    if (scenarios && over && corner.column === over.from && !corner.columnFixed) return over.to;
    const found = target.columns.findIndex((column) => column.id === source.columns[corner.column]?.id);
    return found < 0 ? undefined : found;
  };
  // A range across scenarios that reaches to the last one reaches to the last that there is.
  const across = scenarios && range && from.column !== to.column;
  if (across && to.column === source.columns.length - 1) {
    const start = from.column === 0 ? 0 : one({ ...from, columnFixed: true });
    return ends(start, target.columns.length - 1);
  }
  return ends(one(from), one(to));
}

/** The name that the cell has in the other book, else its address; undefined where the name says it there too, or is none. */
function nameIn(from: Frame, to: Frame, rewrite: Rewrite, name: string): string | undefined {
  const own = keyIn(from.names, name);
  if (own === undefined) return undefined;
  const target = absolute(rewriteTarget(from.names[own] ?? '', rewrite));
  const there = keyIn(to.names, name);
  if (there !== undefined && (target === LOST || absolute(to.names[there] ?? '') === target)) return undefined;
  if (target === LOST) return LOST;
  return Object.keys(to.names).find((each) => absolute(to.names[each] ?? '') === target) ?? target;
}

export const keyIn = (names: Frame['names'], name: string): string | undefined =>
  Object.hasOwn(names, name) ? name : Object.keys(names).find((each) => each.toLowerCase() === name.toLowerCase());

/** `Brief.A1` as `Brief.$A$1`: a name stands for one place wherever it is said. */
const absolute = (target: string): string =>
  rewriteTarget(target, (reference) => ({
    ...reference,
    from: { ...reference.from, columnFixed: true, rowFixed: true },
    to: { ...reference.to, columnFixed: true, rowFixed: true },
  }));
