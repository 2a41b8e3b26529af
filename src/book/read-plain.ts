/** What a typed text that is no formula becomes in a cell. The engine reads by the same rule; the page need not ask it, so that no text waits for a calculation. */
import { readContent, readQuantity, textContent, unitIn } from '../../functions/quantity-text.ts';
import type { At } from './address.ts';
import { meantChoice, notAllowed } from './allowed.ts';
import type { Book } from './book.ts';
import { rangeOf, unitOf } from './look-up.ts';

export type PlainReading =
  | { readonly ok: true; readonly content: string; readonly typed?: string; readonly said?: string; readonly unit?: string }
  | { readonly ok: false; readonly message: string };

/** `unit`: in which the cell is shown, empty for none. `decimalMark`: of a text from elsewhere; people who type here use a point. */
export function readPlain(book: Book, at: At, typed: string, unit: string, decimalMark: '.' | ',' = '.'): PlainReading {
  const taken = readQuantity(meantChoice(book, at, typed), { currency: book.currency, decimalMark, ...(unit && { unit }) });
  if (taken.kind === 'formula') return { ok: false, message: 'This can not be read as a formula.' };
  if (taken.kind === 'blank') return { ok: true, content: '' };
  if (taken.kind !== 'text' && holdsWords(at))
    return {
      ok: true,
      content: textContent(typed.trim(), book.currency),
      said: 'Kept as text: words are asked for here.',
    };
  if (taken.kind === 'refused') return { ok: false, message: taken.message };
  const message = notAllowed(book, at, taken.content);
  if (message !== undefined) return { ok: false, message };
  return {
    ok: true,
    content: taken.content,
    // A unit that was typed is how the cell is shown from now on; where none is set, the content's own unit does that.
    ...(taken.kind === 'number' && {
      ...(unitOf(at) !== undefined && taken.unit && { unit: taken.shown ?? taken.unit }),
      ...(taken.typed !== undefined && { typed: taken.typed }),
    }),
    ...(taken.kind !== 'yes or no' && taken.said !== undefined && { said: taken.said }),
  };
}

/** A given that is said to hold text, or of which neither a unit nor a range is said and in which words stand: it asks for words, and `12 feet` can be a place. */
const holdsWords = (at: At): boolean =>
  at.row.holds === 'text' ||
  (at.row.kind === 'given' && unitOf(at) === undefined && rangeOf(at) === undefined && readContent(at.cell?.content ?? '').kind === 'text');

/** The unit in which a cell is shown, as far as the book says it; undefined where a formula gives it, which only the engine knows. */
export function unitInBook(book: Book, at: At): string | undefined {
  const said = unitOf(at);
  const own = said === undefined ? undefined : unitIn(said, book.currency)?.symbol;
  if (own !== undefined) return own;
  const content = readContent(at.cell?.content ?? '', book.currency);
  if (content.kind === 'formula') return undefined;
  return content.kind === 'number' ? content.unit : '';
}
