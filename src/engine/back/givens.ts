/** The givens from which a worked cell follows. */
import { choicesOf } from '../../book/allowed.ts';
import { addressOf, rangeOf, standingOf } from '../../book/look-up.ts';
import { keyOf, type Position } from '../addresses.ts';
import { reads } from '../relations.ts';
import type { Address } from '../types.ts';
import type { Workbook } from '../workbook.ts';

/** First those with limits, then those with a list, then the rest; of each the nearest first. Cells of lists, of which there may be very many, are left out. */
export function givensOf(workbook: Workbook, start: Position): readonly Address[] {
  const seen = new Set<number>([keyOf(start)]);
  /** Many formulas may read the same range. */
  const looked = new Set<string>();
  const found: { readonly address: Address; readonly rank: number }[] = [];
  let near: readonly Position[] = [start];
  while (near.length > 0) {
    const next: Position[] = [];
    for (const at of near) {
      workbook.life.beat?.();
      for (const span of reads(workbook, at)) {
        const key = `${keyOf(span.start)}:${keyOf(span.end)}`;
        if (looked.has(key)) continue;
        looked.add(key);
        for (let row = span.start.row; row <= span.end.row; row++) {
          for (let col = span.start.col; col <= span.end.col; col++) {
            const position = { sheet: span.start.sheet, row, col };
            if (seen.has(keyOf(position))) continue;
            seen.add(keyOf(position));
            next.push(position);
          }
        }
      }
    }
    for (const position of next) {
      const rank = rankOf(workbook, position);
      if (rank !== undefined) found.push({ address: workbook.sheets.address(position), rank });
    }
    near = next;
  }
  return found.sort((a, b) => a.rank - b.rank).map(({ address }) => address);
}

function rankOf(workbook: Workbook, position: Position): number | undefined {
  const { book } = workbook.sheets;
  const at = workbook.sheets.inBook(position);
  if (!book || !at || at.table.form === 'list') return undefined;
  const standing = standingOf(at);
  if (standing !== 'given' && standing !== 'as') return undefined;
  const range = rangeOf(at);
  if (range && choicesOf(book, at, range)) return 1;
  if (range) return 0;
  const value = workbook.valueAt(workbook.at(addressOf(at)));
  return value.kind === 'number' ? 2 : value.kind === 'yes or no' ? 3 : undefined;
}
