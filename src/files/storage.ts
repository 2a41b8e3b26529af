/**
 * Books kept in the browser, with their history. A save is acknowledged only when its transaction is complete and the browser says that it is on
 * disk (durability "strict"), and it never writes over a save made elsewhere: each carries the revision it was made from.
 */
import { type DBSchema, type IDBPDatabase, type IDBPObjectStore, type IDBPTransaction, openDB } from 'idb';
import type { Book } from '../book/book.ts';
import { checkBook } from '../book/check.ts';
import { type History, isHistory, NO_HISTORY } from '../book/history.ts';
import { migrate } from '../book/migrate.ts';
import { joined, type Slices, sameSlice, sliced } from './slices.ts';

/** What the list of books says of one. */
export interface Entry {
  readonly id: string;
  readonly title: string;
  readonly client: string;
  /** Milliseconds since 1970, UTC. */
  readonly savedAt: number;
  /** Grows by one with each save. */
  readonly revision: number;
}

export type StoreProblem = 'not there' | 'changed elsewhere' | 'full' | 'blocked' | 'damaged' | 'newer' | 'failed';

export interface Miss {
  readonly ok: false;
  readonly problem: StoreProblem;
  /** A sentence for the person at the page. */
  readonly message: string;
  /** For "changed elsewhere": what is kept now. */
  readonly kept?: Entry;
  /** For "damaged": what is stored, as it stands, so that it can be saved to a file and nothing is lost. */
  readonly raw?: string;
}

export interface Opened {
  readonly ok: true;
  readonly book: Book;
  readonly history: History;
  readonly entry: Entry;
  /** Something was amiss, but not with the book. */
  readonly said?: string;
}

/** News of this store from other tabs. */
export type StoreNews =
  /** The book was saved elsewhere: what this page has is older. */
  | { readonly kind: 'saved elsewhere'; readonly entry: Entry }
  | { readonly kind: 'removed elsewhere'; readonly id: string }
  /** The book is open in another tab too. */
  | { readonly kind: 'also open'; readonly id: string }
  /** The other tab put it away. Where it is open in a third one, `also open` follows. */
  | { readonly kind: 'alone again'; readonly id: string }
  /** The store had to be let go: nothing can be saved until the page is loaded again. */
  | { readonly kind: 'closed'; readonly message: string };

export interface Store {
  /** Newest first. */
  list(): Promise<{ readonly ok: true; readonly entries: readonly Entry[] } | Miss>;
  open(id: string): Promise<Opened | Miss>;
  /** `from`: the revision that was opened or last saved, 0 for a book that was never saved. Anything else kept meanwhile is left alone and told. */
  save(book: Book, history: History, from: number): Promise<{ readonly ok: true; readonly entry: Entry } | Miss>;
  remove(id: string): Promise<{ readonly ok: true } | Miss>;
  /** Says to other tabs that the book is open here, and tells when it is in one of them. Returns what ends it. */
  watch(id: string, listener: (news: StoreNews) => void): () => void;
  close(): void;
}

interface Kept {
  readonly book: unknown;
  readonly history: unknown;
  /** How many slices of the book are kept beside it; left out where it is kept whole. */
  readonly slices?: number;
}

type Slice = readonly unknown[];

/** What of a book lies in slices, as it is kept since this save. */
interface Known {
  readonly revision: number;
  readonly slices: Slices;
}

interface Schema extends DBSchema {
  /** The list apart, so that showing it does not read every book. */
  entries: { key: string; value: Entry };
  /** A book by its id, and its slices by its id and their own keys. */
  books: { key: string | [string, string]; value: Kept | Slice };
}

const DATABASE = 'overbench';
/** 2: large books in slices, which older pages would not know how to put together. */
const DATABASE_VERSION = 2;

/** `version`: of the database, for a test of what an older page that is still open does to it. */
export async function openStore(version = DATABASE_VERSION): Promise<{ readonly ok: true; readonly store: Store } | Miss> {
  const told = new Set<(news: StoreNews) => void>();
  const tellClosed = (message: string): void => {
    for (const listener of told) listener({ kind: 'closed', message });
  };
  try {
    const database = await new Promise<IDBPDatabase<Schema>>((resolve, reject) => {
      const opening = openDB<Schema>(DATABASE, version, {
        upgrade(db, from) {
          if (from >= 1) return;
          db.createObjectStore('entries', { keyPath: 'id' });
          db.createObjectStore('books');
        },
        blocked: () => reject(new Blocked()),
        blocking: () => {
          void opening.then((db) => db.close());
          tellClosed('A newer version of this program was opened in another tab. Load this page again to go on.');
        },
        terminated: () => tellClosed('The browser closed its store of books. Load this page again to go on; save to a file first what is not saved yet.'),
      });
      opening.then(resolve, reject);
    });
    return { ok: true, store: new BrowserStore(database, told) };
  } catch (error) {
    return miss(error);
  }
}

