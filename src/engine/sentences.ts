/** An error of the calculator at a cell, as a value: our word, a sentence, and the cell where it began. */
import type { Position } from './addresses.ts';
import { CIRCLE, explain, UNIT_ERROR } from './errors.ts';
import { type DetailedCellError, said } from './hyper.ts';
import type { Fail } from './quantities/index.ts';
import { circle, type Related } from './relations.ts';
import type { Sheets } from './sheets.ts';
import type { Value } from './types.ts';

/** What a sentence about an error asks of a workbook. */
interface Told extends Related {
  readonly sheets: Pick<Sheets, 'address' | 'find'>;
}

/** A mistake of quantities, at the cell where it began and at all that read it. */
export function unitError(fail: Fail, at: Position, book: Told): Value {
  const [began, own] = [book.sheets.address(fail.at), book.sheets.address(at)];
  return { kind: 'error', word: UNIT_ERROR, message: fail.message, ...(began !== own && { from: began }), ...(fail.mend && { mend: fail.mend }) };
}

export function explained(error: DetailedCellError, at: Position, book: Told): Value {
  const own = book.sheets.address(at);
  const fault = explain(error.type, error.message);
  const began = error.address ? book.sheets.find(said(error.address)) : undefined;
  const from = began ? book.sheets.address(began) : undefined;
  const elsewhere = from !== undefined && from !== own ? { from } : {};
  if (error.type === 'CYCLE' && began) return { kind: 'error', word: CIRCLE, message: inACircle(began, book), ...elsewhere };
  return { kind: 'error', word: fault.word, message: fault.message, ...elsewhere };
}

/** Cells of a circle that are named one by one. */
const NAMED = 8;

function inACircle(began: Position, book: Told): string {
  const cells = circle(book, began).map((place) => book.sheets.address(place));
  const [first = ''] = cells;
  if (cells.length === 1) return `${first} depends on itself: a circle has no answer. Let it read something else.`;
  const named = cells.length > NAMED ? [...cells.slice(0, NAMED), `${cells.length - NAMED} more that read`] : cells;
  return `${named.join(' reads ')} ${cells.length > NAMED ? '' : 'reads '}${first}: a circle has no answer. Let one of these cells read something else.`;
}
