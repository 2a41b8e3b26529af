/**
 * One open book: the document, its history, the engine that works it out, and the values it last gave.
 *
 * The book changes at once and the engine follows: `dispatch` returns with the new book in place and the listeners told; the values come when
 * they are worked out. Until then the last values stay, carried along with their cells. The page runs it over a worker, the command line
 * over an engine in the same process.
 */
import { type At, cellAt, placeIn, textOf } from './book/address.ts';
import { apply, prepare } from './book/apply.ts';
import type { Book } from './book/book.ts';
import type { Change } from './book/change.ts';
import { setCell } from './book/commands/set-cell.ts';
import * as past from './book/history.ts';
import { lockedProblem } from './book/locked.ts';
import { type PlainReading, readPlain, unitInBook } from './book/read-plain.ts';
import { type Answer, isRefused, type Refused, refused } from './book/refused.ts';
import { tellerOfTyped } from './book/said-by.ts';
import type { Address, Engine, Mend, Reading, Values } from './engine/types.ts';
import { carried, compared, Gathering, noValues } from './values.ts';

export type News =
  /** The book is another: `session.book` has the change in it. */
  | { readonly kind: 'book'; readonly change: Change; readonly step: Step }
  /** Values were worked out; these addresses differ. */
  | { readonly kind: 'values'; readonly changed: ReadonlySet<Address> }
  /** Work began or ended: between the two, values may be from before the last change. */
  | { readonly kind: 'busy'; readonly busy: boolean }
  /** The engine failed, or (undefined) works again. The book is whole, and the last good values stay. */
  | { readonly kind: 'trouble'; readonly trouble: string | undefined };

/** How a change came about. */
type Step = 'made' | 'taken back' | 'made again';

export type Listener = (news: News) => void;

/** What came of typing into a cell. A miss changes nothing: keep what was typed in the editor. */
export type Typed =
  | { readonly ok: true; readonly change: Change /** "200 read as 200 µmol/m²/s" */; readonly said?: string }
  | { readonly ok: false; readonly message: string; readonly mend?: Mend };

export interface Session {
  readonly book: Book;
  /** The last good values, as they were at one moment: when others come this is another object (`values.ts`). A blank cell has no entry. */
  readonly values: Values;
  /** Keep it with the book, so that undo outlives a closed page. */
  readonly history: past.History;
  readonly busy: boolean;
  /** What to tell while the engine does not work. */
  readonly trouble: string | undefined;
  /** Applies a change, one step of undo. Throws where the change was made for another book. */
  dispatch(change: Change): void;
  /** Runs a command on the book as it is now and dispatches its change, unless it refuses. A change without edits is not dispatched. */
  run(command: (book: Book) => Answer): Answer;
  /** The change that was made, or undefined where there was nothing to undo. */
  undo(): Change | undefined;
  redo(): Change | undefined;
  /**
   * Reads what was typed as the cell would take it, and puts it in. Calls are answered in order; the cell is followed if it moves meanwhile.
   * `source`: who said so; left out, it stays, save that an answer to the brief over a default is the client's.
   */
  type(address: Address, typed: string, source?: string): Promise<Typed>;
  /** Asks the engine, once it has worked out all changes made so far: `session.ask((engine) => engine.trace('Scenarios.B7'))`. */
  ask<T>(question: (engine: Engine) => Promise<T>): Promise<T>;
  /** Resolves when all that was asked and changed so far is worked out (or has failed: see `trouble`). */
  settled(): Promise<void>;
  /** Does beforehand what the next edit would begin with. For whenever there is nothing else to do. */
  makeReady(): void;
  /** Listeners are told in order and at once; returns what ends the subscription. */
  subscribe(listener: Listener): () => void;
  /** Ends the session and its engine. */
  close(): void;
}

export interface SessionOptions {
  /** As it was kept with the book. */
  readonly history?: past.History;
}

/** Opens a book over an engine, which the session owns from then on. The values come later: await `settled()` where that matters. */
export function openSession(book: Book, engine: Engine, options: SessionOptions = {}): Session {
  return new OpenSession(book, engine, options.history ?? past.NO_HISTORY);
}

/** A change takes a cell to another address in these ways only. */
const movesCells = (change: Change): boolean => change.edits.some((edit) => edit.at === 'row' || edit.at === 'column' || edit.at.startsWith('table'));

class OpenSession implements Session {
  book: Book;
  history: past.History;
  /** A session begins with building the engine. */
  busy = true;
  trouble: string | undefined;
  values: Values = noValues();

