/** How a table is shown: decimals of its cells, widths of its columns. No value changes. */
import { counted } from '../../../functions/quantity-text.ts';
import { cellAt, columnText } from '../address.ts';
import type { Book } from '../book.ts';
import type { Edit } from '../change.ts';
import { findTable, lineEdit } from '../lines.ts';
import { titleOf } from '../look-up.ts';
import { type Answer, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface SetDecimals {
  readonly addresses: readonly string[];
  /** Digits after the point; null: as the row or column says, else as many as the number needs. */
  readonly decimals: number | null;
}

const MOST_DECIMALS = 15;

export function setDecimals(book: Book, { addresses, decimals }: SetDecimals): Answer {
  if (decimals !== null && (!Number.isInteger(decimals) || decimals < 0 || decimals > MOST_DECIMALS))
    return refused(`A number shows from 0 to ${MOST_DECIMALS} decimals.`);
  const edits: Edit[] = [];
  const words = decimals === null ? 'its own decimals' : counted(decimals, 'decimal');
  let label = `Shown with ${words}`;
  for (const address of addresses) {
    const at = cellAt(book, address);
    if (!at) return refused(`There is no cell ${address} in this book.`);
    const { decimals: _, ...kept } = at.cell ?? { content: '' };
    edits.push(...cellEdit(at, decimals === null || decimals === (at.row.decimals ?? at.column.decimals) ? kept : { ...kept, decimals }));
    if (addresses.length === 1) label = `${titleOf(at)}: shown with ${words}`;
  }
  return { label, edits };
}

export interface SetWidth {
  /** A table's id or name. */
  readonly table: string;
  readonly column: number;
  /** px; null: an even share. */
  readonly width: number | null;
}

export const WIDTHS = { least: 40, most: 1200 } as const;

export function setWidth(book: Book, { table: wanted, column: at, width }: SetWidth): Answer {
  const table = findTable(book, wanted);
  const column = table?.columns[at];
  if (!table || !column) return refused(`There is no such column in ${wanted}.`);
  if (width !== null && (!Number.isInteger(width) || width < WIDTHS.least || width > WIDTHS.most))
    return refused(`A column is from ${WIDTHS.least} to ${WIDTHS.most} wide.`);
  const label = `Column ${columnText(at)} of ${table.name}: ${width === null ? 'its share of the width' : `${width} wide`}`;
  if ((column.width ?? null) === width) return { label, edits: [] };
  const { width: _, ...rest } = column;
  return { label, edits: [lineEdit(table, 'column', at, column, width === null ? rest : { ...rest, width })] };
}
