/** What is done with a page and its pieces. Each verb is a command by the same name, so that menus, keyboard and the list agree. */
import type { Block, Book, Page } from '../../book/book.ts';

export const VERBS = {
  'add-page': ['Add a page', 'new contents'],
  'name-page': ['Name this page', 'rename title'],
  'page-up': ['Move this page up', 'order earlier contents'],
  'page-down': ['Move this page down', 'order later contents'],
  'drop-page': ['Take this page away', 'delete remove'],
  'add-text': ['Add a text here', 'new prose paragraph note insert'],
  'add-picture': ['Add a picture here', 'new map curve bars insert'],
  'add-table': ['Add a table here', 'new list grid insert'],
  'write-text': ['Write this text', 'edit prose'],
  'change-picture': ['Change this picture', 'edit caption cells kind'],
  'name-table': ['Name this table', 'rename'],
  'piece-up': ['Move this piece up', 'order text table picture earlier'],
  'piece-down': ['Move this piece down', 'order text table picture later'],
  'drop-piece': ['Take this piece away', 'delete remove text table picture'],
} as const;

export type Verb = keyof typeof VERBS;
export const VERB_NAMES = Object.keys(VERBS) as readonly Verb[];

export interface Spot {
  readonly page: Page;
  readonly pageIndex: number;
  /** The piece in hand; -1 and undefined where none on this page is. */
  readonly index: number;
  readonly block: Block | undefined;
}

export function spotOf(book: Book, pageId: string, piece: string | undefined): Spot | undefined {
  const pageIndex = book.pages.findIndex((page) => page.id === pageId);
  const page = book.pages[pageIndex];
  if (!page) return undefined;
  const index = page.blocks.findIndex((block) => block.id === piece);
  return { page, pageIndex, index, block: page.blocks[index] };
}

export function can(verb: Verb, book: Book, spot: Spot | undefined): boolean {
  if (verb === 'add-page') return true;
  if (!spot) return false;
  const { page, pageIndex, index, block } = spot;
  switch (verb) {
    case 'page-up':
      return pageIndex > 0;
    case 'page-down':
      return pageIndex < book.pages.length - 1;
    case 'drop-page':
      return book.pages.length > 1;
    case 'write-text':
      return block?.kind === 'prose';
    case 'change-picture':
      return block?.kind === 'picture';
    case 'name-table':
      return block?.kind === 'table';
    case 'piece-up':
      return index > 0;
    case 'piece-down':
      return index >= 0 && index < page.blocks.length - 1;
    case 'drop-piece':
      return block !== undefined;
    default:
      return true;
  }
}
