/** The money a book reckons in. Amounts keep their numbers: there is no rate of exchange here. */
import { readContent } from '../../../functions/quantity-text.ts';
import { currencyOf, isCurrency, unit } from '../../../functions/units.ts';
import type { Book } from '../book.ts';
import { isFormula } from '../content.ts';
import { mapCells } from '../map-cells.ts';
import { type Answer, refused } from '../refused.ts';

export interface SetCurrency {
  /** A code of ISO 4217: `EUR`. */
  readonly currency: string;
}

export function setCurrency(book: Book, { currency }: SetCurrency): Answer {
  if (!isCurrency(currency)) return refused(`“${currency}” is not a currency's code; EUR, GBP or USD would be.`);
  const label = `Money: ${book.currency} → ${currency}; amounts keep their numbers`;
  if (currency === book.currency) return { label, edits: [] };
  const inUnit = (text: string): string => (unit(text) && currencyOf(text) === book.currency ? renamed(text, book.currency, currency) : text);
  const inContent = (content: string): string => {
    // Units stand in quotes in a formula: UNIT(5,"EUR/kWh"), SHOW(C5,"EUR").
    if (isFormula(content)) return content.replace(/"([^"]*)"/gu, (_, text: string) => `"${text === '' ? '' : inUnit(text)}"`);
    if (readContent(content).kind !== 'number') return content;
    return content.replace(/^(-?[\d.]+(?:e[-+]?\d+)? ?)(.+)$/iu, (_, number: string, text: string) => number + inUnit(text));
  };
  const edits = mapCells(book, inUnit, inContent);
  return { label, edits: [...edits, { at: 'book', before: { currency: book.currency }, after: { currency } }] };
}

/** Money signs stand for their codes, and are replaced with them. */
function renamed(text: string, from: string, to: string): string {
  return text
    .split(/([/·*\s]+)/u)
    .map((piece) => (currencyOf(piece) === from ? to : piece))
    .join('');
}
