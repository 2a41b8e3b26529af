/**
 * Books kept in the browser, with their history. A save is acknowledged only when its transaction is complete and the browser says that it is on
 * disk (durability "strict"), and it never writes over a save made elsewhere: each carries the revision it was made from.
 */
import { type DBSchema, type IDBPDatabase, type IDBPObjectStore, type IDBPTransaction, openDB } from 'idb';
import type { Book } from '../../book/book.ts';
import { checkBook } from '../../book/check.ts';
import { type History, isHistory, NO_HISTORY } from '../../book/history.ts';
import { migrate, migrateHistory } from '../../book/migrate.ts';
import { planVersion } from '../../book/plan-version.ts';
import { isNote, type Mark, type Note, putBy, putByOf } from './journal.ts';
import { joined, type Slices, sameSlice, sliced } from './slices.ts';

/** What the list of books says of one. */
export interface Entry {
  readonly id: string;
  readonly title: string;
  readonly client: string;
  /** "version 2 of 2027-01-08"; up to a while ago it was not said. */
  readonly version?: string;
  /** Milliseconds since 1970, UTC. */
  readonly savedAt: number;
  /** Grows by one with each save. */
  readonly revision: number;
  /** Which page saved it, and how far its changes went then. */
  readonly mark?: Mark;
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
  /** Something was amiss, but not with the book; or a name in it is another now. */
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
  /** The store had to be let go. `lost`: what was saved in it may be gone. */
  | { readonly kind: 'closed'; readonly message: string; readonly lost: boolean };

export interface Store {
  /** Newest first. */
  list(): Promise<{ readonly ok: true; readonly entries: readonly Entry[] } | Miss>;
  open(id: string): Promise<Opened | Miss>;
  /** `from`: the revision that was opened or last saved, 0 for a book that was never saved. Anything else kept meanwhile is left alone and told. */
  /** `mark`: what it brings of which line, so that a page knows its own saves again, however late they came, and never goes back behind one. */
  save(book: Book, history: History, from: number, mark?: Mark): Promise<{ readonly ok: true; readonly entry: Entry } | Miss>;
  /** Puts a change down in the journal at once. True once a killed program would not take it along. */
  note(note: Note): Promise<boolean>;
  /** What the journal has of a book, in order; none where it can't be read. */
  notes(id: string): Promise<readonly Note[]>;
  /** Takes notes of a line out of the journal: all, or only those that are saved. */
  forget(id: string, line: string, from?: number, upTo?: number): Promise<void>;
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
  /** Changes that are in no save yet, by book, line and number. */
  journal: { key: [string, string, number]; value: Note };
}

const DATABASE = 'overbench';
/** 2: large books in slices, which older pages would not know how to put together. 3: the journal. */
const DATABASE_VERSION = 3;

/** `version`: of the database, for a test of what an older page that is still open does to it. */
export async function openStore(version = DATABASE_VERSION): Promise<{ readonly ok: true; readonly store: Store } | Miss> {
  const told = new Set<(news: StoreNews) => void>();
  const tellClosed = (message: string, lost: boolean): void => {
    for (const listener of told) listener({ kind: 'closed', message, lost });
  };
  try {
    const database = await new Promise<IDBPDatabase<Schema>>((resolve, reject) => {
      const opening = openDB<Schema>(DATABASE, version, {
        upgrade(db, from) {
          if (from < 1) {
            db.createObjectStore('entries', { keyPath: 'id' });
            db.createObjectStore('books');
          }
          if (from < 3) db.createObjectStore('journal', { keyPath: ['id', 'line', 'n'] });
        },
        blocked: () => reject(new Blocked()),
        blocking: (_, wanted) => {
          void opening.then((db) => db.close());
          tellClosed(
            wanted === null
              ? 'The store of books was deleted while this one was open.'
              : 'A newer version of this program was opened in another tab. Load this page again to go on.',
            wanted === null,
          );
        },
        terminated: () => tellClosed('The browser closed its store of books; it is opened again.', true),
      });
      opening.then(resolve, reject);
    });
    return { ok: true, store: new BrowserStore(database, told) };
  } catch (error) {
    return miss(error);
  }
}

type Stores = ('entries' | 'books' | 'journal')[];
type Writable<S extends Stores[number]> = IDBPObjectStore<Schema, Stores, S, 'readwrite'>;

function abandon(transaction: IDBPTransaction<Schema, Stores, 'readwrite'>): void {
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
  /** Whose word it is: of one page that has the book open. */
  readonly by?: string;
}

/** A page holds this lock for as long as it has a book open. One that ends before its word gets out lets it go all the same. */
const openLock = (by: string): string => `overbench open ${by}`;

class BrowserStore implements Store {
  readonly #database: IDBPDatabase<Schema>;
  readonly #listeners: Set<(news: StoreNews) => void>;
  /** Where a browser has none, a page hears of others when it saves. */
  readonly #channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('overbench books');
  #closed = false;
  readonly #known = new Map<string, Known>();
  /** Books that another tab said it threw away. */
  readonly #thrownAway = new Set<string>();

