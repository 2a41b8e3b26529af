/**
 * The places over a bench at which a meter reads, along it and across: which tables have a cell for each. Nothing marks them, so that older books
 * have theirs too. They begin with what a function of readings takes, and what a picture shows beside that; what is worked out there leads on to what
 * was written.
 */
import { cellOf, placeIn, type Reference, readReference, tableNamed } from './address.ts';
import type { Book, Table } from './book.ts';
import { isFormula } from './content.ts';
import { referencesIn } from './references.ts';

/** The cells of one table, from the first on. */
export interface GridPart {
  readonly table: Table;
  readonly row: number;
  readonly column: number;
  /** By formulas; otherwise it is written down there. */
  readonly worked: boolean;
}

export interface MeterGrid {
  readonly along: number;
  readonly across: number;
  /** Those that read others come first. */
  readonly parts: readonly GridPart[];
}

const TAKES_READINGS = /\bREADINGS\.[A-Z.]+\(([^()]*)\)/giu;
/** Rows. A longer table is a list, and takes no mean of readings. */
const LONG = 200;

interface Found {
  readonly table: Table;
  readonly from: Reference['from'];
  readonly along: number;
  readonly across: number;
}

/** The grid that has cells in this table, by its id; left out, the first of the book. */
export function meterGrid(book: Book, table?: string): MeterGrid | undefined {
  const found = book.tables.flatMap((home) => (home.rows.length > LONG ? [] : taken(book, home)));
  const shown = book.pages.flatMap(({ blocks }) =>
    blocks.flatMap((block) => {
      const areas = block.kind === 'picture' ? Object.values(block.reads).flatMap((text) => area(book, text) ?? []) : [];
      const [first] = areas.filter((one) => found.some((each) => each.table === one.table && each.from.row === one.from.row));
      return first ? areas.filter((one) => one.along === first.along && one.across === first.across) : [];
    }),
  );
  // Readings of a part of the bench may be reckoned with too.
  const all = [...found, ...shown].sort((a, b) => b.along * b.across - a.along * a.across);
  const grids: { along: number; across: number; parts: Map<Table, { part: GridPart; reads: number }> }[] = [];
  for (const one of all) {
    const { along, across } = one;
    if (grids.some(({ parts }) => parts.has(one.table))) continue;
    const reads = readBy(book, one);
    const grid = grids.find((each) => each.along === along && each.across === across && reads.some((read) => each.parts.has(read.table)));
    const { parts } = grid ?? { parts: new Map() };
    if (!grid) grids.push({ along, across, parts });
    for (const each of [one, ...reads]) {
      if (!parts.has(each.table)) parts.set(each.table, { part: partOf(each), reads: each === one ? new Set(reads.map((read) => read.table)).size : 0 });
    }
  }
  const wanted = grids.find(({ parts }) => table === undefined || [...parts.keys()].some(({ id }) => id === table));
  if (!wanted) return undefined;
  const parts = [...wanted.parts.values()].sort((a, b) => b.reads - a.reads).map(({ part }) => part);
  return { along: wanted.along, across: wanted.across, parts };
}

function taken(book: Book, home: Table): Found[] {
  const contents = Object.values(home.cells).flatMap((line) => Object.values(line).map(({ content }) => content));
  return contents.flatMap((content) =>
    (content.includes('READINGS.') ? [...content.matchAll(TAKES_READINGS)] : []).flatMap(([, text = '']) => area(book, text, home) ?? []),
  );
}

/** A range with several places each way. */
function area(book: Book, text: string, home?: Table): Found | undefined {
  const reference = readReference(text.trim());
  const table = reference?.table === undefined ? home : tableNamed(book, reference.table);
  if (!reference || !table) return undefined;
  const { from, to } = reference;
  const [along, across] = [to.column - from.column + 1, to.row - from.row + 1];
  return along > 1 && across > 1 && placeIn(table, to.column, to.row) ? { table, from, along, across } : undefined;
}

/** What the formula of the first place reads in other tables, at the place that goes along with it. */
function readBy(book: Book, { table, from, along, across }: Found): Found[] {
  const content = placeIn(table, from.column, from.row)?.cell?.content ?? '';
  return (isFormula(content) ? referencesIn(content) : []).flatMap((reference) => {
    const other = reference.table === undefined ? undefined : tableNamed(book, reference.table);
    const { row, column, rowFixed, columnFixed } = reference.from;
    const goesAlong = !reference.range && !rowFixed && !columnFixed;
    return other && other !== table && goesAlong && placeIn(other, column + along - 1, row + across - 1)
      ? [{ table: other, from: reference.from, along, across }]
      : [];
  });
}

function partOf({ table, from: { row, column }, along, across }: Found): GridPart {
  const formulas = table.rows
    .slice(row, row + across)
    .flatMap(({ id }) => table.columns.slice(column, column + along).filter((each) => isFormula(cellOf(table, id, each.id)?.content ?? ''))).length;
  return { table, row, column, worked: formulas * 2 > along * across };
}
