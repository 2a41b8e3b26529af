/** Changes that were put down and never saved: what is made of them when the book is opened again. */
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { deleteDB, openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { type History, NO_HISTORY, remember, undo } from '../../src/book/history.ts';
import { isRefused } from '../../src/book/refused.ts';
import type { Note } from '../../src/files/store/journal.ts';
import { letGo } from '../../src/files/store/lines.ts';
import { recover } from '../../src/files/store/recover.ts';
import { openStore, type Store } from '../../src/files/store/storage.ts';
import { sample } from '../book/sample.ts';

const ID = sample.id;
let store: Store;

beforeEach(async () => {
  await deleteDB('overbench');
  const opened = await openStore();
  if (!opened.ok) throw new Error(opened.message);
  store = opened.store;
});
afterEach(() => {
  store.close();
  for (const line of ['here', 'there']) letGo(line);
});

interface Now {
  readonly book: Book;
  readonly history: History;
}

function changeOf(book: Book, content: string): Change {
  const change = setCell(book, { address: 'Scenarios.A1', content });
  if (isRefused(change)) throw new Error(change.message);
  return change;
}
const made = ({ book, history }: Now, change: Change): Now => ({ book: apply(book, change), history: remember(history, change) });

const before: Now = { book: sample, history: NO_HISTORY };
const first = changeOf(sample, '70 cm');
const one = made(before, first);
const second = changeOf(one.book, '75 cm');
const two = made(one, second);

const note = (n: number, change: Change, more: Partial<Note> = {}): Note => ({ id: ID, line: 'here', n, base: 1, step: 'made', change, ...more });
async function noted(...notes: Note[]): Promise<void> {
  for (const each of notes) expect(await store.note(each)).toBe(true);
}
async function reopened() {
  const opened = await store.open(ID);
  return recover(store, ID, opened.ok ? opened : undefined);
}

describe('a journal of a page that still wrote places as version 3 of the book did', () => {
  const typed = (content: string): Change => ({
    label: 'x',
    edits: [{ at: 'cell', table: 'scenarios', row: 'h', column: 'a', before: sample.tables[1]?.cells.h?.a ?? null, after: { content } }],
  });
  const played = async (more: Partial<Note>, content: string) => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(note(1, typed(content), more));
    return (await reopened()).on?.to;
  };

  it('is played back in the present writing, and so is what is taken back', async () => {
    const to = await played({}, '=Brief!A1*2');
    expect(to?.book.tables[1]?.cells.h?.a?.content).toBe('=Brief.A1*2');
    expect(to?.history.done[0]?.edits[0]).toMatchObject({ after: { content: '=Brief.A1*2' } });
  });

  it('is told from a later one, which says its version', async () => {
    expect((await played({ version: 4 }, '=Brief.A1*2'))?.book.tables[1]?.cells.h?.a?.content).toBe('=Brief.A1*2');
  });

  it('brings its own book, whole, in the present writing', async () => {
    const three = JSON.parse(readFileSync(new URL('../book/places-3.json', import.meta.url), 'utf8')) as Book;
    const { change: _, ...whole } = note(1, first, { step: 'whole', book: { ...three, id: ID }, history: { done: [typed('=Brief!A1')], undone: [] } });
    await noted(whole);
    await reopened();
    const list = await store.list();
    const kept = list.ok ? await store.open(list.entries[0]?.id ?? '') : undefined;
    expect(kept?.ok && kept.book.names['rail.low']).toBe("'2024'.$A$1:$A$2");
    expect(kept?.ok && kept.history.done[0]?.edits[0]).toMatchObject({ after: { content: '=Brief.A1' } });
  });
});

describe('a kept book of version 3', () => {
  it('is opened in the present writing with its list of changes, and says what is called otherwise now', async () => {
    const three = JSON.parse(readFileSync(new URL('../book/places-3.json', import.meta.url), 'utf8')) as Book;
    const change: Change = {
      label: 'x',
      edits: [{ at: 'cell', table: 'scenarios', row: 'r2', column: 'a', before: { content: '=rail.v24' }, after: { content: '=A1*2' } }],
    };
    await store.save({ ...three, id: ID }, { done: [change], undone: [] }, 0);
    const opened = await store.open(ID);
    if (!opened.ok) throw new Error(opened.message);
    expect(opened.said).toContain('The name rail.v24 is rail_v24_2 now: it reads as cell V24 of a table called rail.');
    const back = undo(opened.history);
    expect(back && apply(opened.book, back.change).tables[0]?.cells.r2?.a?.content).toBe('=rail_v24_2');
  });
});

