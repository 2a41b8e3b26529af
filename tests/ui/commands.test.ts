/** What the list of commands finds, and in which order: Enter runs the first. */
import { describe, expect, it } from 'vitest';
import { placeIn } from '../../src/book/address.ts';
import type { Area } from '../../src/book/area.ts';
import { type Book, CURRENT_VERSION, type Table } from '../../src/book/book.ts';
import { isRefused } from '../../src/book/refused.ts';
import { type Command, labelOf, type Outcome, type PageState } from '../../src/ui/commands/command.ts';
import { command, commands, ranked, usable } from '../../src/ui/commands/list.ts';
import { templateBook } from '../templates/open-template.ts';

const plain: Table = {
  id: 'plain',
  name: 'Sums',
  form: 'plain',
  columns: ['a', 'b', 'c', 'd', 'e'].map((id) => ({ id, label: id })),
  rows: Array.from({ length: 9 }, (_, i) => ({ id: `r${i}`, label: `row ${i}` })),
  // Worked cells: one that is locked, one that may be written over.
  cells: { r2: { b: { content: '=1+1' }, c: { content: '=2+2', kind: 'given' } } },
};
const compared: Table = {
  id: 'compared',
  name: 'Scenarios',
  form: 'scenarios',
  base: 'a',
  columns: ['a', 'b', 'c'].map((id) => ({ id, label: id.toUpperCase() })),
  rows: [{ id: 'h', label: 'Mount height', unit: 'm', kind: 'given' }],
  cells: { h: { a: { content: '0.3 m' }, b: { content: '0.4 m' }, c: { content: '=A1' } } },
};
const book: Book = {
  format: 'overbench book',
  version: CURRENT_VERSION,
  id: 'b',
  title: 'A plan',
  client: '',
  currency: 'EUR',
  measures: 'metric',
  pages: [
    {
      id: 'p',
      title: 'Scenarios',
      blocks: [
        { id: 'k1', kind: 'table', table: 'plain' },
        { id: 'k2', kind: 'prose', text: 'A text.' },
        { id: 'k3', kind: 'table', table: 'compared' },
      ],
    },
    { id: 'q', title: 'Notes', blocks: [] },
  ],
  tables: [plain, compared],
  names: { height: 'Sums.B3' },
};

/** A page on which these cells are chosen, and the text is in hand. */
function state(table: Table, area: Omit<Area, 'table'>, more: Partial<PageState> = {}): PageState {
  return {
    book,
    values: {},
    at: placeIn(table, area.column, area.row),
    area: { table: table.id, ...area },
    drawnWidth: 100,
    pageId: 'p',
    piece: 'k2',
    pages: book.pages,
    canUndo: true,
    canRedo: true,
    canReturn: true,
    ask: () => Promise.reject(new Error('There is no engine here.')),
    ...more,
  };
}
/** Two rows and columns of a plain table are chosen. */
const block = state(plain, { row: 2, rows: 2, column: 1, columns: 2 });
const inB = state(compared, { row: 0, rows: 1, column: 1, columns: 1 });
const labels = (words: string, at: PageState = block): readonly string[] => ranked(usable(at), words, at).map((each) => labelOf(each, at));

describe('the list of commands', () => {
  it('begins with the command that is called so, not with one that reads alike', () => {
    expect(labels('repeat')[0]).toBe('Repeat the first row down');
    expect(labels('first row')[0]).toBe('Repeat the first row down');
    expect(labels('unlock')[0]).toBe('Unlock the worked cell');
    expect(labels('lock')[0]).toBe('Lock the worked cell');
    expect(labels('go to scenarios')[0]).toBe('Go to Scenarios');
    expect(labels('print')[0]).toBe('Print this page');
  });

  it('never makes a change again where a repetition was sought', () => {
    const single = state(plain, { row: 2, rows: 1, column: 1, columns: 1 });
    expect(labels('repeat', single)).toEqual([]);
    expect(labels('redo', single)[0]).toBe('Make the change again');
  });

  it('puts what has the words in its label before what has them among its other words, and keeps the order of those alike', () => {
    for (const at of [block, inB]) {
      for (const word of ['row', 'column', 'scenario', 'order', 'copy', 'name', 'table', 'new', 'line', 'format']) {
        const inLabel = labels(word, at).map((label) => label.toLowerCase().includes(word));
        expect(inLabel, word).toEqual([...inLabel].sort((a, b) => Number(b) - Number(a)));
      }
    }
    expect(labels('')).toEqual(usable(block).map((each) => labelOf(each, block)));
    expect(labels('no such thing')).toEqual([]);
  });
});

it('“lux” finds where a reading of a lux meter is asked for, in a book that asks for one', () => {
  const shelf = templateBook('single-shelf');
  expect(labels('lux', { ...block, book: shelf })[0]).toBe('Say what a lux meter showed');
  expect(command('lux').run({ ...block, book: shelf })).toMatchObject({ do: 'open slip', slip: 'brief', asked: { table: 'lux', row: 'lux_read' } });
  const meter = templateBook('meter-check');
  expect(labels('lux', { ...block, book: meter })[0], 'where meters are asked for, too').toBe('Say what a lux meter showed');
  expect(command('lux').run({ ...block, book: meter })).toMatchObject({ do: 'open slip', slip: 'brief', asked: { row: 'meter_kind' } });
  expect(labels('lux')).toEqual([]);
});

describe('a command', () => {
  it('has a name that no other has', () => {
    expect(new Set(commands.map(({ id }) => id)).size).toBe(commands.length);
  });

  it('says what it would do, and does nothing: the book that it was asked of stays as it was', async () => {
    const before = JSON.stringify(book);
    for (const at of [block, inB]) {
      for (const each of commands.filter((one) => one.when(at) && one.id !== 'take-in')) {
        const steps: readonly Exclude<Outcome, readonly unknown[]>[] = [await each.run(at)].flat();
        for (const step of steps) expect(isRefused(step) || 'edits' in step || 'do' in step, each.id).toBe(true);
      }
    }
    expect(JSON.stringify(book)).toBe(before);
  });

  it('refuses where nothing is there for it to be done to', async () => {
    const closed = { ...block, book: undefined, at: undefined, area: undefined, pages: [] };
    expect(usable(closed).map(({ id }) => id)).toEqual(expect.arrayContaining(['find', 'bring-in', 'light']));
    expect(await command('row-below').run(closed)).toMatchObject({ refused: true });
  });

  it('puts in as many rows as are chosen, and the choice goes to the first of them', async () => {
    const [change, then] = [await command('row-below').run(block)].flat();
    expect(change && 'edits' in change ? change.edits.filter((edit) => edit.at === 'row') : []).toHaveLength(2);
    expect(then).toEqual({ do: 'choose', table: 'plain', near: { row: 4, column: 1 } });
  });

  it('without what it does, or with something that the page can not do, does not compile', () => {
    const record = { id: 'x', label: 'X', words: '', when: () => true };
    // @ts-expect-error Nothing does it.
    const undone: Command = record;
    // @ts-expect-error No effect is called so.
    const unknown: Command = { ...record, run: () => ({ do: 'what nobody does' }) };
    // @ts-expect-error There is no slip of this name.
    const lost: Command = { ...record, run: () => ({ do: 'open slip', slip: 'no such slip', asked: undefined }) };
    // @ts-expect-error A slip is opened with what it asks about.
    const bare: Command = { ...record, run: () => ({ do: 'open slip', slip: 'unit', asked: 3 }) };
    // @ts-expect-error No command is called so.
    expect(command('no-such-command')).toBeUndefined();
    expect([undone, unknown, lost, bare]).toHaveLength(4);
  });
});
