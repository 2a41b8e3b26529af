/** Who reads what is about to go. */
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { isFormula } from '../../book/content.ts';
import { LOST } from '../../book/references.ts';

/** In words: what reads it, by its place or by its name, and would say from then on that it is gone. */
export function readersText(book: Book, change: Change): string {
  const names = change.edits.flatMap((edit) => (edit.at === 'name' && edit.after === null ? [edit.name] : []));
  const saysName = names.length === 0 ? undefined : new RegExp(`(?<![\\w.])(?:${names.map((name) => name.replaceAll('.', '\\.')).join('|')})(?![\\w.(])`, 'iu');
  const says = (text: string): boolean => text.includes(LOST) || (saysName?.test(text.replace(/"[^"]*"/gu, '""')) ?? false);
  const placesOf = (of: Book, loses: (text: string) => boolean): readonly string[] =>
    [...formulasOf(of), ...blocksOf(of)].flatMap(([place, text]) => (loses(text) ? [place] : []));
  const before = new Set(placesOf(book, (text) => text.includes(LOST)));
  const found = placesOf(apply(book, change), says).filter((place) => !before.has(place));
  const formulas = found.filter((place) => place.startsWith('cell ')).length;
  const readers = [many(formulas, 'formula', 'formulas'), many(found.length - formulas, 'text or picture', 'texts and pictures')].filter(Boolean).join(' and ');
  const go = names.length === 0 ? '' : names.length === 1 ? `The name ${names[0]} goes too.` : `${names.length} names go too.`;
  return [readers === '' ? 'Nothing else reads it.' : `Others read it: ${readers} would lose a cell.`, go].filter(Boolean).join(' ');
}

function* formulasOf(book: Book): Generator<readonly [string, string]> {
  for (const table of book.tables) {
    for (const [row, line] of Object.entries(table.cells)) {
      for (const [column, cell] of Object.entries(line)) if (isFormula(cell.content)) yield [`cell ${table.id} ${row} ${column}`, cell.content];
    }
  }
}

function* blocksOf(book: Book): Generator<readonly [string, string]> {
  for (const block of book.pages.flatMap((page) => page.blocks)) {
    // Of a text, what stands for live values; its own words may be called like a name.
    if (block.kind === 'prose') yield [block.id, (block.text.match(/\{\{.*?\}\}/gu) ?? []).join(' ')];
    else if (block.kind === 'picture') yield [block.id, Object.values(block.reads).join(' ')];
  }
}

const many = (n: number, one: string, more: string): string => (n === 0 ? '' : `${n} ${n === 1 ? one : more}`);
