/** Pages, their pieces, and whole tables that come and go. */
import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import { addBlock, moveBlock, removeBlock, setBlock } from '../../src/book/commands/blocks.ts';
import { addPage, movePage, removePage } from '../../src/book/commands/pages.ts';
import { renamePage } from '../../src/book/commands/rename.ts';
import { addTable } from '../../src/book/commands/tables.ts';
import { sample } from './sample.ts';
import { label, sound } from './sound.ts';

const titles = (book: Book): string[] => book.pages.map((page) => page.title);
const blocks = (book: Book, page: number): string[] => book.pages[page]?.blocks.map((block) => block.id) ?? [];
const content = (book: Book, address: string): string | undefined => cellAt(book, address)?.cell?.content;

describe('pages', () => {
  it('are added where it is said, with an id of their own, renamed and moved', () => {
    const made = sound(sample, addPage(sample, { title: 'Notes', at: 1 }));
    expect(titles(made)).toEqual(['Brief', 'Notes', 'Scenarios']);
    expect(made.pages[1]).toEqual({ id: 'p3', title: 'Notes', blocks: [] });
    const moved = sound(made, movePage(made, { page: 'p3', to: 2 }));
    expect(titles(moved)).toEqual(['Brief', 'Scenarios', 'Notes']);
    expect(titles(sound(moved, renamePage(moved, { page: 'p3', title: 'Visit' })))).toEqual(['Brief', 'Scenarios', 'Visit']);
    expect(label(addPage(sample, { title: ' ' }))).toBe('refused: A page needs a title.');
    expect(label(movePage(sample, { page: 'p1', to: 2 }))).toBe('refused: There is no such place among the pages.');
  });

  it('that come to stand inside a group are of it', () => {
    const one = sound(sample, addPage(sample, { title: 'Costs', group: 'Plan' }));
    const two = sound(one, addPage(one, { title: 'Notes' }));
    expect(sound(two, movePage(two, { page: 'p4', to: 2 })).pages[2]).toEqual({ id: 'p4', title: 'Notes', group: 'Plan', blocks: [] });
    expect(sound(two, movePage(two, { page: 'p4', to: 0 })).pages[0]).toEqual({ id: 'p4', title: 'Notes', blocks: [] });
    // Out of its group too, so that the contents show that it moved.
    expect(sound(two, movePage(two, { page: 'p3', to: 0 })).pages[0]).toEqual({ id: 'p3', title: 'Costs', blocks: [] });
    expect(sound(two, movePage(two, { page: 'p3', to: 1 })).pages[1]).toEqual({ id: 'p3', title: 'Costs', group: 'Plan', blocks: [] });
  });

  it('go with the tables that stand nowhere else, and what read those says that the cells are gone', () => {
    const answer = removePage(sample, { page: 'p1' });
    // The three costs read Brief.A2, and a check reads bench_length.
    expect(label(answer)).toBe('Page Brief removed (4 formulas lost a cell that they read; the name bench_length goes too)');
    const made = sound(sample, answer);
    expect(made.tables.map((table) => table.name)).toEqual(['Scenarios', 'Fixture list']);
    expect(content(made, 'Scenarios.A3')).toBe("=A2*INDEX('Fixture list'.$B$2:$B$4,MATCH(#REF!,'Fixture list'.A2:A4,0))");
    expect(made.names).toEqual({ prices: "'Fixture list'.$B$2:$B$4" });
    expect(label(removePage(made, { page: 'p2' }))).toBe('refused: A book keeps at least one page.');
  });

  it('leave a table in the book that another page shows', () => {
    const both = sound(sample, addBlock(sample, { page: 'p2', block: { kind: 'table', table: 'brief' } }));
    const made = sound(both, removePage(both, { page: 'p1' }));
    expect(made.tables).toEqual(sample.tables);
    expect(made.names).toEqual(sample.names);
  });
});

