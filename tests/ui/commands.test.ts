/** What the list of commands finds, and in which order: Enter runs the first. */
import { describe, expect, it } from 'vitest';
import { placeIn } from '../../src/book/address.ts';
import type { Area } from '../../src/book/area.ts';
import { type Book, CURRENT_VERSION, type Table } from '../../src/book/book.ts';
import { isRefused } from '../../src/book/refused.ts';
import { type Command, labelOf, type Outcome, type PageState } from '../../src/ui/commands/command.ts';
import { command, commands, ranked, usable } from '../../src/ui/commands/list.ts';
import { slugs, templateBook } from '../templates/open-template.ts';

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
    typedAt: undefined,
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
const labels = (words: string, at: PageState = block): readonly string[] => ranked(usable(at, words), words, at).map((each) => labelOf(each, at));

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

describe('everyday words', () => {
  const plan = templateBook('trade-bench');
  /** In a plan, with this cell chosen or none. */
  function inPlan(named?: string, rowId = '', column = 0, of = plan): PageState {
    const table = of.tables.find(({ id }) => id === named);
    const row = table?.rows.findIndex(({ id }) => id === rowId) ?? -1;
    const shown = of.pages.find(({ blocks }) => blocks.some((each) => each.kind === 'table' && each.table === named));
    const chosen =
      table && row >= 0 ? { at: placeIn(table, column, row), area: { table: table.id, row, rows: 1, column, columns: 1 } } : { at: undefined, area: undefined };
    return { ...block, book: of, pages: of.pages, pageId: (shown ?? of.pages[0])?.id ?? '', piece: undefined, canReturn: false, ...chosen };
  }
  const nothing = inPlan();
  const heightOfB = inPlan('scenarios', 'height', 1);
  const usual = 'Name the plan, its client and what is usual there';
  const US = 'Metric or US customary: show US customary';

  it.each([
    ['redo', 'Make the change again'],
    ['undo', 'Take the last change back'],
    ['currency', usual],
    ['dollar', usual],
    ['dollars', usual],
    ['lumens', 'The functions'],
    ['fold', 'Go to the working of what is chosen, and back'],
    ['rate', usual],
    ['settings', usual],
    ['target', 'Go to Target band (Scenarios)'],
    ['height', 'Go to Mount height (Scenarios)'],
    ['mount heights', 'Go to Mount height (Scenarios)'],
    ['version', 'Go to Version of the plan (Sheet)'],
    ['cheapest', 'Go to Cheapest that works, by the year (Choice)'],
    ['price', 'Go to Price of one (Scenarios)'],
    ['cost', 'Go to Costs'],
    ['scenario', 'Go to Scenarios'],
    ['wattage', 'Go to Power of one (Scenarios)'],
    ['dim', 'Go to Dimmed to (Scenarios)'],
    ['duplicate', 'Add a scenario'],
    ['copy', 'Add a scenario'],
    ['note', 'Add a text here'],
    ['merge', 'Bring in a book file or a table (CSV) …'],
    ['import', 'Bring in a book file or a table (CSV) …'],
    ['export', 'Send out the book as a file'],
    ['save', 'Send out the book as a file'],
    ['feet', US],
    ['inches', US],
    ['imperial', US],
    ['print', 'Print this page'],
    ['pdf', 'Print this page'],
    ['offer', 'Hand-over sheet'],
    ['help', 'Words explained'],
    ['theme', 'Day or night look'],
    ['dark', 'Day or night look'],
    ['font size', 'Day or night look'],
    ['filter', 'Find and replace …'],
    ['best', 'Propose scenarios'],
    ['history', 'What changed'],
    ['chart', 'Add a picture here'],
  ])('“%s” finds first, with nothing chosen: %s', (word, first) => {
    expect(labels(word, nothing)[0]).toBe(first);
  });

  it.each([
    ['copy', 'Copy what is chosen'],
    ['duplicate', 'Copy scenario B'],
    ['delete', 'Empty what is chosen'],
    ['compare', 'Compare the others with B'],
    ['unit', 'Show in another unit …'],
    ['inches', 'Show in another unit …'],
    ['round', 'Show one decimal fewer'],
    ['height', 'Go to Mount height (Scenarios)'],
  ])('“%s” finds first, with a height of B chosen: %s', (word, first) => {
    expect(labels(word, heightOfB)[0]).toBe(first);
  });

  it('of a list order its rows and make its columns narrower', () => {
    const inList = state(plain, { row: 2, rows: 1, column: 1, columns: 1 });
    expect(labels('sort', inList)[0]).toBe('Put the rows in order of this column, least first');
    expect(labels('hide', inList)[0]).toBe('Make the column narrower');
  });

  it('never find a command by the middle of a word', () => {
    // A block of cells is not locked.
    expect(labels('lock', nothing)).toEqual([]);
    expect(labels('lock', heightOfB)).toEqual([]);
  });

  it('lead to the scenario at hand', async () => {
    const [first] = ranked(usable(heightOfB, 'height'), 'height', heightOfB);
    const row = plan.tables.find(({ id }) => id === 'scenarios')?.rows.findIndex(({ id }) => id === 'height');
    expect(await first?.run(heightOfB)).toEqual({ do: 'choose', table: 'scenarios', near: { row, column: 1 }, follow: true });
  });

  it('find something in every template, and what can not be done now is known all the same', () => {
    const words =
      'redo currency dollar target height duplicate note copy version cheapest merge export feet print pdf save send inches imperial euro price delete undo sort filter hide help theme dark scenario compare wattage light hours crop power';
    for (const slug of slugs) {
      const at = inPlan(undefined, '', 0, templateBook(slug));
      for (const word of words.split(' ')) expect([...labels(word, at), ...ranked(commands, word, at)], `${slug}: ${word}`).not.toEqual([]);
    }
  });

  it('offer the pages first, and never the list itself', () => {
    expect(labels('', nothing).slice(0, plan.pages.length)).toEqual(plan.pages.map(({ title }) => `Go to ${title}`));
    for (const word of ['', 'find', 'command', 'list']) expect(labels(word, nothing)).not.toContain('Find a command');
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
    expect(usable(closed).map(({ id }) => id)).toEqual(expect.arrayContaining(['bring-in', 'light']));
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
