/** Puts copied cells down elsewhere, formulas re-based, units and notes kept. */

import { type At, columnText, placeIn } from '../address.ts';
import { type Area, areaText, carriedCell, placesOf } from '../area.ts';
import type { Book, Cell } from '../book.ts';
import { isFormula } from '../content.ts';
import { sameAs, stoodFor } from '../ditto.ts';
import { fill, type Piece } from '../fill.ts';
import { findTable } from '../lines.ts';
import { baseColumn } from '../look-up.ts';
import { rebased, withTable } from '../rebase.ts';
import { LOST } from '../references.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { asideAnew } from '../set-aside.ts';

export interface PutCells {
  /** A table's id or name, and the place of the first cell in it. */
  readonly table: string;
  readonly row: number;
  readonly column: number;
  /** Row by row. Null, or a cell without content, leaves the cell there alone. */
  readonly cells: readonly (readonly (Cell | null)[])[];
  /** Where they were copied from; left out: formulas stay as they are. */
  readonly from?: { readonly table: string; readonly row: number; readonly column: number };
}

export function putCells(book: Book, { table: wanted, row, column, cells, from }: PutCells): Answer {
  const rows = cells.length;
  const columns = Math.max(0, ...cells.map((line) => line.length));
  const found = placesOf(book, { table: wanted, row, column, rows, columns });
  if (!found) return refused(`${rows} × ${columns} cells do not fit there.`);
  const { table, lines } = found;
  const pieces: Piece[] = [];
  for (const [r, line] of cells.entries()) {
    for (const [c, cell] of line.entries()) {
      const at = lines[r]?.[c];
      if (!at || !cell || cell.content === '') continue;
      const anew = (formula: string): string => (from ? movedContent(book, table, formula, from, row, column) : formula);
      const origin = from && isFormula(cell.content) ? originOf(book, from, r, c) : undefined;
      const same = origin && sameElsewhere(book, { ...origin, cell: { ...origin.cell, ...cell } }, at);
      if (same?.content !== '') pieces.push({ at, cell: asideAnew(same ? { ...cell, ...same } : { ...cell, content: anew(cell.content) }, anew) });
    }
  }
  if (pieces.length === 0) return refused('There is nothing in that to paste.');
  const made = fill(book, '', pieces);
  if (isRefused(made)) return refused(`${made.message} Nothing was pasted.`);
  const label = `${pieces.length === 1 ? 'One cell' : `${pieces.length} cells`} pasted into ${areaText(table, { table: wanted, row, column, rows, columns })}${lostWords(pieces)}`;
  return { ...made, label };
}

/** Where a cell of the block was copied from, as it is now. */
function originOf(book: Book, from: NonNullable<PutCells['from']>, row: number, column: number): At | undefined {
  const table = findTable(book, from.table);
  return table && placeIn(table, from.column + column, from.row + row);
}

function movedContent(book: Book, table: { readonly id: string }, content: string, from: NonNullable<PutCells['from']>, row: number, column: number): string {
  if (!isFormula(content)) return content;
  const source = findTable(book, from.table);
  if (!source) return content;
  return source.id === table.id ? rebased(book, source, content, row - from.row, column - from.column) : withTable(content, source.name);
}

/**
 * A given that is the same as in another scenario says so of that same one elsewhere too, where that is the one that all are compared with; anywhere
 * else it is put down as what it stands for. Undefined of any other cell.
 */
function sameElsewhere(book: Book, from: At, to: At): Cell | undefined {
  const beside = sameAs(from);
  if (!beside || to.table.id !== from.table.id) return undefined;
  const base = baseColumn(from.table);
  if (beside.columnIndex === base && to.columnIndex !== base) return { content: `=${columnText(base)}${to.rowIndex + 1}` };
  const end = stoodFor(from);
  const cell = carriedCell(end);
  if (!cell || !isFormula(cell.content)) return cell ?? { content: '' };
  return { ...cell, content: rebased(book, end.table, cell.content, to.rowIndex - end.rowIndex, to.columnIndex - end.columnIndex) };
}

const lostWords = (pieces: readonly Piece[]): string => {
  const lost = pieces.filter(({ cell }) => isFormula(cell.content) && cell.content.includes(LOST)).length;
  return lost === 0 ? '' : ` (${lost === 1 ? 'one formula reads' : `${lost} formulas read`} a cell beyond the edge)`;
};

export interface RepeatCells {
  /** The first row (down) or the first column (across) of it is repeated into the rest. */
  readonly area: Area;
  readonly axis: 'row' | 'column';
}

export function repeatCells(book: Book, { area, axis }: RepeatCells): Answer {
  const found = placesOf(book, area);
  if (!found) return refused('There are no such cells.');
  const { table, lines } = found;
  const down = axis === 'row';
  if ((down ? area.rows : area.columns) < 2) return refused(`Choose what to repeat together with the cells ${down ? 'below' : 'to the right of'} it.`);
  const pieces: Piece[] = [];
  for (const [r, line] of lines.entries()) {
    for (const [c, at] of line.entries()) {
      if ((down ? r : c) === 0) continue;
      const model = lines[down ? 0 : r]?.[down ? c : 0];
      const cell = model && carriedCell(model);
      if (!cell) continue;
      const content = isFormula(cell.content) ? rebased(book, table, cell.content, down ? r : 0, down ? 0 : c) : cell.content;
      const same = sameElsewhere(book, model, at);
      if (same?.content !== '') pieces.push({ at, cell: { ...cell, content, ...same } });
    }
  }
  if (pieces.length === 0) return refused('There is nothing to repeat: the first cells are blank.');
  return fill(book, `Repeated ${down ? 'down' : 'across'} in ${areaText(table, area)}${lostWords(pieces)}`, pieces);
}