type Writable<S extends 'entries' | 'books'> = IDBPObjectStore<Schema, ['entries', 'books'], S, 'readwrite'>;

function abandon(transaction: IDBPTransaction<Schema, ['entries', 'books'], 'readwrite'>): void {
  transaction.done.catch(() => {});
  try {
    transaction.abort();
  } catch {
    // It had ended by itself.
  }
}

class Blocked extends Error {}

interface Message {
  readonly kind: 'open' | 'open too' | 'put away' | 'saved' | 'removed';
  readonly id: string;
  readonly entry?: Entry;
}

class BrowserStore implements Store {
  readonly #database: IDBPDatabase<Schema>;
  readonly #listeners: Set<(news: StoreNews) => void>;
  readonly #channel = new BroadcastChannel('overbench books');
  readonly #known = new Map<string, Known>();

  constructor(database: IDBPDatabase<Schema>, listeners: Set<(news: StoreNews) => void>) {
    this.#database = database;
    this.#listeners = listeners;
  }

  async list() {
    try {
      const entries = await this.#database.getAll('entries');
      return { ok: true, entries: entries.sort((a, b) => b.savedAt - a.savedAt) } as const;
    } catch (error) {
      return miss(error);
    }
  }

  async open(id: string): Promise<Opened | Miss> {
    try {
      const transaction = this.#database.transaction(['entries', 'books']);
      const books = transaction.objectStore('books');
      const [entry, kept, keys, slices] = await Promise.all([
        transaction.objectStore('entries').get(id),
        books.get(id) as Promise<Kept | undefined>,
        books.getAllKeys(slicesOf(id)),
        books.getAll(slicesOf(id)) as Promise<Slice[]>,
      ]);
      if (!entry || !kept) return { ok: false, problem: 'not there', message: 'This book is not kept in this browser any more.' };
      return readKept(entry, kept, new Map(keys.map((key, i) => [key[1] as string, slices[i] ?? []])));
    } catch (error) {
      return miss(error);
    }
  }

  async save(book: Book, history: History, from: number) {
    const { head, slices } = sliced(book);
    const known = this.#known.get(book.id);
    const before = known?.revision === from ? known.slices : undefined;
    const saved = await this.#write(async (entries, books): Promise<Entry | Miss> => {
      // The revision is looked at in the transaction that writes: no save of another tab can come in between.
      const kept = await entries.get(book.id);
      if ((kept?.revision ?? 0) !== from) return changedElsewhere(kept);
      const entry: Entry = { id: book.id, title: book.title, client: book.client, savedAt: Date.now(), revision: from + 1 };
      await books.put({ book: head, history, slices: slices.size }, book.id);
      await putSlices(books, book.id, slices, before);
      await entries.put(entry);
      return entry;
    });
    if ('ok' in saved) return saved;
    this.#known.set(book.id, { revision: saved.revision, slices });
    this.#channel.postMessage({ kind: 'saved', id: book.id, entry: saved } satisfies Message);
    return { ok: true, entry: saved } as const;
  }

  async remove(id: string) {
    const removed = await this.#write(async (entries, books) => {
      await books.delete(id);
      await books.delete(slicesOf(id));
      await entries.delete(id);
      return { ok: true } as const;
    });
    if (removed.ok) this.#channel.postMessage({ kind: 'removed', id } satisfies Message);
    return removed;
  }

  /** Resolves once the transaction is complete; where anything in it fails, all of it is taken back. */
  async #write<T>(work: (entries: Writable<'entries'>, books: Writable<'books'>) => Promise<T>): Promise<T | Miss> {
    try {
      const transaction = this.#database.transaction(['entries', 'books'], 'readwrite', { durability: 'strict' });
      try {
        const result = await work(transaction.objectStore('entries'), transaction.objectStore('books'));
        await transaction.done;
        return result;
      } catch (error) {
        abandon(transaction);
        throw transaction.error ?? error;
      }
    } catch (error) {
      return miss(error);
    }
  }

  watch(id: string, listener: (news: StoreNews) => void): () => void {
    let known = false;
    const hear = ({ data }: MessageEvent<Message>): void => {
      if (data.id !== id) return;
      if (data.kind === 'saved' && data.entry) listener({ kind: 'saved elsewhere', entry: data.entry });
      if (data.kind === 'removed') listener({ kind: 'removed elsewhere', id });
      if (data.kind === 'put away') {
        known = false;
        listener({ kind: 'alone again', id });
        this.#channel.postMessage({ kind: 'open', id } satisfies Message);
      }
      if (data.kind === 'open') this.#channel.postMessage({ kind: 'open too', id } satisfies Message);
      if (!known && (data.kind === 'open' || data.kind === 'open too')) {
        known = true;
        listener({ kind: 'also open', id });
      }
    };
    this.#channel.addEventListener('message', hear);
    this.#listeners.add(listener);
    this.#channel.postMessage({ kind: 'open', id } satisfies Message);
    return () => {
      this.#channel.removeEventListener('message', hear);
      this.#listeners.delete(listener);
      this.#channel.postMessage({ kind: 'put away', id } satisfies Message);
    };
  }

  close(): void {
    this.#channel.close();
    this.#database.close();
  }
}

const slicesOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id], [id, []]);

/** Each is written by itself, and the page sees to other things until it is; the transaction makes one save of them all. */
async function putSlices(books: Writable<'books'>, id: string, slices: Slices, before: Slices | undefined): Promise<void> {
  if (!before) await books.delete(slicesOf(id));
  for (const [key, slice] of slices) if (!sameSlice(slice, before?.get(key))) await books.put(slice, [id, key]);
  for (const key of before?.keys() ?? []) if (!slices.has(key)) await books.delete([id, key]);
}

function readKept(entry: Entry, kept: Kept, slices: Slices): Opened | Miss {
  const whole = joined(kept.book, slices);
  const sound = typeof whole === 'object' && whole !== null && (kept.slices ?? 0) === slices.size;
  const migrated = sound ? migrate(whole as Record<string, unknown>) : undefined;
  if (migrated && !migrated.ok && migrated.newer) return { ok: false, problem: 'newer', message: `“${entry.title}” can't be opened. ${migrated.message}` };
  const checked = migrated?.ok ? checkBook(migrated.book) : undefined;
  if (!checked?.ok) {
    const why = checked?.problems[0] ?? (slices.size === (kept.slices ?? 0) ? 'It is not a book.' : 'A part of its rows is missing.');
    return {
      ok: false,
      problem: 'damaged',
      message: `“${entry.title}” is kept in this browser, but damaged. ${why} It can be saved to a file as it stands.`,
      raw: JSON.stringify(whole),
    };
  }
  if (isHistory(kept.history)) return { ok: true, book: checked.book, history: kept.history, entry };
  return { ok: true, book: checked.book, history: NO_HISTORY, entry, said: 'The list of changes could not be read; undo begins anew.' };
}

function changedElsewhere(kept: Entry | undefined): Miss {
  if (!kept)
    return {
      ok: false,
      problem: 'changed elsewhere',
      message: 'This book was removed in another tab. Keep it as another book to go on with what is on this page.',
    };
  return {
    ok: false,
    problem: 'changed elsewhere',
    message:
      'This book was saved in another tab after it was opened here. Nothing was written over: keep this one as another book, or open the one that was saved.',
    kept,
  };
}

function miss(error: unknown): Miss {
  if (error instanceof Blocked) {
    return { ok: false, problem: 'blocked', message: 'An older version of this program is open in another tab. Close that tab, then load this page again.' };
  }
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  if (name === 'QuotaExceededError') {
    return {
      ok: false,
      problem: 'full',
      message: 'The browser has no room left: this was not saved. Save the book to a file, then remove books that are no longer needed.',
    };
  }
  if (name === 'VersionError') {
    return { ok: false, problem: 'newer', message: 'The books in this browser were written by a newer version of this program. Load this page again.' };
  }
  const why = error instanceof Error ? error.message : String(error);
  return { ok: false, problem: 'failed', message: `The browser's store did not answer as it should; nothing was changed in it. (${why})` };
}
