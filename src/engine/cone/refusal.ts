/** Why the formulas that follow from some givens can't be compiled: what a given says reaches farther than into formulas. */
import { tableNamed } from '../../book/address.ts';
import { rangeOf } from '../../book/look-up.ts';
import { keyOf, readReference } from '../addresses.ts';
import { beyond } from '../feeding.ts';
import type { Workbook } from '../workbook.ts';
import type { Given } from './given.ts';

export function refusal(workbook: Workbook, givens: readonly Given[]): string | undefined {
  const seen = new Set<number>();
  for (const given of givens) {
    const address = workbook.sheets.address(given.at);
    if (seen.has(keyOf(given.at))) return `${address} is given twice`;
    seen.add(keyOf(given.at));
    if (beyond(given.at)) return `${address} lies beyond what is worked out of a table`;
    if (isHeading(given)) return `${address} is what other cells of its row are called by`;
    if (isChoice(workbook, given)) return `the choices of another given stand in ${address}`;
  }
  return undefined;
}

/** A row without a label is called by the first text in it, in what is said of its other cells. */
function isHeading({ place: { table, row, columnIndex } }: Given): boolean {
  if (row.head) return true;
  if (row.label || table.columns.length === 1) return false;
  return table.columns.slice(0, columnIndex).every((column) => /^(=|$)/.test(table.cells[row.id]?.[column.id]?.content ?? ''));
}

function isChoice(workbook: Workbook, { at }: Given): boolean {
  for (const listed of workbook.feeding.listed()) {
    const place = workbook.sheets.inBook(listed);
    const from = place && rangeOf(place)?.from;
    const list = from === undefined ? undefined : readReference(from);
    const table = list?.table === undefined ? place?.table : workbook.sheets.book && tableNamed(workbook.sheets.book, list.table);
    if (!list || table?.id !== workbook.sheets.tables[at.sheet]?.id) continue;
    if (at.row >= list.start.row && at.row <= list.end.row && at.col >= list.start.col && at.col <= list.end.col) return true;
  }
  return false;
}
