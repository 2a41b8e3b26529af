/** Values for a book without an engine: givens as they are written, formulas as the test says. */

import { readContent } from '../../functions/quantity-text.ts';
import type { Book } from '../../src/book/book.ts';
import { addressOf, unitOf } from '../../src/book/look-up.ts';
import type { Value, Values } from '../../src/engine/types.ts';
import { placesOf } from '../../src/files/csv/tidy.ts';

export function handValues(book: Book, worked: Values): Values {
  const values: Record<string, Value> = {};
  for (const table of book.tables) {
    for (const at of placesOf(table)) {
      const content = readContent(at.cell?.content ?? '');
      const address = addressOf(at);
      if (content.kind === 'number') values[address] = { kind: 'number', base: content.base, unit: unitOf(at) ?? content.unit };
      else if (content.kind === 'text') values[address] = { kind: 'text', text: content.text };
      else if (content.kind === 'yes or no') values[address] = content;
      else if (content.kind === 'formula') values[address] = worked[address] ?? { kind: 'error', word: 'no such name', message: 'There is no such name.' };
    }
  }
  return values;
}
