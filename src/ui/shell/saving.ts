/**
 * Brings the changes of one open book into the browser's store: each at once into the journal, and the book itself soon after. "Saved" is said only
 * when the browser has all of it on disk. What failed is tried again, ever more slowly.
 */
import { type Book, CURRENT_VERSION } from '../../book/book.ts';
import type { History } from '../../book/history.ts';
import { type Entry, hold, letGo, type Miss, type Note, putBy, type Store } from '../../files/store/index.ts';
import type { News, Session } from '../../session.ts';
import { clock } from '../parts/index.ts';

/** Where the book stands with the store as it is opened. */
export interface Standing {
  /** Of the save it comes from; 0 where it was never saved. */
  readonly revision: number;
  /** Its line in the journal, where it goes on with one: the number of its last change, and of the last that is saved. */
  readonly line?: string;
  readonly n?: number;
  readonly upTo?: number;
}

/** What the page gives for it. */
export interface Keeper {
  open(): Promise<Store | Miss>;
  /** The store does not answer: it is opened anew the next time. */
  drop(): void;
  /** The word or the miss is another. */
  tell(): void;
}

/** After the last change, ms; a run of changes is saved once. */
const PAUSE = 300;
/** A change is on its way by then, however fast others follow. */
const AT_MOST = 900;
/** So long a store may take. It is said well within ten seconds of the change. */
const PATIENCE = 8_500;
const FIRST_RETRY = 1_000;
const LAST_RETRY = 30_000;

const SILENT: Miss = {
  ok: false,
  problem: 'failed',
  message: 'The browser’s store doesn’t answer. Until it does, this page alone has your last changes.',
};

export class Saving {
  /** "saved 14:02", "saving …", "not saved". */
  word: string;
  /** Why it is not saved, and what could be done. */
  miss: Miss | undefined;
  readonly line: string;
  readonly session: Session;

  readonly #keeper: Keeper;
  #revision: number;
  /** Numbers of the last change, and of the last one that is saved. */
  #n: number;
  #upTo: number;
  /** Not known to be in the journal yet. */
  readonly #onTheWay = new Map<number, Note>();
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** By the clock of the page: when the first change that is not saved must be on its way. */
  #due: number | undefined;
  #trying: Promise<void> | undefined;
  #retry = FIRST_RETRY;
  #hasWhole = false;
  #ended = false;
  readonly #unsubscribe: () => void;

  constructor(session: Session, { revision, line, n = 0, upTo = 0 }: Standing, keeper: Keeper) {
    this.session = session;
    this.#keeper = keeper;
    this.#revision = revision;
    this.line = line ?? crypto.randomUUID();
    this.#n = n;
    this.#upTo = upTo;
    this.word = this.unsaved ? 'saving …' : 'saved';
    void hold(this.line, PATIENCE);
    this.#unsubscribe = session.subscribe((news) => {
      if (news.kind === 'book') this.#changed(news);
    });
    if (this.unsaved) void this.now();
  }

  get unsaved(): boolean {
    return this.#revision === 0 || this.#n > this.#upTo;
  }

  /** As it is now, to be gone on with by another session. */
  get standing(): Standing {
    return { revision: this.#revision, line: this.line, n: this.#n, upTo: this.#upTo };
  }

  #changed({ change, step }: News & { kind: 'book' }): void {
    this.#n++;
    this.#note({ step, ...(step === 'made' && { change }) });
    if (!this.miss) this.#say('saving …');
    const now = performance.now();
    this.#due ??= now + AT_MOST;
    this.#later(Math.min(PAUSE, this.#due - now));
  }

  #later(ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.now(), Math.max(0, ms));
  }

  #note(what: Pick<Note, 'step' | 'change' | 'book' | 'history'>): void {
    const n = this.#n;
    const note: Note = { id: this.session.book.id, line: this.line, n, base: this.#revision, version: CURRENT_VERSION, ...what };
    this.#onTheWay.set(n, note);
    void this.#putDown(note);
  }

  async #putDown(note: Note): Promise<void> {
    const store = await this.#keeper.open();
    // In the same turn, but after the engine was told of the change: while that works, the page's thread is free.
    await undefined;
    if ('note' in store && (await store.note(note))) this.#onTheWay.delete(note.n);
  }

  /** What a page that goes can still write down before it is gone. */
  putBy(): void {
    if (this.unsaved) putBy(this.line, [...this.#onTheWay.values()], this.#upTo);
  }

  /** Saves what is not saved yet. Ends in time, whatever the store does. */
  async now(): Promise<void> {
    await this.#trying;
    if (!this.unsaved || this.#ended) return;
    clearTimeout(this.#timer);
    this.#due = undefined;
    this.#trying ??= this.#try().finally(() => {
      this.#trying = undefined;
    });
    await this.#trying;
  }

  async #try(): Promise<void> {
    const { book, history } = this.session;
    const upTo = this.#n;
    const saving = this.#save(book, history, upTo);
    let patience: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<undefined>((resolve) => {
      patience = setTimeout(() => resolve(undefined), PATIENCE);
    });
    const saved = await Promise.race([saving, late]);
    clearTimeout(patience);
    if (saved) this.#hear(saved, upTo);
    else {
      this.#keeper.drop();
      this.#fail(SILENT);
      // It may come yet, and then it counts.
      void saving.then((entry) => entry.ok && this.#hear(entry, upTo));
    }
  }

  async #save(book: Book, history: History, upTo: number): Promise<{ readonly ok: true; readonly entry: Entry } | Miss> {
    const store = await this.#keeper.open();
    return 'save' in store ? store.save(book, history, this.#revision, { line: this.line, upTo }) : store;
  }

  #hear(saved: { readonly ok: true; readonly entry: Entry } | Miss, upTo: number): void {
    if (!saved.ok) {
      this.#fail(saved);
      return;
    }
    this.#revision = Math.max(this.#revision, saved.entry.revision);
    this.#upTo = Math.max(this.#upTo, saved.entry.mark?.upTo ?? upTo);
    this.#retry = FIRST_RETRY;
    this.miss = undefined;
    for (const n of this.#onTheWay.keys()) if (n <= this.#upTo) this.#onTheWay.delete(n);
    void this.#keeper.open().then((store) => ('forget' in store ? store.forget(saved.entry.id, this.line, 0, this.#upTo) : undefined));
    this.#say(this.unsaved ? 'saving …' : `saved ${clock(new Date(saved.entry.savedAt))}`);
  }

  #fail(miss: Miss): void {
    if (this.#ended) return;
    this.miss = miss;
    this.#say('not saved');
    if (miss.problem === 'changed elsewhere') {
      // What follows can't be put upon what is kept any more: all of it is put down once, and the next changes upon that.
      if (!this.#hasWhole) this.#note({ step: 'whole', book: this.session.book, history: this.session.history });
      this.#hasWhole = true;
      return;
    }
    if (miss.problem !== 'full') this.#keeper.drop();
    this.#later(this.#retry);
    this.#retry = Math.min(2 * this.#retry, LAST_RETRY);
  }

  #say(word: string): void {
    this.word = word;
    this.#keeper.tell();
  }

  /** What was saved may be gone from the store: that is looked into at once. */
  doubt(): void {
    this.#upTo = -1;
    void this.now();
  }

  /** The book is put away. What is not saved stays in the journal, and its line this page's while `keep`. */
  end(keep = false): void {
    this.#ended = true;
    this.#unsubscribe();
    clearTimeout(this.#timer);
    if (!keep) letGo(this.line);
  }
}
