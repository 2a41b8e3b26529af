import { type At, columnText, readReference, tableNamed, tableText } from '../book/address.ts';
import type { Book } from '../book/book.ts';
import { rangeOf } from '../book/look-up.ts';
import type { Values } from '../engine/types.ts';
import { lineOf } from './cell-view.ts';

/** The texts that a given may have, where its range lists them or says where they stand; undefined where any will do. */
export function choicesOf(book: Book, values: Values, at: At): readonly string[] | undefined {
  const range = rangeOf(at);
  if (range?.oneOf) return range.oneOf;
  const reference = range?.from === undefined ? undefined : readReference(range.from);
  const table = reference && tableNamed(book, reference.table ?? at.table.name);
  if (!reference || !table) return undefined;
  const found = new Set<string>();
  for (let r = reference.from.row; r <= reference.to.row; r++) {
    for (let c = reference.from.column; c <= reference.to.column; c++) {
      const value = values[`${tableText(table.name)}!${columnText(c)}${r + 1}`];
      if (value && value.kind !== 'blank' && value.kind !== 'error') found.add(lineOf(value));
    }
  }
  return [...found];
}

/** The allowed numbers in words: `0 to 24 h/d`, `at least 1`. */
export function allowedText(at: At): string {
  const range = rangeOf(at);
  if (!range || (range.low === undefined && range.high === undefined)) return '';
  const unit = range.unit && range.unit !== '1' ? ` ${range.unit}` : '';
  if (range.low === undefined) return `at most ${range.high}${unit}`;
  if (range.high === undefined) return `at least ${range.low}${unit}`;
  return `${range.low} to ${range.high}${unit}`;
}
