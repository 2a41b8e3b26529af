/** Has a meter read at more places, or at fewer: all tables that have a cell for each place change together, and what reads them follows. */
import { cellOf } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Cell, Table } from '../book.ts';
import { count as amount, tooFull } from '../bounds.ts';
import type { Change, Edit } from '../change.ts';
import { isFormula } from '../content.ts';
import { type Axis, findTable, freshIds, lineEdit, linesOf, lostText, lostTogether, mostLines, NOTHING_LOST, removeLines } from '../lines.ts';
import { onlyNoted } from '../look-up.ts';
import { type GridPart, type MeterGrid, meterGrid } from '../meter-grid.ts';
import { rebased } from '../rebase.ts';
import { followShift } from '../references.ts';
import { type Answer, refused } from '../refused.ts';
import { type Rewritten, rewriteBook } from '../rewrite-book.ts';
import { squash } from '../squash.ts';

export interface SetGrid {
  /** The id of one of its tables; left out: the first grid of the book. */
  readonly table?: string;
  /** How many places, along the bench and across it. */
  readonly along: number;
  readonly across: number;
}

/** Places each way. One alone would not say how far it is to the next. */
const [LEAST, MOST] = [2, 20];

export const gridFits = (...places: readonly number[]): boolean => places.every((n) => Number.isInteger(n) && n >= LEAST && n <= MOST);

/** A reading keeps its place and row, where there still are such. */
export function setGrid(book: Book, { table, along, across }: SetGrid): Answer {
  const grid = meterGrid(book, table);
  if (!grid) return refused('This book has no places at which a meter reads.');
  if (!gridFits(along, across)) return refused(`A meter is read at ${LEAST} to ${MOST} places along and ${LEAST} to ${MOST} rows across.`);
  let now = book;
  let change: Change = { label: '', edits: [] };
  let lost = NOTHING_LOST;
  const step = (edits: readonly Edit[]): void => {
    const made = { label: '', edits };
    now = apply(now, made);
    change = squash(change, made);
  };
  for (const [axis, had, wanted] of [
    ['column', grid.along, along],
    ['row', grid.across, across],
  ] as const) {
    for (const part of grid.parts) {
      const home = findTable(now, part.table.id) as Table;
      if (linesOf(home, axis).length + wanted - had > mostLines(axis)) return refused(`${home.name} may have at most ${amount(mostLines(axis))} ${axis}s.`);
      const at = part[axis] + had;
      if (wanted < had) {
        const { edits, ...more } = removeLines(now, home, axis, at - had + wanted, had - wanted);
        lost = lostTogether(lost, more);
        step(edits);
      } else if (wanted > had) {
        step(widened(now, home, axis, part[axis], at, wanted - had).edits);
        step(newLines(findTable(now, home.id) as Table, axis, at, wanted - had));
      }
    }
    // Formulas read on from table to table: they are filled once all tables have their lines.
    if (wanted > had) for (const part of grid.parts) step(filled(now, part, axis, part[axis] + had, wanted - had, axis === 'column' ? grid.across : along));
  }
  const full = tooFull(now);
  if (full !== undefined) return refused(full);
  const gone = readingsLost(grid, along, across);
  const out = gone === 0 ? '' : gone === 1 ? ', one reading taken out' : `, ${gone} readings taken out`;
  return { ...change, label: `The meter reads at ${along} × ${across} places instead of ${grid.along} × ${grid.across}${out}${lostText(lost)}` };
}

/** How many readings would have no place any longer. */
const readingsLost = ({ along: hadAlong, across: hadAcross, parts }: MeterGrid, along: number, across: number): number =>
  parts
    .filter(({ worked }) => !worked)
    .flatMap(({ table, row, column }) =>
      table.rows
        .slice(row, row + hadAcross)
        .flatMap(({ id }, r) =>
          table.columns.slice(column, column + hadAlong).filter((each, c) => (r >= across || c >= along) && (cellOf(table, id, each.id)?.content ?? '') !== ''),
        ),
    ).length;

