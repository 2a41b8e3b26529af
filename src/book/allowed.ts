/** Whether a content keeps to its cell's allowed range. What a formula gives is not known here: only what is written is checked. */
import { readContent } from '../../functions/quantity-text.ts';
import { toBase, unit } from '../../functions/units.ts';
import { type At, placeIn, readReference, tableNamed } from './address.ts';
import type { Book, Range } from './book.ts';
import { rangeOf, titleOf } from './look-up.ts';

/** Why the content is not allowed there: what, where, and what is allowed; undefined where it is. */
export function notAllowed(book: Book, at: At, content: string): string | undefined {
  const range = rangeOf(at);
  if (!range) return undefined;
  const said = readContent(content);
  if (said.kind === 'blank' || said.kind === 'formula') return undefined;
  const choices = choicesOf(book, at, range);
  if (choices) {
    const text = said.kind === 'text' ? said.text : content;
    if (choices.some((choice) => choice.toLowerCase() === text.toLowerCase())) return undefined;
    return `${titleOf(at)}: “${text}” is not one of the choices: ${listed(choices)}.`;
  }
  if (range.low === undefined && range.high === undefined) return undefined;
  if (said.kind !== 'number') return `${titleOf(at)} takes a number, ${spanText(range)}; “${content}” is none.`;
  const limit = unit(range.unit ?? '');
  if (!limit) return undefined;
  // A plain 0 is no quantity in particular; any other number must be of the kind that the limits are.
  if (unit(said.unit)?.dimension !== limit.dimension && said.base !== 0) {
    const needs = limit.symbol === '' ? 'a plain number' : `a quantity in ${limit.symbol} or the like`;
    return `${titleOf(at)} takes ${needs}, ${spanText(range)}; ${content} is not one.`;
  }
  const beyond = (bound: number | undefined, sign: 1 | -1): boolean =>
    bound !== undefined && sign * (said.base - toBase(bound, limit)) > 0 && !close(said.base, toBase(bound, limit));
  if (beyond(range.low, -1)) return `${titleOf(at)}: ${content} is below what is allowed, ${spanText(range)}.`;
  if (beyond(range.high, 1)) return `${titleOf(at)}: ${content} is above what is allowed, ${spanText(range)}.`;
  return undefined;
}

/** 36 in must pass a limit of 0.9144 m whatever the last bit says. */
const close = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));

/** The allowed texts, or undefined where the range is one of numbers, or its texts are worked out by formulas. */
export function choicesOf(book: Book, at: At, range: Range): readonly string[] | undefined {
  if (range.oneOf) return range.oneOf;
  const reference = range.from === undefined ? undefined : readReference(range.from);
  const table = reference && (reference.table === undefined ? at.table : tableNamed(book, reference.table));
  if (!reference || !table) return undefined;
  const texts: string[] = [];
  for (let r = reference.from.row; r <= reference.to.row; r++) {
    for (let c = reference.from.column; c <= reference.to.column; c++) {
      const content = readContent(placeIn(table, c, r)?.cell?.content ?? '');
      if (content.kind === 'formula') return undefined;
      if (content.kind === 'text') texts.push(content.text);
    }
  }
  return texts;
}

/** "0.1 to 3 m", "0 or more", "up to 24 h/d". */
export function spanText({ low, high, unit: symbol = '' }: Range): string {
  const end = symbol === '' ? '' : ` ${symbol}`;
  if (low === undefined) return `up to ${high}${end}`;
  return high === undefined ? `${low}${end} or more` : `${low} to ${high}${end}`;
}

const MOST_LISTED = 8;

function listed(choices: readonly string[]): string {
  const more = choices.length - MOST_LISTED;
  return choices.slice(0, MOST_LISTED).join(', ') + (more > 0 ? ` and ${more} more` : '');
}
