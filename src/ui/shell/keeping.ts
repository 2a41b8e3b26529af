/** Keeps the open book in this browser, with its history and where one was in it; says "saved" only when it is. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Miss, Opened, Recovered, Store } from '../../files/store/index.ts';
import { clock, keep, openGroupsKey, type Place } from '../parts/index.ts';
import type { Found, Unopened, View } from './found.ts';
import type { Saving } from './saving.ts';
import type { ShelfCard } from './start.ts';

const PAUSE = 300;
const ALSO_OPEN = 'This book is open in another tab too. Whichever saves second will be told, and nothing is written over.';
const LAST = 'overbench open';
const viewKey = (id: string): string => `overbench view ${id}`;

export class Keeping implements ReactiveController {
  /** News from other tabs, to be told. */
  news = '';

  readonly #host: ReactiveControllerHost;
  #store: Promise<Store | Miss> | undefined;
  #saving: Saving | undefined;
  /** Books that were put away unsaved, by their lines. */
  readonly #parked = new Map<string, Saving>();
  /** Where one is, not yet written down. */
  #view: View | undefined;
  #viewTimer: ReturnType<typeof setTimeout> | undefined;
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

  get word(): string {
    return this.#saving?.word ?? '';
  }

  get miss(): Miss | undefined {
    return this.#saving?.miss;
  }

  /** What is open is not in the store as it stands here. */
  get unsaved(): boolean {
    return this.#saving?.unsaved ?? false;
  }

  get line(): string | undefined {
    return this.#saving?.line;
  }

  #all(): readonly Saving[] {
    return [...(this.#saving ? [this.#saving] : []), ...this.#parked.values()];
  }

  #hide = (): void => {
    if (document.visibilityState === 'hidden') this.#put();
  };

  #put = (): void => {
    this.#noteView();
    for (const saving of this.#all()) saving.putBy();
    void this.now();
  };

  /** What is not saved is saved at once, and whoever would leave before it is, is asked. */
  #ask = (event: BeforeUnloadEvent): void => {
    if (!this.#all().some((saving) => saving.unsaved)) return;
    event.preventDefault();
    void this.now();
  };

  /** The store; one that could not be had is asked for anew the next time. */
  readonly open = (): Promise<Store | Miss> => {
    if (this.#store) return this.#store;
    const opening = fetchStore();
    this.#store = opening;
    void opening.then((store) => {
      if (!('save' in store) && this.#store === opening) this.#store = undefined;
    });
    return opening;
  };

  readonly drop = (): void => {
    const store = this.#store;
    this.#bye();
    this.#store = undefined;
    void store?.then((old) => 'close' in old && old.close());
  };

  readonly tell = (): void => {
    for (const [line, saving] of this.#parked) {
      if (saving.unsaved) continue;
      saving.end();
      this.#parked.delete(line);
    }
    this.#watch();
    this.#host.requestUpdate();
  };

  get lastOpen(): string | undefined {
    return keep.read(LAST) ?? undefined;
  }

  forget(): void {
    keep.drop(LAST);
  }

  async shelf(): Promise<{ readonly cards: readonly ShelfCard[]; readonly problem: string }> {
    const store = await this.open();
    const list = 'list' in store ? await store.list() : store;
    const parked = [...this.#parked].map(([id, { session }]) => {
      const { title, client } = session.book;
      return { id, title, client, saved: 'not saved: on this page only' };
    });
    if (!list.ok) return { cards: parked, problem: list.message };
    return {
      cards: [
        ...parked,
        ...list.entries.map(({ id, title, client, version, savedAt }) => ({
          id,
          title,
          client,
          saved: [version, `saved ${when(new Date(savedAt))}`].filter(Boolean).join(', '),
        })),
      ],
      problem: '',
    };
  }

  /** A book of the shelf, as it was left; undefined where it is not there any more. */
  async fetch(id: string): Promise<Found | Unopened | undefined> {
    const parked = this.#parked.get(id);
    if (parked) {
      const { book, history } = parked.session;
      return { book, history, standing: parked.standing, ...viewOf(book.id) };
    }
    const store = await this.open();
    if (!('open' in store)) return { problem: store.message };
    const opened = await store.open(id);
    const { recover } = await import('../../files/store/index.ts');
    const { on, said } = await recover(store, id, opened.ok ? opened : undefined);
    const notice = [opened.ok ? opened.said : '', ...said].filter(Boolean).join(' ');
    if (opened.ok) return { ...found(opened, on), ...viewOf(id), ...(notice && { notice }) };
    if (opened.problem !== 'not there') return { problem: opened.message, ...(opened.raw === undefined ? {} : { raw: opened.raw }) };
    return notice === '' ? undefined : { problem: notice };
  }

  async has(id: string): Promise<boolean> {
    const store = await this.open();
    const list = 'list' in store ? await store.list() : store;
    return list.ok && list.entries.some((entry) => entry.id === id);
  }

  async remove(id: string): Promise<string> {
    const parked = this.#parked.get(id);
    const store = await this.open();
    if (parked) {
      this.#parked.delete(id);
      parked.end();
      if ('forget' in store) await store.forget(parked.session.book.id, id);
      return '';
    }
    const removed = 'remove' in store ? await store.remove(id) : store;
    keep.drop(viewKey(id));
    keep.drop(openGroupsKey(id));
    return removed.ok ? '' : removed.message;
  }

  /** The open book is saved by this from now on. */
  follow(saving: Saving): void {
    this.leave();
    // It may go on with what was put away.
    this.#parked.get(saving.line)?.end(true);
    this.#parked.delete(saving.line);
    this.#saving = saving;
    keep.write(LAST, saving.session.book.id);
    this.#watch();
  }

  /** Hears what other tabs do with the book. */
  #watch = (): void => {
    const saving = this.#saving;
    if (!saving || this.#unwatch) return;
    void this.open().then((store) => {
      if (!('watch' in store) || this.#saving !== saving || this.#unwatch) return;
      this.#unwatch = store.watch(saving.session.book.id, (news) => {
        if (news.kind === 'alone again' && this.news !== ALSO_OPEN) return;
        if (news.kind === 'closed') this.drop();
        if (news.kind === 'closed' && news.lost) saving.doubt();
        this.news =
          news.kind === 'alone again'
            ? ''
            : news.kind === 'also open'
              ? ALSO_OPEN
              : news.kind === 'closed'
                ? news.message
                : news.kind === 'removed elsewhere'
                  ? 'This book was thrown away in another tab.'
                  : 'This book was saved in another tab: what is shown here is older.';
        this.#host.requestUpdate();
      });
    });
  };

  /** The page goes: other tabs are told. It may come back as it was. */
  #bye = (): void => {
    this.#unwatch?.();
    this.#unwatch = undefined;
  };

  /** What is not saved is put on the shelf of this page, where it goes on being tried. */
  leave(): void {
    const saving = this.#saving;
    this.#noteView();
    this.#bye();
    this.#saving = undefined;
    this.news = '';
    if (saving?.unsaved) this.#parked.set(saving.line, saving);
    else saving?.end();
  }

  /** Written down in a quiet moment: moving about must not wait for the disk. */
  look(view: View): void {
    this.#view = view;
    this.#viewTimer ??= setTimeout(() => this.#noteView(), PAUSE);
  }

  #noteView(): void {
    clearTimeout(this.#viewTimer);
    this.#viewTimer = undefined;
    if (this.#saving && this.#view) keep.write(viewKey(this.#saving.session.book.id), JSON.stringify(this.#view));
    this.#view = undefined;
  }

  /** Saves what is not saved yet. */
  async now(): Promise<void> {
    await this.#saving?.now();
  }
}

async function fetchStore(): Promise<Store | Miss> {
  try {
    const { openStore } = await import('../../files/store/index.ts');
    const opened = await openStore();
    return opened.ok ? opened.store : opened;
  } catch {
    return {
      ok: false,
      problem: 'failed',
      message: 'The part of this program that saves can’t be fetched; it is asked for again and again.',
    };
  }
}

function found({ book, history, entry }: Opened, on: Recovered['on']): Found {
  const { revision, mark } = entry;
  if (!on) return { book, history, standing: { revision } };
  return { ...on.to, standing: { revision, line: on.line, n: on.n, upTo: mark?.line === on.line ? mark.upTo : 0 } };
}

function when(date: Date): string {
  if (date.toDateString() === new Date().toDateString()) return clock(date);
  return `${date.toLocaleDateString(undefined, { day: 'numeric', month: 'short', year: 'numeric' })}, ${clock(date)}`;
}

const viewOf = (id: string): { readonly view?: View } => {
  const view = readView(id);
  return view ? { view } : {};
};

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
