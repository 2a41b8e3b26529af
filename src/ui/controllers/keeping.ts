/** Keeps the open book in this browser, with its history and where one was in it; says "saved" only when it is. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Miss, Store } from '../../files/storage.ts';
import type { Session } from '../../session.ts';
import type { Found, View } from '../found.ts';
import type { Place } from '../part.ts';
import type { ShelfCard } from '../start.ts';

/** After the last change; a run of changes is saved once. */
const PAUSE = 300;
const ALSO_OPEN = 'This book is open in another tab too. Whichever saves second will be told, and nothing is written over.';
const LAST = 'overbench open';
const viewKey = (id: string): string => `overbench view ${id}`;
export const openGroupsKey = (id: string): string => `overbench open rows ${id}`;

export class Keeping implements ReactiveController {
  /** "saved 14:02", "saving …", "not saved". */
  word = '';
  /** Why it is not saved, and what could be done. */
  miss: Miss | undefined;
  /** News from other tabs, to be told. */
  news = '';

  readonly #host: ReactiveControllerHost;
  #store: Promise<Store | Miss> | undefined;
  #session: Session | undefined;
  #revision = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #saving: Promise<void> | undefined;
  /** Where one is, not yet written down. */
  #view: View | undefined;
  #viewTimer: ReturnType<typeof setTimeout> | undefined;
  /** Changed since the last save began. */
  #fresh = false;
  #ends: (() => void)[] = [];
  #unwatch: (() => void) | undefined;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('beforeunload', this.#ask);
    addEventListener('pagehide', this.#put);
    addEventListener('pagehide', this.#bye);
    addEventListener('pageshow', this.#watch);
    document.addEventListener('visibilitychange', this.#hide);
  }

  hostDisconnected(): void {
    removeEventListener('beforeunload', this.#ask);
    removeEventListener('pagehide', this.#put);
    removeEventListener('pagehide', this.#bye);
    removeEventListener('pageshow', this.#watch);
    document.removeEventListener('visibilitychange', this.#hide);
  }

  #hide = (): void => {
    if (document.visibilityState === 'hidden') this.#put();
  };

  #put = (): void => {
    this.#noteView();
    void this.now();
  };

  /** What is not saved is saved at once, and whoever would leave before it is, is asked. */
  #ask = (event: BeforeUnloadEvent): void => {
    if (!this.#fresh && !this.#saving && !this.miss) return;
    event.preventDefault();
    void this.now();
  };

  #open(): Promise<Store | Miss> {
    this.#store ??= import('../../files/storage.ts').then(async ({ openStore }) => {
      const opened = await openStore();
      return opened.ok ? opened.store : opened;
    });
    return this.#store;
  }

  get lastOpen(): string | undefined {
    return keep.read(LAST) ?? undefined;
  }

  forget(): void {
    keep.drop(LAST);
  }

  async shelf(): Promise<{ readonly cards: readonly ShelfCard[]; readonly problem: string }> {
    const store = await this.#open();
    const list = 'list' in store ? await store.list() : store;
    if (!list.ok) return { cards: [], problem: list.message };
    return { cards: list.entries.map(({ id, title, client, savedAt }) => ({ id, title, client, saved: `saved ${when(new Date(savedAt))}` })), problem: '' };
  }

  /** A book of the shelf, as it was left; undefined where it is not there any more. */
  async fetch(id: string): Promise<Found | { readonly problem: string; readonly raw?: string } | undefined> {
    const store = await this.#open();
    if (!('open' in store)) return { problem: store.message };
    const opened = await store.open(id);
    if (!opened.ok) {
      if (opened.problem === 'not there') return undefined;
      return { problem: opened.message, ...(opened.raw === undefined ? {} : { raw: opened.raw }) };
    }
    const view = readView(id);
    return {
      book: opened.book,
      history: opened.history,
      revision: opened.entry.revision,
      ...(view && { view }),
      ...(opened.said === undefined ? {} : { notice: opened.said }),
    };
  }

  async has(id: string): Promise<boolean> {
    const store = await this.#open();
    const list = 'list' in store ? await store.list() : store;
    return list.ok && list.entries.some((entry) => entry.id === id);
  }

  async remove(id: string): Promise<string> {
    const store = await this.#open();
    const removed = 'remove' in store ? await store.remove(id) : store;
    keep.drop(viewKey(id));
    keep.drop(openGroupsKey(id));
    return removed.ok ? '' : removed.message;
  }

  /** Follows a session from now on. A book that was never saved is saved at once. */
  follow(session: Session, revision: number): void {
    this.leave();
    this.#session = session;
    this.#revision = revision;
    this.word = revision === 0 ? 'saving …' : 'saved';
    keep.write(LAST, session.book.id);
    this.#ends.push(
      session.subscribe((news) => {
        if (news.kind === 'book') this.#changed();
      }),
    );
    this.#watch();
    if (revision === 0) this.#changed();
  }

  /** Hears what other tabs do with the book. */
  #watch = (): void => {
    const session = this.#session;
    if (!session) return;
    void this.#open().then((store) => {
      if (!('watch' in store) || this.#session !== session || this.#unwatch) return;
      this.#unwatch = store.watch(session.book.id, (news) => {
        if (news.kind === 'alone again' && this.news !== ALSO_OPEN) return;
        this.news =
          news.kind === 'alone again'
            ? ''
            : news.kind === 'also open'
              ? ALSO_OPEN
              : news.kind === 'closed'
                ? news.message
                : news.kind === 'removed elsewhere'
                  ? 'This book was thrown away in another tab.'
                  : 'This book was saved in another tab: what stands here is older.';
        this.#host.requestUpdate();
      });
    });
  };

  /** The page goes: other tabs are told. It may come back as it was. */
  #bye = (): void => {
    this.#unwatch?.();
    this.#unwatch = undefined;
  };

  leave(): void {
    this.#noteView();
    for (const end of this.#ends.splice(0)) end();
    this.#bye();
    clearTimeout(this.#timer);
    this.#session = undefined;
    this.#fresh = false;
    this.miss = undefined;
    this.news = '';
    this.word = '';
  }

  /** Written down in a quiet moment: moving about must not wait for the disk. */
  look(view: View): void {
    this.#view = view;
    this.#viewTimer ??= setTimeout(() => this.#noteView(), PAUSE);
  }

  #noteView(): void {
    clearTimeout(this.#viewTimer);
    this.#viewTimer = undefined;
    if (this.#session && this.#view) keep.write(viewKey(this.#session.book.id), JSON.stringify(this.#view));
    this.#view = undefined;
  }

  #changed(): void {
    this.#fresh = true;
    this.#say('saving …');
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.now(), PAUSE);
  }

  /** Saves what is not saved yet. */
  async now(): Promise<void> {
    clearTimeout(this.#timer);
    await this.#saving;
    const session = this.#session;
    if (!session || !this.#fresh) return;
    this.#fresh = false;
    this.#saving = this.#save(session);
    await this.#saving;
    this.#saving = undefined;
  }

  async #save(session: Session): Promise<void> {
    const store = await this.#open();
    const saved = 'save' in store ? await store.save(session.book, session.history, this.#revision) : store;
    if (this.#session !== session) return;
    if (saved.ok) {
      this.#revision = saved.entry.revision;
      this.miss = undefined;
      if (!this.#fresh) this.#say(`saved ${clock(new Date(saved.entry.savedAt))}`);
    } else {
      this.miss = saved;
      this.#say('not saved');
    }
  }

  #say(word: string): void {
    this.word = word;
    this.#host.requestUpdate();
  }
}

const clock = (date: Date): string => `${String(date.getHours()).padStart(2, '0')}:${String(date.getMinutes()).padStart(2, '0')}`;

function when(date: Date): string {
  if (date.toDateString() === new Date().toDateString()) return clock(date);
  return date.toLocaleDateString(undefined, { day: 'numeric', month: 'short', year: 'numeric' });
}

function readView(id: string): View | undefined {
  try {
    const found: unknown = JSON.parse(keep.read(viewKey(id)) ?? 'null');
    if (typeof found !== 'object' || found === null || !('page' in found) || typeof found.page !== 'string') return undefined;
    const chosen = 'chosen' in found ? (found.chosen as Partial<Place> | undefined) : undefined;
    const place = typeof chosen?.table === 'string' && typeof chosen.row === 'string' && typeof chosen.column === 'string';
    return { page: found.page, ...(place ? { chosen: chosen as Place } : {}) };
  } catch {
    return undefined;
  }
}

/** Small things that are no loss: a browser that keeps nothing goes on without them. */
export const keep = {
  read(key: string): string | null {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  },
  write(key: string, value: string): void {
    try {
      localStorage.setItem(key, value);
    } catch {
      // Full, or not allowed: the next visit begins without it.
    }
  },
  drop(key: string): void {
    try {
      localStorage.removeItem(key);
    } catch {
      // What can't be reached can't be read again either.
    }
  },
};
