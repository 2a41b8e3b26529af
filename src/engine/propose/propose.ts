/** A whole search in one thread. */
import type { Book } from '../../book/book.ts';
import type { Sweeper } from '../cone/index.ts';
import { finished } from './finish.ts';
import { Searcher } from './searcher.ts';
import type { Choices, Proposed } from './types.ts';

/** A sentence where nothing can be proposed for the book as it stands. @param beat called often; what it throws ends the search */
export function propose(book: Book | Sweeper, choices: Choices = {}, beat: () => void = () => {}): Proposed | string {
  const searcher = Searcher.of(book, choices);
  if (typeof searcher === 'string') return searcher;
  try {
    const pieces = Array.from({ length: searcher.plan.pieces }, (_, piece) => searcher.piece(piece, beat));
    return finished(searcher, pieces, beat);
  } finally {
    searcher.close();
  }
}
