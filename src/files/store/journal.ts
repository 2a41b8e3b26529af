/**
 * The journal: each change of an open book as one small record, put down at once, long before the book itself is kept. It is played back where a
 * page ended before that. The changes of one page make a line, under a word of their own and numbered from 1.
 *
 * A record is put with relaxed durability and an explicit commit: a page that is ended before it hears that a record is in would take an open transaction
 * with it. localStorage has only what a closing page writes down that the journal has not confirmed. A line is held by a lock of the browser's, so that no
 * other tab plays back what is still being written; a save carries its line and number, so that a page knows its own, however late it came through.
 */
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { checkBook } from '../../book/check.ts';
import { type History, isHistory, NO_HISTORY, redo, remember, undo } from '../../book/history.ts';
import { migrate, migrateHistory } from '../../book/migrate.ts';

/** How a change came about: made, taken back, made again. */
export type Step = 'made' | 'taken back' | 'made again';

export interface Note {
  /** Of the book. */
  readonly id: string;
  readonly line: string;
  readonly n: number;
  /** The revision that the page had opened, or last saved. */
  readonly base: number;
  readonly step: Step | 'whole';
  /** The version of the book whose writing the change has; up to 3 it was not said. */
  readonly version?: number;
  /** Of what was made; the history knows the others. */
  readonly change?: Change;
  /** For "whole": all of it, where it can't be played back upon what is kept. */
  readonly book?: unknown;
  readonly history?: unknown;
}

/** What a save says of where it came from: this line, as far as this number. */
export interface Mark {
  readonly line: string;
  readonly upTo: number;
}

interface Begun {
  readonly book: Book;
  readonly history: History;
}

/** What is kept of a book, as far as playing back asks. */
export interface KeptBook extends Begun {
  readonly revision: number;
  readonly mark?: Mark;
}

/** What a line makes of the book that it began with. */
export interface Played {
  readonly line: string;
  /** The book with the changes in it; undefined where they fit nothing that is kept. */
  readonly to?: Begun;
  /** It brings its own book and is not about the one that is kept. */
  readonly whole: boolean;
  /** The number of its last change, and how many were played back. */
  readonly n: number;
  readonly count: number;
  /** The last of them, in words. */
  readonly last: string;
  /** Those that could not be played back, in words. */
  readonly left: readonly string[];
}

/** Plays a line back, its notes in order. Undefined where all of it is in what is kept. */
export function played(notes: readonly Note[], kept: KeptBook | undefined): Played | undefined {
  const line = notes[0]?.line ?? '';
  const snapshot = notes.findLast((note) => note.step === 'whole');
  const own = kept?.mark?.line === line;
  const upTo = snapshot?.n ?? (own ? (kept.mark?.upTo ?? 0) : 0);
  const rest = notes.filter(({ n, step }) => n > upTo && step !== 'whole');
  if (!snapshot && rest.length === 0) return undefined;
  let now = snapshot ? begunWhole(snapshot) : own || notes[0]?.base === kept?.revision ? kept : undefined;
  let count = 0;
  let last = '';
  for (const note of rest) {
    const next = now && note.n === upTo + count + 1 ? after(now, note) : undefined;
    if (!next) break;
    now = next;
    count++;
    last = wordsOf(note, now.history);
  }
  const whole = snapshot !== undefined;
  // What was kept is still to be checked, and so is what the notes made of it.
  if (!now || (count === 0 && !whole) || !checkBook(now.book).ok)
    return { line, whole, n: upTo, count: 0, last: '', left: rest.map((note) => wordsOf(note, NO_HISTORY)) };
  const left = rest.slice(count).map((note) => wordsOf(note, NO_HISTORY));
  return { line, to: { book: now.book, history: now.history }, whole, n: upTo + count, count, last, left };
}

function begunWhole(note: Note): Begun | undefined {
  const stored = typeof note.book === 'object' && note.book !== null ? (note.book as Record<string, unknown>) : {};
  const migrated = migrate(stored);
  const checked = checkBook(migrated.ok ? migrated.book : stored);
  return checked.ok ? { book: checked.book, history: isHistory(note.history) ? migrateHistory(note.history, stored) : NO_HISTORY } : undefined;
}

const UNSAID = 3;

function after({ book, history }: Begun, note: Note): Begun | undefined {
  const { step, version = UNSAID } = note;
  const [change] = note.change ? migrateHistory({ done: [note.change], undone: [] }, { version }).done : [];
  const to = step === 'taken back' ? undo(history) : step === 'made again' ? redo(history) : change && { change, history: remember(history, change) };
  if (!to) return undefined;
  try {
    return { book: apply(book, to.change), history: to.history };
  } catch {
    // It was made for another book than this.
    return undefined;
  }
}

function wordsOf({ step, change }: Note, history: History): string {
  if (step === 'taken back') return `taken back: ${history.undone.at(-1)?.label ?? 'a change'}`;
  return change?.label ?? history.done.at(-1)?.label ?? 'a change';
}

/** Whether something that was kept has the shape of a note. */
export function isNote(found: unknown): found is Note {
  if (typeof found !== 'object' || found === null) return false;
  const { id, line, n, base, step, change } = found as Partial<Note>;
  if (typeof id !== 'string' || typeof line !== 'string' || !Number.isInteger(n) || !Number.isInteger(base)) return false;
  if (step === 'made') return isHistory({ done: [change], undone: [] }) && (change?.edits ?? []).every((edit) => typeof edit?.at === 'string');
  return step === 'taken back' || step === 'made again' || step === 'whole';
}

// ---- what a page that closes can still put by: the store would not hear of it in time

const PUT_BY = 'overbench not yet in the journal ';
/** More than that the browser would not take at once; the journal has it then, or the save. */
const MOST_PUT_BY = 1_000_000;

/** Written while the page goes, beside what was put by before; what is saved up to `upTo` goes. */
export function putBy(line: string, notes: readonly Note[], upTo: number): void {
  try {
    const before = notesIn(localStorage.getItem(PUT_BY + line)).filter((note) => notes.every(({ n }) => n !== note.n));
    const all = [...before, ...notes].filter(({ n }) => n > upTo);
    const text = all.length > 0 ? JSON.stringify(all) : '';
    if (text !== '' && text.length <= MOST_PUT_BY) localStorage.setItem(PUT_BY + line, text);
    else localStorage.removeItem(PUT_BY + line);
  } catch {
    // A browser that keeps nothing. Saving says so.
  }
}

export function putByOf(id: string): Note[] {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(PUT_BY))
      .flatMap((key) => notesIn(localStorage.getItem(key)))
      .filter((note) => note.id === id);
  } catch {
    return [];
  }
}

function notesIn(text: string | null): Note[] {
  try {
    const found: unknown = JSON.parse(text ?? '[]');
    return Array.isArray(found) ? found.filter(isNote) : [];
  } catch {
    return [];
  }
}
