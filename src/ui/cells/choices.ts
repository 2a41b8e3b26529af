import { readContent } from '../../../functions/quantity-text.ts';
import { type At, textOf } from '../../book/address.ts';
import { rangeIn, shownChoice, spanText } from '../../book/allowed.ts';
import type { Book } from '../../book/book.ts';
import { pickersOf, wholeLines } from '../../book/goes-with.ts';
import { rangeOf, sourceIn, unitOf } from '../../book/look-up.ts';
import { gaugeChoices } from '../../book/wires.ts';
import type { Values } from '../../engine/types.ts';
import { lineOf } from './cell-view.ts';

/** The texts that a given may have, where its range lists them or says where they stand; undefined where any will do. */
export function choicesOf(book: Book, values: Values, at: At): readonly string[] | undefined {
  const range = rangeOf(at);
  if (range?.oneOf) return gaugeChoices(book, at, range) ?? range.oneOf.map(shownChoice);
  // What others follow upon is picked together with them: a crop with its stage.
  const lines = wholeLines(book, at);
  if (lines) return lines;
  const own = sourceIn(book, at);
  if (!own) return undefined;
  const list = own.list.name;
  // What the questions beside this one picked from columns before its own: of all stages, those of the crop that was picked.
  const before = pickersOf(book, at)
    .filter(({ column }) => column < own.column)
    .map((other) => [other.column, lineIn(values, at.table.name, other.at.columnIndex, other.at.rowIndex)] as const)
    .filter(([, picked]) => picked !== '');
  const [all, found] = [new Set<string>(), new Set<string>()];
  for (let r = own.from; r <= own.to; r++) {
    for (let c = own.column; c <= own.last; c++) {
      const line = lineIn(values, list, c, r);
      if (line === '') continue;
      all.add(line);
      if (before.every(([column, picked]) => lineIn(values, list, column, r) === picked)) found.add(line);
    }
  }
  return [...(found.size > 0 ? found : all)];
}

function lineIn(values: Values, table: string, column: number, row: number): string {
  const value = values[textOf(table, column, row)];
  return value && value.kind !== 'blank' && value.kind !== 'error' ? lineOf(value) : '';
}

/** The unit in which a bare number is read there; undefined where none is set and nothing stands there yet. */
export function bareUnit(at: At): string | undefined {
  const set = unitOf(at);
  if (set !== undefined) return set;
  const content = readContent(at.cell?.content ?? '');
  return content.kind === 'number' ? content.unit : undefined;
}

/** The allowed numbers in words, in the unit in which a bare number is read there: `0 to 24 h/d`, `at least 1`. */
export function allowedText(at: At): string {
  const range = rangeOf(at);
  if (!range || (range.low === undefined && range.high === undefined)) return '';
  return spanText(rangeIn(range, bareUnit(at) ?? '')).replace(/^from /, '');
}

/** What is said to whoever writes a number: what is allowed, and what a bare number is. */
export function numberHints(at: At): readonly string[] {
  const allowed = allowedText(at);
  const bare = bareUnit(at);
  return [
    ...(allowed ? [`Allowed: ${allowed}.`] : []),
    ...(bare && bare !== '1' ? [`A bare 1 means 1 ${bare}; another unit of the same kind may be written after the number.`] : []),
  ];
}
