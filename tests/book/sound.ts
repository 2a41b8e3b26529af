/** What tests of book commands share. */
import { expect } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { checkBook } from '../../src/book/check.ts';
import { invert } from '../../src/book/invert.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';

/** The book after a command that must not refuse; the book is sound, and taking the change back gives the book before. */
export function sound(book: Book, answer: Answer): Book {
  if (isRefused(answer)) throw new Error(answer.message);
  const made = apply(book, answer);
  const checked = checkBook(JSON.parse(JSON.stringify(made)));
  expect(checked.ok ? [] : checked.problems).toEqual([]);
  expect(apply(made, invert(answer))).toEqual(book);
  return made;
}

export const label = (answer: Answer): string => (isRefused(answer) ? `refused: ${answer.message}` : answer.label);
