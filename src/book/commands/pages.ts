/** Pages are added, moved and removed. See rename.ts for their titles. */
import { apply } from '../apply.ts';
import type { Book, Page } from '../book.ts';
import { BOUNDS, count } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { freshIds, lostText, lostTogether, NOTHING_LOST } from '../lines.ts';
import { type Answer, refused } from '../refused.ts';
import { removeTable } from './tables.ts';

export interface AddPage {
  readonly title: string;
  /** Under which heading of the contents. */
  readonly group?: string;
  /** Before which page, from 0; left out: last. */
  readonly at?: number;
}

export function addPage(book: Book, { title, group, at = book.pages.length }: AddPage): Answer {
  if (title.trim() === '') return refused('A page needs a title.');
  if (title.length > BOUNDS.title || (group?.length ?? 0) > BOUNDS.title) return refused(`A page's title has at most ${BOUNDS.title} characters.`);
  if (book.pages.length >= BOUNDS.pages) return refused(`This book has ${count(BOUNDS.pages)} pages, which is the most a book may have.`);
  if (!Number.isInteger(at) || at < 0 || at > book.pages.length) return refused('There is no such place among the pages.');
  const [id = ''] = freshIds(book.pages, 'p', 1);
  const page: Page = { id, title, ...(group ? { group } : {}), blocks: [] };
  return { label: `Page ${title} added`, edits: [{ at: 'page', index: at, before: null, after: page }] };
}

export interface MovePage {
  /** The page's id. */
  readonly page: string;
  /** Its place afterwards, from 0. */
  readonly to: number;
}

/** A page is of the group of one of those beside it: in the contents a group stands together, and a move is seen there. */
export function movePage(book: Book, { page: id, to }: MovePage): Answer {
  const index = book.pages.findIndex((page) => page.id === id);
  const page = book.pages[index];
  if (!page) return refused(`There is no page ${id} in this book.`);
  if (!Number.isInteger(to) || to < 0 || to >= book.pages.length) return refused('There is no such place among the pages.');
  const label = `Page ${page.title} moved to place ${to + 1}`;
  if (to === index) return { label, edits: [] };
  const others = book.pages.toSpliced(index, 1);
  const { group: own, ...rest } = page;
  const beside = [others[to - 1], others[to]].flatMap((other) => (other ? [other.group] : []));
  const group = beside.includes(own) ? own : beside[0];
  const after = { ...rest, ...(group === undefined ? {} : { group }) };
  return {
    label,
    edits: [
      { at: 'page', index, before: page, after: null },
      { at: 'page', index: to, before: null, after },
    ],
  };
}

export interface RemovePage {
  /** The page's id. */
  readonly page: string;
}

/** Tables that stand on no other page go with it; what read them says so. */
export function removePage(book: Book, { page: id }: RemovePage): Answer {
  const index = book.pages.findIndex((page) => page.id === id);
  const page = book.pages[index];
  if (!page) return refused(`There is no page ${id} in this book.`);
  if (book.pages.length === 1) return refused('A book keeps at least one page.');
  const elsewhere = new Set(book.pages.filter((other) => other !== page).flatMap((other) => other.blocks.flatMap((b) => (b.kind === 'table' ? b.table : []))));
  const going = new Set(page.blocks.flatMap((b) => (b.kind === 'table' && !elsewhere.has(b.table) ? b.table : [])));
  const edits: Edit[] = [{ at: 'page', index, before: page, after: null }];
  let now = apply(book, { label: '', edits });
  const all: Edit[] = [...edits];
  let lost = NOTHING_LOST;
  for (const table of going) {
    const gone = removeTable(now, table);
    now = apply(now, { label: '', edits: gone.edits });
    all.push(...gone.edits);
    lost = lostTogether(lost, gone);
  }
  return { label: `Page ${page.title} removed${lostText(lost)}`, edits: all };
}
