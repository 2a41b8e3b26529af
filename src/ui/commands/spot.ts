/** The page that is shown, and the piece of it that is in hand. */
import type { Block, Book, Page } from '../../book/book.ts';
import { type InBook, inBook, type Outcome, type PageState, type Run } from './command.ts';

export interface OnPage {
  readonly book: Book;
  readonly page: Page;
  readonly pageIndex: number;
  /** The piece in hand; -1 and undefined where none on this page is. */
  readonly index: number;
  readonly block: Block | undefined;
}

export function pageIn({ book, pageId, piece }: PageState): OnPage | undefined {
  const pageIndex = book?.pages.findIndex((page) => page.id === pageId) ?? -1;
  const page = book?.pages[pageIndex];
  if (!book || !page) return undefined;
  const index = page.blocks.findIndex((block) => block.id === piece);
  return { book, page, pageIndex, index, block: page.blocks[index] };
}

/** A page of the book's own is shown, and this holds of it. */
export const onPage =
  (holds: (on: OnPage) => boolean = () => true) =>
  (state: PageState): boolean => {
    const on = pageIn(state);
    return on !== undefined && holds(on);
  };

export const withPage = (run: (on: OnPage, state: InBook) => Outcome | Promise<Outcome>): Run =>
  inBook((state) => {
    const on = pageIn(state);
    return on ? run(on, state) : [];
  });

export const fetchArranging = () => import('./arranging.ts');