  constructor(database: IDBPDatabase<Schema>, listeners: Set<(news: StoreNews) => void>) {
    this.#database = database;
    this.#listeners = listeners;
    this.#channel?.addEventListener('message', ({ data }: MessageEvent<Message>) => {
      if (data.kind === 'removed') this.#thrownAway.add(data.id);
    });
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
      if (!entry || kept === undefined) return { ok: false, problem: 'not there', message: 'This book is not kept in this browser any more.' };
      return readKept(entry, kept, new Map(keys.map((key, i) => [key[1] as string, slices[i] ?? []])));
    } catch (error) {
      return miss(error);
    }
  }

  async save(book: Book, history: History, from: number, mark?: Mark) {
    const { head, slices } = sliced(book);
    const known = this.#known.get(book.id);
    const saved = await this.#write(['entries', 'books'], async ({ entries, books }): Promise<Entry | Miss> => {
      // The revision is looked at in the transaction that writes: no save of another tab can come in between.
      const kept = await entries.get(book.id);
      const own = mark !== undefined && kept?.mark?.line === mark.line;
      // A later save of this page was faster: it has all of this in it.
      if (own && (kept.mark?.upTo ?? 0) >= mark.upTo) return kept;
      if (!own && (kept?.revision ?? 0) !== from) return changedElsewhere(kept, this.#thrownAway.has(book.id));
      const before = known?.revision === kept?.revision ? known?.slices : undefined;
      const revision = (kept?.revision ?? 0) + 1;
      const { id, title, client } = book;
      const entry: Entry = { id, title, client, version: planVersion(book), savedAt: Date.now(), revision, ...(mark && { mark }) };
      await books.put({ book: head, history, slices: slices.size }, book.id);
      await putSlices(books, book.id, slices, before);
      await entries.put(entry);
      return entry;
    });
    if ('ok' in saved) return saved;
    if (saved.mark?.upTo === mark?.upTo) this.#known.set(book.id, { revision: saved.revision, slices });
    this.#post({ kind: 'saved', id: book.id, entry: saved });
    return { ok: true, entry: saved } as const;
  }

  /** The browser need not have it on disk: that outlives the page and the program, and only the save must outlive the machine. */
  async note(note: Note) {
    try {
      const transaction = this.#database.transaction('journal', 'readwrite', { durability: 'relaxed' });
      void transaction.store.put(note);
      // Said at once: a page that is ended before it hears that the record is in would take the transaction with it.
      transaction.commit();
      await transaction.done;
      return true;
    } catch {
      return false;
    }
  }

  async notes(id: string) {
    const put = putByOf(id);
    const kept = await this.#database.getAll('journal', notesOf(id)).catch(() => []);
    const notes = kept.filter(isNote);
    const known = new Set(notes.map(({ line, n }) => `${line} ${n}`));
    return [...notes, ...put.filter(({ line, n }) => !known.has(`${line} ${n}`))].sort((a, b) => a.n - b.n);
  }

  async forget(id: string, line: string, from = 0, upTo = Number.POSITIVE_INFINITY) {
    putBy(line, [], upTo);
    await this.#database.delete('journal', IDBKeyRange.bound([id, line, from], [id, line, upTo])).catch(() => {});
  }

  async remove(id: string) {
    for (const { line } of putByOf(id)) putBy(line, [], Number.POSITIVE_INFINITY);
    const removed = await this.#write(['entries', 'books', 'journal'], async ({ entries, books, journal }) => {
      await journal.delete(notesOf(id));
      await books.delete(id);
      await books.delete(slicesOf(id));
      await entries.delete(id);
      return { ok: true } as const;
    });
    if (removed.ok) this.#post({ kind: 'removed', id });
    return removed;
  }

  /** Resolves once the transaction is complete; where anything in it fails, all of it is taken back. */
  async #write<T>(names: Stores, work: (stores: { readonly [S in Stores[number]]: Writable<S> }) => Promise<T>): Promise<T | Miss> {
    try {
      const transaction = this.#database.transaction(names, 'readwrite', { durability: 'strict' });
      try {
        const stores = {
          entries: undefined,
          books: undefined,
          journal: undefined,
          ...Object.fromEntries(names.map((name) => [name, transaction.objectStore(name)])),
        };
        const result = await work(stores as unknown as { readonly [S in Stores[number]]: Writable<S> });
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
    const by = crypto.randomUUID();
    const locks = typeof navigator === 'undefined' ? undefined : navigator.locks;
    const ended = new AbortController();
    /** The other page that is known of; where it has no name, that there is one. */
    let other: string | undefined;
    const hello = (): void => this.#post({ kind: 'open', id, by });
    const gone = (): void => {
      other = undefined;
      listener({ kind: 'alone again', id });
      hello();
    };
    const hear = ({ data }: MessageEvent<Message>): void => {
      if (data.id !== id) return;
      if (data.kind === 'saved' && data.entry) listener({ kind: 'saved elsewhere', entry: data.entry });
      if (data.kind === 'removed') listener({ kind: 'removed elsewhere', id });
      if (data.kind === 'put away') gone();
      if (data.kind === 'open') this.#post({ kind: 'open too', id, by });
      if (other === undefined && (data.kind === 'open' || data.kind === 'open too')) {
        const known = data.by ?? '';
        other = known;
        listener({ kind: 'also open', id });
        if (known !== '') locks?.request(openLock(known), { signal: ended.signal }, () => (other === known ? gone() : undefined)).catch(() => {});
      }
    };
    this.#channel?.addEventListener('message', hear);
    this.#listeners.add(listener);
    if (locks) {
      const whileOpen = (): Promise<void> => {
        hello();
        return new Promise((end) => ended.signal.addEventListener('abort', () => end()));
      };
      locks.request(openLock(by), { signal: ended.signal }, whileOpen).catch(() => {});
    } else hello();
    return () => {
      this.#channel?.removeEventListener('message', hear);
      this.#listeners.delete(listener);
      ended.abort();
      this.#post({ kind: 'put away', id });
    };
  }

  #post(message: Message): void {
    if (!this.#closed) this.#channel?.postMessage(message);
  }

  close(): void {
    this.#closed = true;
    this.#channel?.close();
    this.#database.close();
  }
}

const slicesOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id], [id, []]);
const notesOf = slicesOf;

/** Each is written by itself, and the page sees to other things until it is; the transaction makes one save of them all. */
async function putSlices(books: Writable<'books'>, id: string, slices: Slices, before: Slices | undefined): Promise<void> {
  if (!before) await books.delete(slicesOf(id));
  for (const [key, slice] of slices) if (!sameSlice(slice, before?.get(key))) await books.put(slice, [id, key]);
  for (const key of before?.keys() ?? []) if (!slices.has(key)) await books.delete([id, key]);
}

function readKept(entry: Entry, found: unknown, slices: Slices): Opened | Miss {
  const kept: Partial<Kept> = typeof found === 'object' && found !== null ? found : {};
  const raw = 'book' in kept ? joined(kept.book, slices) : found;
  const sound = typeof raw === 'object' && raw !== null && (kept.slices ?? 0) === slices.size;
  const migrated = sound ? migrate(raw as Record<string, unknown>) : undefined;
  if (migrated && !migrated.ok && migrated.newer) return { ok: false, problem: 'newer', message: `“${entry.title}” can't be opened. ${migrated.message}` };
  const checked = migrated?.ok ? checkBook(migrated.book) : undefined;
  if (!checked?.ok) {
    const why = checked?.problems[0] ?? (slices.size === (kept.slices ?? 0) ? 'What stands in its place is not a book.' : 'A part of its rows is missing.');
    return {
      ok: false,
      problem: 'damaged',
      message: `“${entry.title}” is kept in this browser, but damaged. ${why} It can be saved to a file as it stands.`,
      raw: JSON.stringify(raw) ?? String(raw),
    };
  }
  const { history } = kept;
  const told = [...(migrated?.ok ? migrated.said : []), ...(isHistory(history) ? [] : ['The list of changes could not be read; undo begins anew.'])];
  return {
    ok: true,
    book: checked.book,
    history: isHistory(history) ? migrateHistory(history, raw as Record<string, unknown>) : NO_HISTORY,
    entry,
    ...(told.length > 0 && { said: told.join(' ') }),
  };
}

function changedElsewhere(kept: Entry | undefined, thrownAway: boolean): Miss {
  if (!kept)
    return {
      ok: false,
      problem: 'changed elsewhere',
      message: thrownAway
        ? 'This book was removed in another tab. Keep it as another book to go on with what is on this page.'
        : 'This book is not in this browser’s store any more: the store was emptied or deleted, or the book was removed where this page did not hear of it. Keep it as another book to go on with what is on this page.',
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
