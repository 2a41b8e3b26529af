/** A given that a formula answers is kept as the value that it comes to now; and back. */
import { plainText } from '../../../functions/number-text.ts';
import { textContent } from '../../../functions/quantity-text.ts';
import type { Book } from '../../book/book.ts';
import { keepValue } from '../../book/commands/keep-value.ts';
import { type Answer, refused } from '../../book/refused.ts';
import type { Address, Value, Values } from '../../engine/types.ts';
import { BLANK } from '../../shown.ts';

export { workAgain } from '../../book/commands/keep-value.ts';

export function given(book: Book, address: Address, values: Values): Answer {
  const content = contentOf(values[address] ?? BLANK);
  return content === undefined ? refused('It has no value that could be kept.') : keepValue(book, { address, content });
}

/** To the last digit, as a cell holds it. */
function contentOf(value: Value): string | undefined {
  if (value.kind === 'number') return `${plainText(value.base, value.unit)} ${value.unit}`.trim();
  if (value.kind === 'text') return textContent(value.text);
  return value.kind === 'yes or no' ? String(value.yes).toUpperCase() : undefined;
}
