import 'fake-indexeddb/auto';
import { deleteDB, openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book, Table } from '../../src/book/book.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { NO_HISTORY, remember } from '../../src/book/history.ts';
import { isRefused } from '../../src/book/refused.ts';
import { openStore, type Store, type StoreNews } from '../../src/files/store/storage.ts';
import { sample } from '../book/sample.ts';
import { templateBook } from '../templates/open-template.ts';

const stores: Store[] = [];

async function store(): Promise<Store> {
  const opened = await openStore();
  if (!opened.ok) throw new Error(opened.message);
  stores.push(opened.store);
  return opened.store;
}

const change = setCell(sample, { address: 'Scenarios.A1', content: '70 cm' });
if (isRefused(change)) throw new Error(change.message);
const changed = apply(sample, change);
const history = remember(NO_HISTORY, change);

/** Until what was told to other tabs has come round. */
async function until(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 200 && !holds(); i++) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(holds()).toBe(true);
}

beforeEach(() => deleteDB('overbench'));
afterEach(() => {
  for (const each of stores.splice(0)) each.close();
});

describe('books kept in the browser', () => {
  it('come back as they were left, with their history', async () => {
    const saved = await (await store()).save(changed, history, 0);
    expect(saved).toMatchObject({ ok: true, entry: { id: 'garden-club', title: 'Propagation bench', client: 'School garden club', revision: 1 } });
    const opened = await (await store()).open('garden-club');
    expect(opened).toMatchObject({ ok: true, book: changed, history });
  });

  it('are listed, the last saved first', async () => {
    const here = await store();
    await here.save({ ...sample, id: 'one', title: 'First' }, NO_HISTORY, 0);
    await new Promise((resolve) => setTimeout(resolve, 5));
    await here.save({ ...sample, id: 'two', title: 'Second' }, NO_HISTORY, 0);
    const list = await here.list();
    expect(list.ok && list.entries.map((entry) => entry.title)).toEqual(['Second', 'First']);
  });

  it('are listed with the version and the date that their sheets say, so that two of one name are told apart', async () => {
    const here = await store();
    const start = templateBook('trade-bench');
    const raised = setCell(start, { address: 'Sheet.A2', content: '2' });
    if (isRefused(raised)) throw new Error(raised.message);
    await here.save({ ...start, id: 'first' }, NO_HISTORY, 0);
    await here.save({ ...apply(start, raised), id: 'second' }, NO_HISTORY, 0);
    await here.save({ ...sample, id: 'without' }, NO_HISTORY, 0);
    const list = await here.list();
    const said = list.ok ? Object.fromEntries(list.entries.map(({ id, version }) => [id, version])) : {};
    expect(said).toEqual({ first: 'version 1 of 2026-11-25', second: 'version 2 of 2026-11-25', without: '' });
  });

  it('are never written over by a page that has not seen the last save', async () => {
    const [here, there] = [await store(), await store()];
    await here.save(sample, NO_HISTORY, 0);
    expect(await there.save(changed, history, 1)).toMatchObject({ ok: true, entry: { revision: 2 } });
    const late = await here.save({ ...sample, title: 'Late' }, NO_HISTORY, 1);
    expect(late).toMatchObject({ ok: false, problem: 'changed elsewhere', kept: { revision: 2 } });
    expect(await here.open('garden-club')).toMatchObject({ ok: true, book: changed });
  });

  it('keep one of two saves made at the same moment, and tell the other', async () => {
    const [here, there] = [await store(), await store()];
    const both = await Promise.all([here.save(sample, NO_HISTORY, 0), there.save(changed, history, 0)]);
    expect(both.map((saved) => saved.ok).sort()).toEqual([false, true]);
    const kept = await here.open('garden-club');
    expect(kept.ok && kept.book).toEqual(both[0]?.ok ? sample : changed);
  });

  it('say so when they were removed in another tab', async () => {
    const [here, there] = [await store(), await store()];
    await here.save(sample, NO_HISTORY, 0);
    await there.remove('garden-club');
    expect(await here.save(changed, history, 1)).toMatchObject({
      ok: false,
      problem: 'changed elsewhere',
      message: expect.stringMatching(/removed in another tab/),
    });
    expect(await here.open('garden-club')).toMatchObject({ ok: false, problem: 'not there' });
  });

  it('tell both tabs that a book is open in both, and the one when the other saves', async () => {
    const [here, there] = [await store(), await store()];
    const heard: { here: StoreNews[]; there: StoreNews[] } = { here: [], there: [] };
    here.watch('garden-club', (news) => heard.here.push(news));
    here.watch('another', () => heard.here.push({ kind: 'also open', id: 'wrong' }));
    const end = there.watch('garden-club', (news) => heard.there.push(news));
    await until(() => heard.here.length > 0 && heard.there.length > 0);
    expect(heard).toEqual({ here: [{ kind: 'also open', id: 'garden-club' }], there: [{ kind: 'also open', id: 'garden-club' }] });
    await there.save(sample, NO_HISTORY, 0);
    await until(() => heard.here.length > 1);
    expect(heard.here[1]).toMatchObject({ kind: 'saved elsewhere', entry: { revision: 1 } });
    end();
    await here.remove('garden-club');
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(heard.there.length).toBe(1);
  });

  it('come back whole where they are large, and of those only the slices are written in which something changed', async () => {
    const rows = Array.from({ length: 3000 }, (_, i) => ({ id: `r${i}`, label: `Lot ${i + 1}` }));
    const cells = Object.fromEntries(rows.map((row, i) => [row.id, { a: { content: String(i) } }]));
    const table: Table = { id: 'lots', name: 'Lots', form: 'list', columns: [{ id: 'a' }], rows, cells };
    const large: Book = { ...sample, tables: [...sample.tables, table] };
    const here = await store();
    expect(await here.save(large, NO_HISTORY, 0)).toMatchObject({ ok: true });
    const again = await (await store()).open('garden-club');
    expect(again.ok && again.book).toEqual(large);

    const written: unknown[] = [];
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...args: Parameters<typeof put>) {
      written.push(args[1]);
      return put.apply(this, args);
    };
    const answer = setCell(large, { address: 'Lots.A2000', content: '7' });
    if (isRefused(answer)) throw new Error(answer.message);
    const edited = apply(large, answer);
    await here.save(edited, NO_HISTORY, 1);
    // Most rows go, and with them slices.
    const left = rows.slice(0, 900);
    const few = Object.fromEntries(left.map((row) => [row.id, edited.tables.at(-1)?.cells[row.id] ?? {}]));
    const shorter: Book = { ...edited, tables: [...sample.tables, { ...table, rows: left, cells: few }] };
    IDBObjectStore.prototype.put = put;
    expect(written).toEqual(['garden-club', ['garden-club', expect.stringMatching(/^lots cells \d+$/)], undefined]);
    expect(await here.open('garden-club')).toMatchObject({ ok: true, book: edited });
    expect(await here.save(shorter, NO_HISTORY, 2)).toMatchObject({ ok: true });
    const less = await here.open('garden-club');
    expect(less.ok && less.book).toEqual(shorter);
  });

  it('say so where a part of their rows is missing', async () => {
    const rows = Array.from({ length: 600 }, (_, i) => ({ id: `r${i}` }));
    const here = await store();
    await here.save(
      { ...sample, tables: [{ id: 'lots', name: 'Lots', form: 'list', columns: [{ id: 'a' }], rows, cells: {} }], pages: [], names: {} },
      NO_HISTORY,
      0,
    );
    const raw = await openDB('overbench', 3);
    await raw.delete('books', ['garden-club', 'lots cells 1']);
    raw.close();
    const opened = await here.open('garden-club');
    expect(opened).toMatchObject({ ok: false, problem: 'damaged', message: expect.stringMatching(/A part of its rows is missing/) });
    expect(!opened.ok && JSON.parse(opened.raw ?? '').tables[0].rows).toEqual(rows);
    await here.remove('garden-club');
    const left = await openDB('overbench', 3);
    expect(await left.getAllKeys('books')).toEqual([]);
    left.close();
  });

  it('are opened as an older page kept them, in one piece', async () => {
    const old = await openDB('overbench', 1, {
      upgrade(db) {
        db.createObjectStore('entries', { keyPath: 'id' });
        db.createObjectStore('books');
      },
    });
    await old.put('entries', { id: 'garden-club', title: 'Propagation bench', client: 'School garden club', savedAt: 1, revision: 4 });
    await old.put('books', { book: sample, history }, 'garden-club');
    old.close();
    const here = await store();
    expect(await here.open('garden-club')).toMatchObject({ ok: true, book: sample, history, entry: { revision: 4 } });
    expect(await here.save(changed, history, 4)).toMatchObject({ ok: true, entry: { revision: 5 } });
  });

  it('say what is damaged, and hand it over as it stands', async () => {
    const here = await store();
    await here.save(sample, NO_HISTORY, 0);
    const raw = await openDB('overbench', 3);
    await raw.put('books', { book: { ...sample, tables: 'gone' }, history: NO_HISTORY }, 'garden-club');
    raw.close();
    const opened = await here.open('garden-club');
    expect(opened).toMatchObject({ ok: false, problem: 'damaged' });
    expect(!opened.ok && JSON.parse(opened.raw ?? '').title).toBe('Propagation bench');
    expect(!opened.ok && opened.message).toMatch(/“Propagation bench” is kept in this browser, but damaged\. Tables must be a list/);
  });

  it.each([[7], ['x'], [0], [''], [null], [[1, 2]]])('say that what stands in their place is not a book, and hand it over: %j', async (found) => {
    const here = await store();
    await here.save(sample, NO_HISTORY, 0);
    const raw = await openDB('overbench', 3);
    await raw.put('books', found, 'garden-club');
    raw.close();
    const opened = await here.open('garden-club');
    expect(opened).toMatchObject({ ok: false, problem: 'damaged', message: expect.stringMatching(/What stands in its place is not a book/) });
    expect(!opened.ok && opened.raw).toBe(JSON.stringify(found));
  });

  it('say that they are gone, and not from which tab, where no tab said that it threw them away', async () => {
    const here = await store();
    await here.save(sample, NO_HISTORY, 0);
    const raw = await openDB('overbench', 3);
    await raw.clear('entries');
    raw.close();
    const saved = await here.save(changed, history, 1);
    expect(saved).toMatchObject({ ok: false, problem: 'changed elsewhere', message: expect.stringMatching(/store was emptied or deleted/) });
    expect(!saved.ok && saved.message).not.toMatch(/in another tab/);
  });

  it('say that their store was deleted, and not that a newer program took it', async () => {
    const here = await store();
    const heard: StoreNews[] = [];
    here.watch('garden-club', (news) => heard.push(news));
    await deleteDB('overbench');
    expect(heard).toEqual([{ kind: 'closed', lost: true, message: expect.stringMatching(/was deleted/) }]);
  });

  it('open without their history where that is damaged, and say so', async () => {
    const here = await store();
    await here.save(sample, NO_HISTORY, 0);
    const raw = await openDB('overbench', 3);
    await raw.put('books', { book: sample, history: { done: [7] } }, 'garden-club');
    raw.close();
    expect(await here.open('garden-club')).toMatchObject({ ok: true, book: sample, history: NO_HISTORY, said: expect.stringMatching(/undo begins anew/) });
  });

  it('say that there is no room, and leave the last save as it was, list and all', async () => {
    const here = await store();
    await here.save(sample, NO_HISTORY, 0);
    const put = IDBObjectStore.prototype.put;
    // The book's own record goes in; the room ends with the next.
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...args: Parameters<typeof put>) {
      if (this.name === 'entries') throw new DOMException('no room', 'QuotaExceededError');
      return put.apply(this, args);
    };
    const saved = await here.save(changed, history, 1);
    IDBObjectStore.prototype.put = put;
    expect(saved).toMatchObject({ ok: false, problem: 'full', message: expect.stringMatching(/no room left: this was not saved/) });
    expect(await here.open('garden-club')).toMatchObject({ ok: true, book: sample, entry: { revision: 1 } });
    expect(await here.save(changed, history, 1)).toMatchObject({ ok: true, entry: { revision: 2 } });
  });

  it('make way for a newer version of the program, and say so', async () => {
    const here = await store();
    const heard: StoreNews[] = [];
    here.watch('garden-club', (news) => heard.push(news));
    const newer = await openDB('overbench', 4);
    newer.close();
    expect(heard).toMatchObject([{ kind: 'closed', message: expect.stringMatching(/newer version of this program was opened in another tab/) }]);
    expect(await here.save(sample, NO_HISTORY, 0)).toMatchObject({ ok: false, problem: 'failed' });
    expect(await openStore()).toMatchObject({ ok: false, problem: 'newer' });
  });

  it('can’t be opened while an older page holds them, and the page says which tab to close', async () => {
    const old = await openDB('overbench', 3);
    expect(await openStore(4)).toMatchObject({ ok: false, problem: 'blocked', message: expect.stringMatching(/Close that tab/) });
    old.close();
  });
});
