/** The cells of a book as a list to pick from: found by any words of what they are called, their name, their table or their address. */
import { type At, placeIn, readReference, referenceText } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { addressOf, columnHeading, namesOf, rowHeading, titleOf } from '../../book/look-up.ts';
import type { Values } from '../../engine/types.ts';
import { lineOf, valueAt } from '../cells/index.ts';

/** One thing to pick: a cell, or a run of cells. */
export interface Choice {
  /** As it is written into the text or the picture: a name, an address, or a range. */
  readonly reference: string;
  readonly title: string;
  readonly table: string;
  /** What it shows now. */
  readonly shown: string;
}

/** More than this is no list that one reads; another word makes it shorter. */
const MOST = 40;

/** Words are looked for anywhere, a pattern in the title alone. */
type Wanted = string | RegExp;

const matcher = (wanted: Wanted): ((title: string, more: string) => boolean) => {
  if (typeof wanted !== 'string') return (title) => wanted.test(title);
  const words = wanted.toLowerCase().split(/\s+/u).filter(Boolean);
  return (title, more) => {
    const lower = `${title} ${more}`.toLowerCase();
    return words.every((word) => lower.includes(word));
  };
};

function* cellsOf(table: Table, columns: readonly number[]): Generator<At> {
  for (const r of table.rows.keys()) {
    for (const c of columns) {
      const at = placeIn(table, c, r);
      if (at && !at.row.head && (at.cell || at.row.kind || at.column.kind)) yield at;
    }
  }
}

/** Every cell that holds something, by its name where it has one. */
export function cellChoices(book: Book, values: Values, wanted: string): readonly Choice[] {
  const fits = matcher(wanted);
  const found: Choice[] = [];
  for (const table of book.tables) {
    for (const at of cellsOf(table, [...table.columns.keys()])) {
      const address = addressOf(at);
      const names = namesOf(book, at);
      const title = titleOf(at);
      if (!fits(title, `${table.name} ${address} ${names.join(' ')}`)) continue;
      found.push({ reference: names[0] ?? address, title, table: table.name, shown: lineOf(valueAt(values, address)) });
      if (found.length === MOST) return found;
    }
  }
  return found;
}

/** Cells by their addresses; one of a comparing table stands for its whole row, and comes first. `takes`: the ones that serve. */
export function rowChoices(book: Book, values: Values, wanted: Wanted, takes: (at: At) => boolean): readonly Choice[] {
  const fits = matcher(wanted);
  const found: Choice[] = [];
  for (const table of book.tables.toSorted((a, b) => Number(b.form === 'scenarios') - Number(a.form === 'scenarios'))) {
    const rows = table.form === 'scenarios';
    for (const at of cellsOf(table, rows ? [0] : [...table.columns.keys()])) {
      const address = addressOf(at);
      const title = rows ? rowHeading(at) : titleOf(at);
      if (!fits(title, `${table.name} ${address} ${namesOf(book, at).join(' ')}`) || !takes(at)) continue;
      found.push({ reference: address, title, table: table.name, shown: lineOf(valueAt(values, address)) });
      if (found.length === MOST) return found;
    }
  }
  return found;
}

/** Runs of cells: the columns of lists, and rows of a comparing table that are one thing by month (“Gap, January” and on). */
export function runChoices(book: Book, wanted: Wanted, takes: (at: At) => boolean): readonly Choice[] {
  const fits = matcher(wanted);
  return book.tables
    .flatMap((table) => (table.form === 'scenarios' ? rowRuns(table) : columnRuns(table)))
    .filter((run) => run.cells.every(takes) && fits(run.title, `${run.table} ${run.reference}`))
    .slice(0, MOST)
    .map(({ reference, title, table, cells }) => ({ reference, title, table, shown: `${cells.length} cells` }));
}

type Run = Omit<Choice, 'shown'> & { readonly cells: readonly At[] };

function columnRuns(table: Table): readonly Run[] {
  return table.columns.flatMap((_, c) => {
    const cells = [...cellsOf(table, [c])].filter((at) => at.cell);
    const first = cells[0];
    return first && cells.length > 1 ? [runOf(cells, columnHeading(first) || table.name)] : [];
  });
}

function rowRuns(table: Table): readonly Run[] {
  const groups = new Map<string, At[]>();
  for (const at of cellsOf(table, [0])) {
    const [what = '', more] = rowHeading(at).split(/, (?=[^,]*$)/u);
    if (more === undefined) continue;
    const group = groups.get(what);
    if (group) group.push(at);
    else groups.set(what, [at]);
  }
  return [...groups].flatMap(([what, cells]) => (cells.length > 2 ? [runOf(cells, what)] : []));
}

function runOf(cells: readonly At[], title: string): Run {
  const [first, last] = [cells[0] as At, cells.at(-1) as At];
  const corner = (at: At) => ({ column: at.columnIndex, row: at.rowIndex, columnFixed: false, rowFixed: false });
  return { reference: referenceText({ table: first.table.name, from: corner(first), to: corner(last), range: true }), title, table: first.table.name, cells };
}

/** The cells that a range names, in order; undefined where it is no range of this book. */
export function cellsIn(book: Book, text: string): readonly At[] | undefined {
  const reference = readReference(text);
  const table = reference?.range ? book.tables.find((t) => t.name.toLowerCase() === reference.table?.toLowerCase()) : undefined;
  if (!reference || !table) return undefined;
  const cells: At[] = [];
  for (let r = reference.from.row; r <= reference.to.row; r++) {
    for (let c = reference.from.column; c <= reference.to.column; c++) {
      const at = placeIn(table, c, r);
      if (at) cells.push(at);
    }
  }
  return cells;
}