describe('the pieces of a page', () => {
  it('are added, written, moved within a page and to another, and removed', () => {
    const made = sound(sample, addBlock(sample, { page: 'p1', at: 1, block: { kind: 'prose', text: 'It is {{bench_length}} long.' } }));
    expect(blocks(made, 0)).toEqual(['b1', 'b6', 'b2']);
    const written = sound(made, setBlock(made, { block: 'b6', text: 'Long.' }));
    expect(written.pages[0]?.blocks[1]).toEqual({ id: 'b6', kind: 'prose', text: 'Long.' });
    expect(blocks(sound(written, moveBlock(written, { block: 'b6', to: 2 })), 0)).toEqual(['b1', 'b2', 'b6']);
    const across = sound(written, moveBlock(written, { block: 'b6', page: 'p2', to: 3 }));
    expect([blocks(across, 0), blocks(across, 1)]).toEqual([
      ['b1', 'b2'],
      ['b3', 'b4', 'b5', 'b6'],
    ]);
    expect(blocks(sound(across, removeBlock(across, { block: 'b6' })), 1)).toEqual(['b3', 'b4', 'b5']);
  });

  it('that are pictures say what they are of and what they read', () => {
    const made = sound(sample, setBlock(sample, { block: 'b5', caption: 'Light over the bench', reads: { height: 'Scenarios.C1' } }));
    expect(made.pages[1]?.blocks[2]).toEqual({
      id: 'b5',
      kind: 'picture',
      picture: 'light map',
      caption: 'Light over the bench',
      reads: { height: 'Scenarios.C1' },
    });
    expect(label(setBlock(sample, { block: 'b5', reads: { constructor: 'Scenarios.C1' } }))).toMatch(/^refused: A picture can't read/);
    expect(label(setBlock(sample, { block: 'b2', text: 'x' }))).toBe('refused: A table is written in its cells.');
  });

  it('are refused where they can not stand', () => {
    expect(label(addBlock(sample, { page: 'p9', block: { kind: 'prose', text: '' } }))).toMatch(/^refused: There is no page p9/);
    expect(label(addBlock(sample, { page: 'p1', at: 3, block: { kind: 'prose', text: '' } }))).toMatch(/^refused: There is no such place/);
    expect(label(addBlock(sample, { page: 'p1', block: { kind: 'table', table: 'gone' } }))).toMatch(/^refused: There is no table gone/);
    expect(label(addBlock(sample, { page: 'p1', block: { kind: 'prose', text: 'x'.repeat(32_001) } }))).toMatch(/^refused: This text has 32,001 characters/);
    expect(label(moveBlock(sample, { block: 'b1', to: 2 }))).toMatch(/^refused: There is no such place/);
  });

  it('that are tables go with their table only where they were its last', () => {
    const answer = removeBlock(sample, { block: 'b4' });
    expect(label(answer)).toBe(
      'Table Fixture list removed from Scenarios (3 formulas lost a cell that they read; a text or a picture lost a cell that it showed; the name prices goes too)',
    );
    const made = sound(sample, answer);
    expect(made.tables.map((table) => table.id)).toEqual(['brief', 'scenarios']);
    expect(made.tables[0]?.rows[1]?.range).toEqual({ from: '#REF!' });
    const twice = sound(sample, addBlock(sample, { page: 'p1', block: { kind: 'table', table: 'fixtures' } }));
    expect(sound(twice, removeBlock(twice, { block: 'b4' })).tables).toEqual(sample.tables);
  });
});

describe('a new table', () => {
  it('is plain, or a list with a row for its headings, or compares the scenarios that the book has', () => {
    const plain = sound(sample, addTable(sample, { page: 'p1', name: 'Visits', form: 'plain', rows: 2, columns: 3 }));
    expect(plain.tables[3]).toEqual({
      id: 't1',
      name: 'Visits',
      form: 'plain',
      columns: [{ id: 'c1' }, { id: 'c2' }, { id: 'c3' }],
      rows: [{ id: 'r1' }, { id: 'r2' }],
      cells: {},
    });
    expect(blocks(plain, 0)).toEqual(['b1', 'b2', 'b6']);
    const list = sound(sample, addTable(sample, { page: 'p1', at: 0, name: 'Crops', form: 'list', rows: 3, columns: 2 }));
    expect(list.tables[3]?.rows.map((row) => row.head ?? false)).toEqual([true, false, false]);
    const costs = sound(sample, addTable(sample, { page: 'p2', name: 'Costs', form: 'scenarios', rows: 2, columns: 1 }));
    expect(costs.tables[3]?.columns.map((column) => column.label)).toEqual(['A', 'B', 'C']);
  });

  it('has a name that no other has, and a size that a table may have', () => {
    const add = (name: string, rows: number, columns: number): string => label(addTable(sample, { page: 'p1', name, form: 'plain', rows, columns }));
    expect(add('scenarios', 1, 1)).toBe('refused: There is already a table called “Scenarios”.');
    expect(add('A1', 1, 1)).toMatch(/^refused: “A1” can't name a table/);
    for (const [rows, columns] of [
      [0, 1],
      [1, 0],
      [20_001, 1],
      [1, 101],
      [1.5, 1],
    ] as const)
      expect(add('Visits', rows, columns)).toBe('refused: A table has from 1 to 20,000 rows and from 1 to 100 columns.');
  });
});
