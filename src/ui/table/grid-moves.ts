/**
 * Where the keys lead in a grid, after the grid pattern of the W3C's ARIA Authoring Practices Guide
 * (https://www.w3.org/WAI/ARIA/apg/patterns/grid/, data grid): no move wraps.
 */
import type { Spot } from '../parts/index.ts';

export type { Spot };

export interface Size {
  readonly rows: number;
  readonly columns: number;
  /** Rows that a page up or down goes. */
  readonly page: number;
}

/** The spot a key leads to, or undefined where the key does not move. */
export function moved(from: Spot, key: string, control: boolean, size: Size): Spot | undefined {
  const lastRow = size.rows - 1;
  const lastColumn = size.columns - 1;
  const within = (row: number, column: number): Spot => ({ row: Math.max(0, Math.min(lastRow, row)), column: Math.max(0, Math.min(lastColumn, column)) });
  switch (key) {
    case 'ArrowDown':
      return control ? within(lastRow, from.column) : within(from.row + 1, from.column);
    case 'ArrowUp':
      return control ? within(0, from.column) : within(from.row - 1, from.column);
    case 'ArrowRight':
      return control ? within(from.row, lastColumn) : within(from.row, from.column + 1);
    case 'ArrowLeft':
      return control ? within(from.row, 0) : within(from.row, from.column - 1);
    case 'Home':
      return within(control ? 0 : from.row, 0);
    case 'End':
      return within(control ? lastRow : from.row, lastColumn);
    case 'PageDown':
      return within(from.row + size.page, from.column);
    case 'PageUp':
      return within(from.row - size.page, from.column);
    default:
      return undefined;
  }
}
