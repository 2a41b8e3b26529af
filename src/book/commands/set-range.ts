/** Says what a given may be: from a least to a greatest number, one of a list, or one of the texts in some cells. */
import { readContent } from '../../../functions/quantity-text.ts';
import { aQuantity, unit, withCurrency } from '../../../functions/units.ts';
import { type At, cellAt, readReference, tableNamed } from '../address.ts';
import { isOpen, spanText } from '../allowed.ts';
import type { Book, Range } from '../book.ts';
import { BOUNDS } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { titleOf, unitOf } from '../look-up.ts';
import { ownAddress } from '../other-writing.ts';
import { type Answer, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface SetRange {
  readonly addresses: readonly string[];
  /** Null: the cell says none of its own, and its row's or column's holds. */
  readonly range: Range | null;
}

/** A choice that would not fit into a list to pick from is not one. */
const MOST_CHOICES = 500;

/** What stands in the cells already stays: where it is not allowed any more, the cell says so. */
export function setRange(book: Book, { addresses, range: wanted }: SetRange): Answer {
  const range = wanted?.from === undefined ? wanted : { ...wanted, from: ownAddress(wanted.from) };
  const edits: Edit[] = [];
  let label = `Allowed → ${words(range)}`;
  for (const address of addresses) {
    const at = cellAt(book, address);
    if (!at) return refused(`There is no cell ${address} in this book.`);
    if (at.row.head) return refused(`${titleOf(at)} is a heading; only a given has a range.`);
    const problem = range && rangeProblem(book, at, range);
    if (problem) return refused(problem);
    const { range: _, ...kept } = at.cell ?? { content: '' };
    edits.push(...cellEdit(at, range ? { ...kept, range } : kept));
    if (addresses.length === 1) label = `${titleOf(at)}: allowed → ${words(range)}`;
  }
  return { label, edits };
}

function rangeProblem(book: Book, at: At, { low, high, unit: symbol, oneOf, from }: Range): string | undefined {
  const numbers = low !== undefined || high !== undefined;
  const both = numbers && oneOf !== undefined && from === undefined && oneOf.every((choice) => readContent(choice, book.currency).kind === 'number');
  if ([numbers, oneOf !== undefined, from !== undefined].filter(Boolean).length !== 1 && !both)
    return 'Say a least or a greatest number, or list what may be picked, or name the cells where it is listed: one of the three. Beside limits a list may stand that holds numbers alone.';
  const wrong = oneOf && choicesProblem(oneOf);
  if (wrong !== undefined || (oneOf && !both)) return wrong;
  if (from !== undefined) {
    const reference = readReference(from);
    const table = reference && (reference.table === undefined ? at.table : tableNamed(book, reference.table));
    return table ? undefined : `“${from}” names no cells of this book; Fixtures.A2:A6 would be such.`;
  }
  if (![low ?? 0, high ?? 0].every(Number.isFinite)) return 'The least and the greatest must be numbers.';
  if (low !== undefined && high !== undefined && low > high) return `The least, ${low}, is more than the greatest, ${high}.`;
  const found = unit(withCurrency(symbol ?? '', book.currency));
  if (symbol !== undefined && !found) return `“${symbol}” is not a unit that is known here.`;
  const shown = unit(withCurrency(unitOf(at) ?? '', book.currency));
  if (symbol !== undefined && found && unitOf(at) !== undefined && shown && shown.dimension !== found.dimension)
    return `${titleOf(at)} is ${aQuantity(shown.dimension, shown.reading)}; its range can't be in ${found.symbol || 'plain numbers'}.`;
  return undefined;
}

function choicesProblem(oneOf: readonly string[]): string | undefined {
  if (oneOf.length === 0 || oneOf.some((choice) => choice.trim() === '')) return 'A list to pick from has at least one choice, and none that is empty.';
  if (oneOf.length > MOST_CHOICES) return `A list to pick from has at most ${MOST_CHOICES} choices.`;
  const long = oneOf.find((choice) => choice.length > BOUNDS.title);
  return long === undefined ? undefined : `“${long.slice(0, 20)}…” is too long for a choice: at most ${BOUNDS.title} characters.`;
}

function words(range: Range | null): string {
  if (!range) return 'as its row says';
  if (range.oneOf) return `one of ${range.oneOf.length}${isOpen(range) ? `, or ${spanText(range)}` : ''}`;
  if (range.from !== undefined) return `what is in ${range.from}`;
  return spanText(range);
}
