/**
 * Moves what stands in cells elsewhere. What is said of it (unit, source, note) goes along, its formulas go on reading what they read, and the places
 * that it leaves wait for an answer again. What reads those places goes on reading them: here a place means what its row and its column say.
 */
import { apply } from '../apply.ts';
import { type Area, areaText, carriedCell, placesOf } from '../area.ts';
import type { Book } from '../book.ts';
import { isFormula } from '../content.ts';
import { findTable } from '../lines.ts';
import { addressOf } from '../look-up.ts';
import { withTable } from '../rebase.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { squash } from '../squash.ts';
import { clearCells } from './clear-cells.ts';
import { putCells } from './put-cells.ts';

export interface MoveCells {
  /** What is moved. */
  readonly area: Area;
  /** A table's id or name, and the new place of the first cell. */
  readonly table: string;
  readonly row: number;
  readonly column: number;
}

export function moveCells(book: Book, { area, table: wanted, row, column }: MoveCells): Answer {
  const found = placesOf(book, area);
  const table = findTable(book, wanted);
  if (!found || !table) return refused('There are no such cells.');
  const stays = found.table.id === table.id;
  const cells = found.lines.map((line) =>
    line.map((at) => {
      const cell = carriedCell(at);
      return cell && !stays && isFormula(cell.content) ? { ...cell, content: withTable(cell.content, found.table.name) } : cell;
    }),
  );
  const put = putCells(book, { table: wanted, row, column, cells });
  if (isRefused(put)) return put;
  // A place that is left and taken at once is not cleared.
  const taken = new Set(cells.flatMap((line, r) => line.map((cell, c) => (stays && cell ? `${row + r},${column + c}` : ''))));
  const left = found.lines.flat().filter((at) => at.cell && !taken.has(`${at.rowIndex},${at.columnIndex}`));
  const cleared = clearCells(apply(book, put), { addresses: left.map(addressOf) });
  if (isRefused(cleared)) return refused(`${cleared.message} Nothing was moved.`);
  const many = cells.flat().filter((cell) => cell !== null).length;
  return squash(put, cleared, `${many === 1 ? 'One cell' : `${many} cells`} moved to ${areaText(table, { ...area, table: wanted, row, column })}`);
}