  /** What the engine gave, by its addresses. The same object as `values`, save while cells have moved and the engine has not yet followed. */
  #given: Values = this.values;
  readonly #engine: Engine;
  readonly #listeners = new Set<Listener>();
  /** Changes that the book has and the engine has not. */
  #waiting: Change[] = [];
  /** The engine must be built anew from the book before anything else. */
  #stale = true;
  /** The book that the engine could not be built from. Without a change it is not tried again: whoever mends a formula must not wait for it. */
  #unbuildable: Book | undefined;
  #tasks: (() => Promise<void>)[] = [];
  #running: Promise<void> | undefined;
  #closed = false;
  /** No values have come yet. */
  #first = true;
  /** Typed texts that the engine is still to read. */
  #reading = 0;
  #rehearsed = false;

  constructor(book: Book, engine: Engine, history: past.History) {
    this.book = book;
    this.history = history;
    this.#engine = engine;
    this.#queue(() => this.#catchUp());
  }

  dispatch(change: Change): void {
    this.#change(change, past.remember(this.history, change), 'made');
  }

  run(command: (book: Book) => Answer): Answer {
    const answer = command(this.book);
    if (!isRefused(answer) && answer.edits.length > 0) this.dispatch(answer);
    return answer;
  }

  undo(): Change | undefined {
    return this.#step(past.undo(this.history), 'taken back');
  }

  redo(): Change | undefined {
    return this.#step(past.redo(this.history), 'made again');
  }

