/** Has a meter read at more places, or at fewer: all tables that have a cell for each place change together, and what reads them follows. */
import { cellOf } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Cell, Table } from '../book.ts';
import { tooFull } from '../bounds.ts';
import type { Change } from '../change.ts';
import { isFormula } from '../content.ts';
import { type Axis, findTable, lineEdit, lostText, lostTogether, NOTHING_LOST, removeLines } from '../lines.ts';
import { onlyNoted } from '../look-up.ts';
import { type GridPart, type MeterGrid, meterGrid } from '../meter-grid.ts';
import { rebased } from '../rebase.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { squash } from '../squash.ts';
import { insertBehind } from './insert-lines.ts';

/** How many places, along the bench and across it. */
export interface SetGrid {
  readonly along: number;
  readonly across: number;
}

/** Places each way. One alone would not say how far it is to the next. */
const LEAST = 2;
export const MOST_PLACES = 20;

/** A reading keeps its place and row, where there still are such. */
export function setGrid(book: Book, { along, across }: SetGrid): Answer {
  const grid = meterGrid(book);
  if (!grid) return refused('This book has no places at which a meter reads.');
  if (![along, across].every((n) => Number.isInteger(n) && n >= LEAST && n <= MOST_PLACES))
    return refused(`A meter is read at ${LEAST} to ${MOST_PLACES} places along and ${LEAST} to ${MOST_PLACES} rows across.`);
  let now = book;
  let change: Change = { label: '', edits: [] };
  let lost = NOTHING_LOST;
  const step = (made: Answer): Answer => {
    if (isRefused(made)) return made;
    now = apply(now, made);
    change = squash(change, made);
    return made;
  };
  for (const [axis, had, wanted] of [
    ['column', grid.along, along],
    ['row', grid.across, across],
  ] as const) {
    const more = wanted - had;
    for (const part of grid.parts) {
      const { id } = part.table;
      const at = part[axis] + had;
      if (more < 0) {
        const { edits, ...gone } = removeLines(now, findTable(now, id) as Table, axis, at + more, -more);
        lost = lostTogether(lost, gone);
        step({ label: '', edits });
      } else if (more > 0) {
        const put = step(insertBehind(now, { table: id, axis, at: at - 1, count: more }));
        if (isRefused(put)) return put;
      }
    }
    // Formulas read on from table to table: they are filled once all tables have their lines.
    for (const part of grid.parts) for (let by = 1; by <= more; by++) step(filled(now, part, axis, part[axis] + had - 1, by, [grid.along, across]));
  }
  const full = tooFull(now);
  if (full !== undefined) return refused(full);
  const out = readingsLost(grid, along, across);
  const gone = out === 0 ? '' : `, ${out} ${out === 1 ? 'reading' : 'readings'} taken out`;
  return { ...change, label: `The meter reads at ${along} × ${across} places instead of ${grid.along} × ${grid.across}${gone}${lostText(lost)}` };
}

/** How many readings would have no place any longer. */
export function readingsLost(grid: MeterGrid, along: number, across: number): number {
  let n = 0;
  for (const { table, row, column, reads } of grid.parts) {
    for (let r = 0; r < grid.across && reads === 0; r++) {
      for (let c = 0; c < grid.along; c++)
        if ((r >= across || c >= along) && cellOf(table, table.rows[row + r]?.id ?? '', table.columns[column + c]?.id ?? '')?.content) n++;
    }
  }
  return n;
}

/** The line that stands so far behind the last: names counted on, formulas as there. What is read has still to be read. */
function filled(book: Book, part: GridPart, axis: Axis, last: number, by: number, [wide, high]: readonly [number, number]): Change {
  const table = findTable(book, part.table.id) as Table;
  const down = axis === 'row';
  const [lines, others] = down ? [table.rows, table.columns] : [table.columns, table.rows];
  const [model, line] = [lines[last], lines[last + by]];
  const [first, size] = down ? [part.column, wide] : [part.row, high];
  if (!model || !line) return { label: '', edits: [] };
  const { note: _, source: __, ...like } = model;
  const named = like.label === undefined ? like : { ...like, label: countedOn(like.label, by) };
  return {
    label: '',
    edits: [
      lineEdit(table, axis, last + by, line, { ...named, id: line.id }),
      ...others.flatMap(({ id }, other) => {
        const cellIn = (place: number): Cell | undefined => cellOf(table, ...placed(down, lines[place]?.id ?? '', id));
        const inGrid = other >= first && other < first + size;
        // A worked cell that was written over is not carried on: the one before it is.
        let from = last;
        while (inGrid && part.reads > 0 && from > part[axis] && !isFormula(cellIn(from)?.content ?? '')) from--;
        const cell = cellIn(from);
        const far = last + by - from;
        const carried = (): Cell | undefined => cell && carriedOn(cell, far, (formula) => rebased(book, table, formula, ...placed(down, far, 0)));
        const after = cell && inGrid && part.reads === 0 ? waiting(cell) : carried();
        const [row, column] = placed(down, line.id, id);
        return after ? [{ at: 'cell' as const, table: table.id, row, column, before: null, after }] : [];
      }),
    ],
  };
}

/** Row and column, of what stands along the lines and across them. */
const placed = <T>(down: boolean, along: T, across: T): readonly [T, T] => (down ? [along, across] : [across, along]);

/** Readings that wait to be answered do so beside the others; what was only left blank was not read. */
const waiting = (cell: Cell): Cell | undefined => (cell.content === '' && !onlyNoted(cell) ? { content: '' } : undefined);

function carriedOn({ typed: _, note: __, ...cell }: Cell, by: number, anew: (formula: string) => string): Cell | undefined {
  const { content } = cell;
  if (isFormula(content)) return { ...cell, content: anew(content) };
  // A number beside the places is that of its own line.
  return /^[-+.\d]|^$/u.test(content) ? undefined : { ...cell, content: countedOn(content, by) };
}

/** `Place 6` → `Place 7`. */
const countedOn = (text: string, by: number): string => text.replace(/\d+$/u, (n) => String(Number(n) + by));
