import { readContent } from '../../../functions/quantity-text.ts';
import { type At, placeIn, readReference, tableNamed, textOf } from '../../book/address.ts';
import { rangeIn, shownChoice, spanText } from '../../book/allowed.ts';
import type { Book } from '../../book/book.ts';
import { wholeLines } from '../../book/goes-with.ts';
import { rangeOf, unitOf } from '../../book/look-up.ts';
import { gaugeChoices } from '../../book/wires.ts';
import type { Values } from '../../engine/types.ts';
import { lineOf } from './cell-view.ts';

/** The texts that a given may have, where its range lists them or says where they stand; undefined where any will do. */
export function choicesOf(book: Book, values: Values, at: At): readonly string[] | undefined {
  const range = rangeOf(at);
  if (range?.oneOf) return gaugeChoices(book, at, range) ?? range.oneOf.map(shownChoice);
  // What others follow upon is picked together with them: a crop with its stage.
  const lines = range?.from === undefined ? undefined : wholeLines(book, at);
  if (lines) return lines;
  const reference = range?.from === undefined ? undefined : readReference(range.from);
  const table = reference && tableNamed(book, reference.table ?? at.table.name);
  if (!reference || !table) return undefined;
  const goesWith = picksBefore(book, values, at, table.name, reference.from.column);
  const [all, found] = [new Set<string>(), new Set<string>()];
  for (let r = reference.from.row; r <= reference.to.row; r++) {
    for (let c = reference.from.column; c <= reference.to.column; c++) {
      const line = lineIn(values, table.name, c, r);
      if (line === '') continue;
      all.add(line);
      if (goesWith.every(([column, picked]) => lineIn(values, table.name, column, r) === picked)) found.add(line);
    }
  }
  return [...(found.size > 0 ? found : all)];
}

function lineIn(values: Values, table: string, column: number, row: number): string {
  const value = values[textOf(table, column, row)];
  return value && value.kind !== 'blank' && value.kind !== 'error' ? lineOf(value) : '';
}

/** What the questions beside this one picked from columns of the same list that stand before its own: of all stages, those of the crop that was picked. */
function picksBefore(book: Book, values: Values, at: At, list: string, before: number): readonly (readonly [column: number, picked: string])[] {
  return at.table.rows.flatMap((_, row) => {
    const other = placeIn(at.table, at.columnIndex, row);
    const reference = other && readReference(rangeOf(other)?.from ?? '');
    if (!reference || reference.from.column >= before || tableNamed(book, reference.table ?? at.table.name)?.name !== list) return [];
    const picked = lineIn(values, at.table.name, at.columnIndex, row);
    return picked === '' ? [] : [[reference.from.column, picked] as const];
  });
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
