/** Blocks of cells: from the cell where choosing began to the one that is chosen now. */
import type { Area } from '../../book/area.ts';
import type { Table } from '../../book/book.ts';
import type { Place } from '../parts/index.ts';
import type { Spot } from './grid-moves.ts';

/** The chosen cell, or the block between it and the anchor; undefined where the chosen cell is in another table. */
export function areaOf(table: Table, chosen: Place | undefined, anchor: Place | undefined): Area | undefined {
  const at = chosen?.table === table.id ? spotOf(table, chosen) : undefined;
  if (!at) return undefined;
  const from = (anchor?.table === table.id ? spotOf(table, anchor) : undefined) ?? at;
  return {
    table: table.id,
    row: Math.min(at.row, from.row),
    column: Math.min(at.column, from.column),
    rows: Math.abs(at.row - from.row) + 1,
    columns: Math.abs(at.column - from.column) + 1,
  };
}

export function spotOf(table: Table, place: Place): Spot | undefined {
  const row = table.rows.findIndex((each) => each.id === place.row);
  const column = table.columns.findIndex((each) => each.id === place.column);
  return row >= 0 && column >= 0 ? { row, column } : undefined;
}

export const placeAt = (table: Table, spot: Spot): Place => ({
  table: table.id,
  row: table.rows[spot.row]?.id ?? '',
  column: table.columns[spot.column]?.id ?? '',
});

export const isIn = (area: Area | undefined, { row, column }: Spot): boolean =>
  area !== undefined && row >= area.row && row < area.row + area.rows && column >= area.column && column < area.column + area.columns;

export const isBlock = (area: Area | undefined): area is Area => area !== undefined && area.rows * area.columns > 1;

/** The whole rows, the whole columns or the whole table round an area: its near and its far corner. A list's headings stay out of its columns. */
export function whole(what: 'row' | 'column' | 'table', table: Table, area: Area): { readonly near: Spot; readonly far: Spot } {
  const first = what === 'column' ? table.rows.findLastIndex((row) => row.head) + 1 : 0;
  return {
    near: { row: what === 'row' ? area.row : first, column: what === 'column' ? area.column : 0 },
    far: {
      row: what === 'row' ? area.row + area.rows - 1 : table.rows.length - 1,
      column: what === 'column' ? area.column + area.columns - 1 : table.columns.length - 1,
    },
  };
}