  type(address: Address, typed: string, source?: string): Promise<Typed> {
    const at = cellAt(this.book, address);
    if (!at) return Promise.resolve({ ok: false, message: `There is no cell ${address} in this book.` });
    // What is no formula is read here and now, and waits for no calculation; but never before what was typed earlier.
    const unit = this.#reading > 0 || typed.trimStart().startsWith('=') ? undefined : unitInBook(this.book, at);
    if (unit !== undefined) return Promise.resolve(this.#put(address, readPlain(this.book, at, typed, unit), source));
    this.#reading++;
    const reading = this.#ask(async (): Promise<Typed> => {
      const now = this.#where(at);
      if (isRefused(now)) return { ok: false, message: now.message };
      const read = await this.#engine.read(now, typed);
      // The row may have moved again while the engine read.
      const then = this.#where(at);
      return isRefused(then) ? { ok: false, message: then.message } : this.#put(then, read, source);
    });
    // A text that breaks the engine is a miss like any other: it stays in the editor.
    return reading
      .catch((error: Error): Typed => ({ ok: false, message: error.message }))
      .finally(() => {
        this.#reading--;
      });
  }

  /** Puts what was read into its cell. */
  #put(address: Address, read: PlainReading | Reading, source: string | undefined): Typed {
    if (!read.ok) return read;
    const answer = this.run((book) => written(book, address, read, source));
    if (isRefused(answer)) return { ok: false, message: answer.message };
    return { ok: true, change: answer, ...(read.said === undefined ? {} : { said: read.said }) };
  }

  ask<T>(question: (engine: Engine) => Promise<T>): Promise<T> {
    return this.#ask(() => question(this.#engine));
  }

  async settled(): Promise<void> {
    while (this.#running) await this.#running;
  }

  makeReady(): void {
    const [table] = this.book.tables;
    const at = table && placeIn(table, 0, 0);
    if (at && !this.#rehearsed) {
      // An edit that nobody sees: the first one that somebody waits for does not run what nothing ran before.
      const read = readPlain(this.book, at, '1', '');
      const answer = read.ok ? written(this.book, textOf(table.name, 0, 0), read, undefined) : refused('');
      if (!isRefused(answer)) apply(this.book, answer);
    }
    this.#rehearsed = true;
    prepare(this.book);
  }

  subscribe(listener: Listener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  close(): void {
    if (this.#closed) return;
    this.#closed = true;
    this.#listeners.clear();
    this.#engine.close();
  }

  #step(found: { readonly change: Change; readonly history: past.History } | undefined, step: Step): Change | undefined {
    if (!found) return undefined;
    this.#change(found.change, found.history, step);
    return found.change;
  }

  #change(change: Change, history: past.History, step: Step): void {
    const before = this.book;
    this.book = apply(before, change);
    this.history = history;
    if (movesCells(change)) this.values = carried(this.values, before, this.book);
    this.#waiting.push(change);
    this.#tell({ kind: 'book', change, step });
    this.#queue(() => this.#catchUp());
  }

  /** Brings the engine to the book as it is. All changes made while it was at work go to it in one run. */
  async #catchUp(): Promise<void> {
    if (this.#closed || (this.#stale ? this.book === this.#unbuildable : this.#waiting.length === 0)) return;
    this.#setBusy(true);
    const changes = this.#waiting;
    this.#waiting = [];
    if (!this.#stale) await this.#feed(changes);
    if (this.#stale) await this.#rebuild();
    if (this.#waiting.length === 0) this.#setBusy(false);
  }

  async #feed(changes: readonly Change[]): Promise<void> {
    try {
      const taken = new Gathering(this.#given);
      taken.add(await this.#engine.apply(changes, this.book, (part) => taken.add(part)));
      this.#take(taken, false);
    } catch (error) {
      this.#fail(error);
    }
  }

  async #rebuild(): Promise<void> {
    this.#waiting = [];
    const book = this.book;
    try {
      const taken = new Gathering(noValues());
      taken.add(await this.#engine.load(book, (part) => taken.add(part)));
      this.#stale = false;
      this.#take(taken, true);
      if (this.trouble !== undefined) this.#setTrouble(undefined);
    } catch (error) {
      this.#unbuildable = book;
      this.#fail(error);
    }
  }

  /** What the engine gave is in. `whole`: it is all there is, and what is not among it is blank. */
  #take(taken: Gathering, whole: boolean): void {
    if (this.#closed) return;
    const before = this.values;
    const along = before === this.#given;
    this.#given = taken.seen();
    // Cells that moved again since the engine was asked keep their carried values until it has followed.
    if (this.#waiting.some(movesCells)) return;
    // The engine tells what differs by address. Where cells moved, what is shown was carried along with them and must be compared.
    const told = this.#first || (!whole && along);
    this.#first = false;
    const { values, changed } = told ? { values: this.#given, changed: taken.addresses } : compared(before, this.#given);
    this.values = values;
    this.#given = values;
    if (changed.size > 0) this.#tell({ kind: 'values', changed });
  }

  #where(at: At): Address | Refused {
    const table = this.book.tables.find((t) => t.id === at.table.id);
    const row = table?.rows.findIndex((r) => r.id === at.row.id) ?? -1;
    const column = table?.columns.findIndex((c) => c.id === at.column.id) ?? -1;
    return table && row >= 0 && column >= 0 ? textOf(table.name, column, row) : refused('The cell that was typed into is no longer in the book.');
  }

  #ask<T>(question: () => Promise<T>): Promise<T> {
    if (this.#closed) return Promise.reject(closed());
    return new Promise((resolve, reject) => {
      this.#queue(async () => {
        await this.#catchUp();
        if (this.#closed) return reject(closed());
        try {
          resolve(await question());
        } catch (error) {
          // A question that breaks the engine is answered with its failure; what was typed stays with the one who asked.
          reject(this.#fail(error));
          if (!this.#closed) await this.#rebuild();
        }
      });
    });
  }

  #queue(task: () => Promise<void>): void {
    if (this.#closed) return;
    this.#tasks.push(task);
    this.#running ??= this.#work();
  }

  async #work(): Promise<void> {
    // Let the gesture that began this finish first, so that a run of changes goes to the engine as one.
    await Promise.resolve();
    for (let task = this.#tasks.shift(); task; task = this.#tasks.shift()) await task();
    this.#running = undefined;
  }

  #fail(error: unknown): Error {
    this.#stale = true;
    const why = error instanceof Error ? error.message : String(error);
    const message = `${why} The book is whole; the values shown are the last good ones.`;
    if (!this.#closed) this.#setTrouble(message);
    return new Error(message);
  }

  #setTrouble(trouble: string | undefined): void {
    this.trouble = trouble;
    this.#tell({ kind: 'trouble', trouble });
  }

  #setBusy(busy: boolean): void {
    if (this.busy === busy) return;
    this.busy = busy;
    this.#tell({ kind: 'busy', busy });
  }

  #tell(news: News): void {
    for (const listener of [...this.#listeners]) {
      try {
        listener(news);
      } catch (error) {
        // A fault in one listener must neither keep the news from the others nor stop the work; it is reported as any other uncaught one.
        queueMicrotask(() => {
          throw error;
        });
      }
    }
  }
}

/** The change that writes what was read into a cell. */
function written(book: Book, address: Address, { content, typed, unit }: Extract<PlainReading | Reading, { ok: true }>, source: string | undefined): Answer {
  const at = cellAt(book, address);
  const locked = at && lockedProblem(at, content);
  if (locked !== undefined) return refused(locked);
  const teller = source ?? (at && tellerOfTyped(at, content));
  return setCell(book, {
    address,
    content,
    ...(typed === undefined ? {} : { typed }),
    ...(unit === undefined ? {} : { unit }),
    ...(teller === undefined ? {} : { source: teller }),
  });
}

const closed = (): Error => new Error('This book is closed.');
