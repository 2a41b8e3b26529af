/** The pieces of a page: prose, tables and pictures are added, written, moved and removed. See tables.ts for a new table. */
import { apply } from '../apply.ts';
import type { Block, Book, Page } from '../book.ts';
import { BOUNDS, count, noRoomForBlock } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { blockIds, freshIds, lostText } from '../lines.ts';
import { idIsGood } from '../names.ts';
import { ownAddress, ownProse } from '../other-writing.ts';
import { type Answer, refused } from '../refused.ts';
import { removeTable } from './tables.ts';

type Unborn<T> = T extends unknown ? Omit<T, 'id'> : never;

export interface AddBlock {
  /** The page's id. */
  readonly page: string;
  /** Before which block, from 0; left out: last. */
  readonly at?: number;
  /** Prose, a picture, or one more view of a table that the book has. */
  readonly block: Unborn<Block>;
}

export function addBlock(book: Book, { page: id, at, block }: AddBlock): Answer {
  const page = book.pages.find((each) => each.id === id);
  if (!page) return refused(`There is no page ${id} in this book.`);
  const index = at ?? page.blocks.length;
  if (!Number.isInteger(index) || index < 0 || index > page.blocks.length) return refused(`There is no such place on the page ${page.title}.`);
  const full = noRoomForBlock(book);
  if (full) return refused(full);
  const [blockId = ''] = freshIds(blockIds(book), 'b', 1);
  const after: Block = inOwnWriting({ id: blockId, ...block });
  const problem = blockProblem(book, after);
  if (problem) return refused(problem);
  return { label: `${what(book, after)} added to ${page.title}`, edits: [{ at: 'block', page: id, index, before: null, after }] };
}

export interface SetBlock {
  /** The block's id. */
  readonly block: string;
  /** Prose: its text. */
  readonly text?: string;
  /** A picture: what it is of, its caption, and the cells that it reads. What is left out stays. */
  readonly picture?: string;
  readonly caption?: string;
  readonly reads?: Readonly<Record<string, string>>;
}

export function setBlock(book: Book, { block: id, text, picture, caption, reads }: SetBlock): Answer {
  const found = findBlock(book, id);
  if (!found) return refused('That piece is no longer on its page.');
  const { page, index, block: before } = found;
  if (before.kind === 'table') return refused('A table is written in its cells.');
  const after = inOwnWriting(
    before.kind === 'prose'
      ? { ...before, ...(text === undefined ? {} : { text }) }
      : { ...before, ...(picture === undefined ? {} : { picture }), ...(caption === undefined ? {} : { caption }), ...(reads === undefined ? {} : { reads }) },
  );
  const problem = blockProblem(book, after);
  if (problem) return refused(problem);
  const edits: Edit[] = JSON.stringify(after) === JSON.stringify(before) ? [] : [{ at: 'block', page: page.id, index, before, after }];
  return { label: `${what(book, after)} on ${page.title} changed`, edits };
}

export interface MoveBlock {
  /** The block's id. */
  readonly block: string;
  /** To another page, by its id; left out: within its own. */
  readonly page?: string;
  /** Its place afterwards, from 0. */
  readonly to: number;
}

export function moveBlock(book: Book, { block: id, page: target, to }: MoveBlock): Answer {
  const found = findBlock(book, id);
  if (!found) return refused('That piece is no longer on its page.');
  const { page, index, block } = found;
  const goal = target === undefined ? page : book.pages.find((each) => each.id === target);
  if (!goal) return refused(`There is no page ${target} in this book.`);
  const last = goal.blocks.length - (goal === page ? 1 : 0);
  if (!Number.isInteger(to) || to < 0 || to > last) return refused(`There is no such place on the page ${goal.title}.`);
  const label = `${what(book, block)} moved ${goal === page ? (to < index ? 'up' : 'down') : `to ${goal.title}`}`;
  if (goal === page && to === index) return { label, edits: [] };
  return {
    label,
    edits: [
      { at: 'block', page: page.id, index, before: block, after: null },
      { at: 'block', page: goal.id, index: to, before: null, after: block },
    ],
  };
}

export interface RemoveBlock {
  /** The block's id. */
  readonly block: string;
}

/** A table that stands nowhere else goes with its block; what read it says so. */
export function removeBlock(book: Book, { block: id }: RemoveBlock): Answer {
  const found = findBlock(book, id);
  if (!found) return refused('That piece is no longer on its page.');
  const { page, index, block } = found;
  const edits: Edit[] = [{ at: 'block', page: page.id, index, before: block, after: null }];
  const label = `${what(book, block)} removed from ${page.title}`;
  if (block.kind !== 'table') return { label, edits };
  const shown = book.pages.flatMap((each) => each.blocks).filter((each) => each.kind === 'table' && each.table === block.table).length;
  if (shown > 1) return { label, edits };
  const gone = removeTable(apply(book, { label, edits }), block.table);
  return { label: `${label}${lostText(gone)}`, edits: [...edits, ...gone.edits] };
}

/** Places are kept in one writing, in whichever they were told. */
function inOwnWriting(block: Block): Block {
  if (block.kind === 'prose') return { ...block, text: ownProse(block.text) };
  if (block.kind !== 'picture') return block;
  return { ...block, reads: Object.fromEntries(Object.entries(block.reads).map(([key, target]) => [key, ownAddress(target)])) };
}

function findBlock(book: Book, id: string): { readonly page: Page; readonly index: number; readonly block: Block } | undefined {
  for (const page of book.pages) {
    const index = page.blocks.findIndex((block) => block.id === id);
    const block = page.blocks[index];
    if (block) return { page, index, block };
  }
  return undefined;
}

/** In words for the list of changes: "Text", "Table Costs", "Picture". */
function what(book: Book, block: Block): string {
  if (block.kind === 'prose') return 'Text';
  return block.kind === 'picture' ? 'Picture' : `Table ${book.tables.find((table) => table.id === block.table)?.name ?? block.table}`;
}

function blockProblem(book: Book, block: Block): string | undefined {
  if (block.kind === 'table') return book.tables.some((table) => table.id === block.table) ? undefined : `There is no table ${block.table} in this book.`;
  const text = block.kind === 'prose' ? block.text : block.caption;
  if (text.length > BOUNDS.text) return `This text has ${count(text.length)} characters; at most ${count(BOUNDS.text)} are allowed.`;
  if (block.kind !== 'picture') return undefined;
  const bad = Object.entries(block.reads).find(([key, target]) => !idIsGood(key) || target.length > BOUNDS.title);
  return bad ? `A picture can't read “${bad[1].slice(0, 40)}” as ${bad[0].slice(0, 40)}.` : undefined;
}
