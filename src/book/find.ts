/** Where a text stands in a book: in contents of cells, headings, notes, sources and prose. */
import { type At, placeIn } from './address.ts';
import type { Block, Book, Page, Table } from './book.ts';
import { plainText } from './content.ts';
import { type Axis, linesOf } from './lines.ts';

export interface Wanted {
  readonly text: string;
  /** Capitals are told apart. */
  readonly capitals?: boolean;
  /** Only in this table, by its id; left out: in the whole book. */
  readonly table?: string;
}

interface Found {
  readonly text: string;
  /** How often the wanted text stands in it. */
  readonly times: number;
}

export type CellHit = Found & { readonly in: 'cell' | 'note' | 'source'; readonly at: At };

export type OtherHit = Found &
  (
    | { readonly in: 'heading'; readonly table: Table; readonly axis: Axis; readonly index: number }
    | { readonly in: 'help'; readonly table: Table; readonly index: number }
    | { readonly in: 'prose'; readonly page: Page; readonly block: Block & { readonly kind: 'prose' }; readonly index: number }
    | { readonly in: 'caption'; readonly page: Page; readonly block: Block & { readonly kind: 'picture' }; readonly index: number }
  );

export type Hit = CellHit | OtherHit;

/** In the order in which the book is read: page by page, and a table row by row. */
export function findText(book: Book, wanted: Wanted): readonly Hit[] {
  const hits: Hit[] = [];
  if (wanted.text === '') return hits;
  const find = patternOf(wanted);
  const times = (text: string | undefined): number => (text ? (text.match(find)?.length ?? 0) : 0);
  const seen = new Set<string>();
  const inTable = (table: Table | undefined): void => {
    if (!table || seen.has(table.id) || (wanted.table !== undefined && wanted.table !== table.id)) return;
    seen.add(table.id);
    hits.push(...hitsIn(table, times));
  };
  for (const page of book.pages) {
    for (const [index, block] of page.blocks.entries()) {
      if (block.kind === 'table') inTable(book.tables.find((table) => table.id === block.table));
      else if (wanted.table === undefined) {
        const text = block.kind === 'prose' ? block.text : block.caption;
        const n = times(text);
        if (n > 0)
          hits.push(block.kind === 'prose' ? { in: 'prose', page, block, index, text, times: n } : { in: 'caption', page, block, index, text, times: n });
      }
    }
  }
  for (const table of book.tables) inTable(table);
  return hits;
}

/** Every place where it stands, letters with their accents as they are. */
export const patternOf = ({ text, capitals = false }: Wanted): RegExp => new RegExp(text.replace(/[\\^$.*+?()[\]{}|/-]/gu, '\\$&'), capitals ? 'gu' : 'giu');

function hitsIn(table: Table, times: (text: string | undefined) => number): Hit[] {
  const hits: Hit[] = [];
  const headings = (axis: Axis, index: number): void => {
    const text = linesOf(table, axis)[index]?.label ?? '';
    const n = times(text);
    if (n > 0) hits.push({ in: 'heading', table, axis, index, text, times: n });
  };
  // Scenarios are called the same in several tables, and are renamed as such.
  if (table.form !== 'scenarios') for (const index of table.columns.keys()) headings('column', index);
  for (const [r, row] of table.rows.entries()) {
    headings('row', r);
    const help = times(row.help);
    if (help > 0) hits.push({ in: 'help', table, index: r, text: row.help ?? '', times: help });
    for (const c of table.columns.keys()) {
      const at = placeIn(table, c, r);
      if (!at?.cell) continue;
      const text = plainText(at.cell.content);
      const n = times(text);
      if (n > 0) hits.push({ in: 'cell', at, text, times: n });
      for (const key of ['note', 'source'] as const) {
        const more = times(at.cell[key]);
        if (more > 0) hits.push({ in: key, at, text: at.cell[key] ?? '', times: more });
      }
    }
  }
  return hits;
}
