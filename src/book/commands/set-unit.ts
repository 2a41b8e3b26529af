/** Shows cells in another unit. The view changes, never a value or a formula. */
import { readContent } from '../../../functions/quantity-text.ts';
import { aQuantity, unit } from '../../../functions/units.ts';
import { type At, cellAt, placeIn } from '../address.ts';
import type { Book, Cell, Range } from '../book.ts';
import type { Edit } from '../change.ts';
import { withoutBareTyped } from '../content.ts';
import { addressOf, rangeOf, titleOf, unitOf } from '../look-up.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface SetUnit {
  readonly addresses: readonly string[];
  /** Null: no unit is set; a worked cell shows the one its formula gives. */
  readonly unit: string | null;
}

/** Refuses what is no unit, and a unit of another kind than a given's. On a worked cell the unit is a claim, which the engine checks. */
export function setUnit(book: Book, { addresses, unit: wanted }: SetUnit): Answer {
  const found = wanted === null ? undefined : unit(wanted);
  if (wanted !== null && !found) return refused(`“${wanted}” is not a unit that is known here.`);
  const edits: Edit[] = [];
  let label = `Unit → ${found?.symbol || 'none'}`;
  for (const address of addresses) {
    const at = cellAt(book, address);
    if (!at) return refused(`There is no cell ${address} in this book.`);
    const content = readContent(at.cell?.content ?? '');
    const held = content.kind === 'number' ? unit(content.unit) : undefined;
    if (held && found && (held.dimension !== found.dimension || held.reading !== found.reading)) {
      return refused(
        `${titleOf(at)} holds ${aQuantity(held.dimension, held.reading)}, ${at.cell?.content}; it can't be shown in ${found.symbol || 'a plain number'}.`,
      );
    }
    edits.push(...cellEdit(at, withUnit(at, found?.symbol, at.row.unit ?? at.column.unit)));
    if (addresses.length === 1) label = `${titleOf(at)}: shown in ${unitOf(at) ?? 'its own unit'} → ${found?.symbol || 'its own unit'}`;
  }
  return { label, edits };
}

/** `inherited`: what the row or column sets. */
function withUnit(at: At, symbol: string | undefined, inherited: string | undefined): Cell {
  const { unit: _, range, ...rest } = at.cell ?? { content: '' };
  const kept = (symbol ?? inherited) === unitOf(at) ? rest : withoutBareTyped(rest);
  return { ...kept, ...(range ? { range: pinned(range, rangeOf(at)) } : {}), ...(symbol === undefined || symbol === inherited ? {} : { unit: symbol }) };
}

/** Limits that were in the shown unit say so from now on. */
const pinned = (range: Range, whole: Range | undefined): Range => (whole?.unit === undefined ? range : { ...range, unit: whole.unit });

export interface SetRowUnit {
  /** Any cell of the row. */
  readonly address: string;
  readonly unit: string | null;
}

/** Shows a whole row in another unit; its cells no longer say their own. */
export function setRowUnit(book: Book, { address, unit: wanted }: SetRowUnit): Answer {
  const here = cellAt(book, address);
  if (!here) return refused(`There is no cell ${address} in this book.`);
  const places = here.table.columns.flatMap((_, c) => placeIn(here.table, c, here.rowIndex) ?? []);
  const addresses = places.filter((at) => at.cell !== undefined);
  const symbol = wanted === null ? undefined : unit(wanted)?.symbol;
  const each = setUnit(book, { addresses: addresses.map(addressOf), unit: wanted });
  if (isRefused(each)) return each;
  const { unit: old, range, ...rest } = here.row;
  const row = {
    ...rest,
    ...(symbol === undefined ? {} : { unit: symbol }),
    ...(range ? { range: range.unit === undefined && old !== undefined ? { ...range, unit: old } : range } : {}),
  };
  const edits: Edit[] = [{ at: 'row', table: here.table.id, index: here.rowIndex, before: here.row, after: row }];
  for (const at of addresses) {
    const cell = withUnit(at, undefined, symbol ?? at.column.unit);
    edits.push(...cellEdit(at, cell));
  }
  return { label: `${here.row.label ?? `Row ${here.rowIndex + 1}`}: shown in ${old ?? 'its own unit'} → ${symbol ?? 'its own unit'}`, edits };
}
