/** A book that was looked for, to be opened: as it was found, or why it can't be. */
import type { Book } from '../../book/book.ts';
import type { History } from '../../book/history.ts';
import type { Place } from '../parts/index.ts';
import type { Standing } from './saving.ts';

/** Where one was in a book. */
export interface View {
  readonly page: string;
  readonly chosen?: Place;
}

export interface Found {
  readonly book: Book;
  readonly history: History;
  readonly standing: Standing;
  readonly view?: View;
  /** To be told once it is open. */
  readonly notice?: string;
}

/** Why a book can't be opened. */
export interface Unopened {
  readonly problem: string;
  /** What is kept of it, as it stands. */
  readonly raw?: string;
}