describe('the journal', () => {
  it('is played back upon the save that it follows, with the history, and says so', async () => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(note(1, first), note(2, second));
    const { on, said } = await reopened();
    expect(on?.to).toEqual(two);
    expect(on).toMatchObject({ line: 'here', n: 2, count: 2 });
    expect(said).toEqual([expect.stringMatching(/^2 changes made before this page closed, and not saved then, are in again, the last of them: .*75 cm/)]);
  });

  it('takes back and makes again as it was done', async () => {
    await store.save(sample, NO_HISTORY, 0);
    const { change: _, ...takenBack } = note(3, first, { step: 'taken back' });
    await noted(note(1, first), note(2, second), takenBack);
    const back = undo(two.history);
    const { on } = await reopened();
    expect(on?.to.book).toEqual(one.book);
    expect(on?.to.history).toEqual(back?.history);
    const { change: __, ...again } = note(4, first, { step: 'made again' });
    letGo('here');
    await noted(again);
    expect((await reopened()).on?.to).toEqual(two);
  });

  it('leaves out what its page had saved already', async () => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(note(1, first));
    await store.save(one.book, one.history, 1, { line: 'here', upTo: 1 });
    expect(await reopened()).toEqual({ said: [] });
    expect(await store.notes(ID), 'what is saved is not kept twice').toEqual([]);
    await noted(note(1, first), note(2, second, { base: 2 }));
    letGo('here');
    const { on } = await reopened();
    expect(on?.to).toEqual(two);
    expect(on?.count).toBe(1);
  });

  it('is not played back upon a save that another page made meanwhile; what was changed is said', async () => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(note(1, first));
    await store.save({ ...sample, title: 'Another' }, NO_HISTORY, 1, { line: 'there', upTo: 1 });
    const { on, said } = await reopened();
    expect(on).toBeUndefined();
    expect(said).toEqual([expect.stringMatching(/^Not put in, because .*70 cm/)]);
    expect(await store.notes(ID)).toEqual([]);
  });

  it('makes a book of its own of one that another page had overtaken, with what was changed after that', async () => {
    await store.save(sample, NO_HISTORY, 0);
    await store.save({ ...sample, client: 'Another' }, NO_HISTORY, 1, { line: 'there', upTo: 1 });
    const { change: _, ...whole } = note(1, first, { step: 'whole', book: one.book, history: one.history });
    await noted(whole, note(2, second));
    const { on, said } = await reopened();
    expect(on).toBeUndefined();
    expect(said).toEqual(['What another page had not saved of this book is on the shelf now, as “Propagation bench, second copy”.']);
    const list = await store.list();
    const copy = list.ok ? list.entries.find(({ title }) => title.endsWith('second copy')) : undefined;
    const opened = await store.open(copy?.id ?? '');
    expect(opened.ok && { ...opened.book, id: ID, title: sample.title }).toEqual(two.book);
    expect(opened.ok && opened.history).toEqual(two.history);
    expect(await store.notes(ID)).toEqual([]);
  });

  it('plays two pages’ changes back apart, the one into the book, the other into one of its own', async () => {
    await store.save(sample, NO_HISTORY, 0);
    const other = changeOf(sample, '60 cm');
    await noted(note(1, first), note(1, other, { line: 'there' }));
    const { on, said } = await reopened();
    expect(on?.to).toEqual(one);
    expect(said.at(-1)).toMatch(/second copy/);
    const list = await store.list();
    const copy = await store.open((list.ok && list.entries.find(({ title }) => title.endsWith('second copy'))?.id) || '');
    expect(copy.ok && copy.book.tables).toEqual(apply(sample, other).tables);
  });

  it('stops at a gap, and says what came after it', async () => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(note(1, first), note(3, second));
    const { on, said } = await reopened();
    expect(on?.to).toEqual(one);
    expect(said.join(' ')).toMatch(/Not put in, .*75 cm/);
    expect((await store.notes(ID)).map(({ n }) => n)).toEqual([1]);
  });

  it.each([
    ['a change for another book', note(1, { label: 'Odd', edits: [{ at: 'row', table: 'none', index: 0, before: null, after: null }] })],
    ['a change that no book may have', note(1, { label: 'Odd', edits: [{ at: 'name', name: '1', before: null, after: 'x' }] })],
  ])('is never a reason not to open the book: %s', async (_, odd) => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(odd);
    const { on, said } = await reopened();
    expect(on).toBeUndefined();
    expect(said).toEqual([expect.stringMatching(/^Not put in, .*Odd/)]);
  });

  it('passes over what is no note', async () => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(note(1, { label: 'Odd', edits: [7] } as unknown as Change), { id: ID, line: 'there', n: 1 } as unknown as Note);
    expect(await reopened()).toEqual({ said: [] });
  });

  it('goes with the book that is thrown away', async () => {
    await store.save(sample, NO_HISTORY, 0);
    await noted(note(1, first));
    await store.remove(ID);
    expect(await store.notes(ID)).toEqual([]);
  });
});

describe('a save that comes late', () => {
  it('of the same page never takes the place of a later one', async () => {
    await store.save(sample, NO_HISTORY, 0, { line: 'here', upTo: 0 });
    await store.save(two.book, two.history, 1, { line: 'here', upTo: 2 });
    expect(await store.save(one.book, one.history, 1, { line: 'here', upTo: 1 })).toMatchObject({ ok: true, entry: { revision: 2, mark: { upTo: 2 } } });
    expect(await store.open(ID)).toMatchObject({ ok: true, book: two.book });
  });

  it('is known as the page’s own where nobody heard that it had come through', async () => {
    await store.save(sample, NO_HISTORY, 0, { line: 'here', upTo: 0 });
    await store.save(one.book, one.history, 1, { line: 'here', upTo: 1 });
    expect(await store.save(two.book, two.history, 1, { line: 'here', upTo: 2 })).toMatchObject({ ok: true, entry: { revision: 3 } });
    expect(await store.save(sample, NO_HISTORY, 1, { line: 'there', upTo: 1 })).toMatchObject({ ok: false, problem: 'changed elsewhere' });
  });
});

it('the store of version 2, which had no journal, opens with its books', async () => {
  store.close();
  await deleteDB('overbench');
  const old = await openDB('overbench', 2, {
    upgrade(db) {
      db.createObjectStore('entries', { keyPath: 'id' });
      db.createObjectStore('books');
    },
  });
  await old.put('entries', { id: ID, title: sample.title, client: sample.client, savedAt: 1, revision: 1 });
  await old.put('books', { book: sample, history: NO_HISTORY, slices: 0 }, ID);
  old.close();
  const opened = await openStore();
  if (!opened.ok) throw new Error(opened.message);
  store = opened.store;
  await noted(note(1, first));
  expect((await reopened()).on?.to).toEqual(one);
});