/** What would be lost, before it is done; empty where nothing would. */
export function foretold(grid: MeterGrid, along: number, across: number): string {
  const n = readingsLost(grid, along, across);
  if (n === 0) return '';
  return n === 1
    ? '1 reading would be taken out, having no place there. Undo brings it back.'
    : `${amount(n)} readings would be taken out, having no place there. Undo brings them back.`;
}

/** Lines come in behind the last: a range over all of them takes the new ones in. */
function widened(book: Book, table: Table, axis: Axis, first: number, at: number, count: number): Rewritten {
  const name = table.name.toLowerCase();
  return rewriteBook(book, (home) => {
    const follow = followShift(table.name, axis, { kind: 'insert', at, count }, home?.name);
    return (reference) => {
      const { from, to, range } = reference;
      const whole = range && (reference.table ?? home?.name)?.toLowerCase() === name && from[axis] <= first && to[axis] === at - 1;
      return whole ? { ...reference, to: { ...to, [axis]: to[axis] + count } } : follow(reference);
    };
  });
}

function newLines(table: Table, axis: Axis, at: number, count: number): Edit[] {
  const lines = linesOf(table, axis);
  const { note: _, source: __, ...last } = lines[at - 1] ?? { id: '' };
  return freshIds(lines, axis === 'row' ? 'r' : 'c', count).map((id, i) =>
    lineEdit(table, axis, at + i, null, { ...last, id, ...(last.label === undefined ? {} : { label: countedOn(last.label, i + 1) }) }),
  );
}

/** The cells of the new lines: names counted on, formulas as in the line before. `across`: places on the other axis. */
function filled(book: Book, part: GridPart, axis: Axis, at: number, count: number, across: number): Edit[] {
  const table = findTable(book, part.table.id) as Table;
  const [lines, others] = axis === 'row' ? [table.rows, table.columns] : [table.columns, table.rows];
  const first = axis === 'row' ? part.column : part.row;
  const place = (line: number, other: number): readonly [row: string, column: string] => {
    const [one = '', two = ''] = [lines[line]?.id, others[other]?.id];
    return axis === 'row' ? [one, two] : [two, one];
  };
  const inGrid = (other: number): boolean => other >= first && other < first + across;
  const formula = (line: number, other: number): boolean => isFormula(cellOf(table, ...place(line, other))?.content ?? '');
  return others.flatMap((_, other) => {
    // A worked cell that was written over is not carried on.
    let from = at - 1;
    while (inGrid(other) && from > part[axis] && !formula(from, other)) from--;
    const model = cellOf(table, ...place(from, other));
    return Array.from({ length: count }, (_x, i): Edit[] => {
      const [row, column] = place(at + i, other);
      const by = at + i - from;
      const after =
        model && inGrid(other) && !part.worked
          ? waiting(model)
          : model && carriedOn(model, (content) => rebased(book, table, content, axis === 'row' ? by : 0, axis === 'row' ? 0 : by), by);
      return after ? [{ at: 'cell', table: table.id, row, column, before: null, after }] : [];
    }).flat();
  });
}

/** Readings that wait to be answered do so beside the others; what was only left blank was not read. */
const waiting = (model: Cell): Cell | undefined => (model.content === '' && !onlyNoted(model) ? { content: '' } : undefined);

function carriedOn({ typed: _, note: __, ...cell }: Cell, anew: (formula: string) => string, by: number): Cell | undefined {
  const { content } = cell;
  if (isFormula(content)) return { ...cell, content: anew(content) };
  // A number beside the places is that of its own line.
  return /^[-+.\d]|^$/u.test(content) ? undefined : { ...cell, content: countedOn(content, by) };
}

/** `Place 6` → `Place 7`. */
const countedOn = (text: string, by: number): string => text.replace(/\d+$/u, (n) => String(Number(n) + by));
