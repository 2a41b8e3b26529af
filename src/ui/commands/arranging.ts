/** What the commands for pages and their pieces do, fetched together when the first of them is asked for. */
import type { Book } from '../../book/book.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import { readersText } from './readers.ts';

export { moveBlock, removeBlock } from '../../book/commands/blocks.ts';
export { addPage, movePage, removePage } from '../../book/commands/pages.ts';
export { renamePage, renameTable } from '../../book/commands/rename.ts';
export { addTable } from '../../book/commands/tables.ts';

/** What would go with it, told before it goes. */
export function loss(book: Book, answer: Answer, pieces: number): string {
  if (isRefused(answer)) return answer.message;
  const tables = answer.edits.flatMap((edit) => (edit.at === 'table' && edit.before ? [edit.before.name] : []));
  const gone = tables.length === 1 ? `The table ${tables[0]} and all that is in it` : `The tables ${tables.join(', ')} and all that is in them`;
  return [
    pieces === 1 ? '' : `${pieces} pieces are on it.`,
    tables.length > 0 ? `${gone} would be gone from the book.` : 'No table would be gone from the book.',
    readersText(book, answer),
    'It can be taken back.',
  ]
    .filter(Boolean)
    .join(' ');
}
