/** What pages that ended left in the journal of a book, once nobody is at it any more. */
import { freeTitle } from '../../book/free-title.ts';
import { type Note, type Played, played } from './journal.ts';
import { hold, isOurs, letGo } from './lines.ts';
import type { Opened, Store } from './storage.ts';

type Whole = Played & Required<Pick<Played, 'to'>>;

export interface Recovered {
  /** The kept book with changes that follow upon it. Its line is this page's from now on. */
  readonly on?: Whole;
  /** What was done, and what could not be, in sentences. */
  readonly said: readonly string[];
}

/** A page that ended a moment ago may still seem to be there. */
const WAIT = 500;

/** `opened`: the book as it is kept, where it is. Lines that do not follow upon it become books of their own. */
export async function recover(store: Store, id: string, opened: Opened | undefined): Promise<Recovered> {
  const { mark, revision = 0 } = opened?.entry ?? {};
  const kept = opened && { book: opened.book, history: opened.history, revision, ...(mark && { mark }) };
  let on: Whole | undefined;
  const said: string[] = [];
  for (const [line, notes] of ownFirst(byLine(await store.notes(id)), mark?.line)) {
    if (isOurs(line) || !(await hold(line, WAIT))) continue;
    const found = played(notes, kept);
    if (found && found.left.length > 0) said.push(`Not put in, because what it was made on is not there any more: ${found.left.join('; ')}.`);
    if (found?.to && !found.whole && !on) {
      on = { ...found, to: found.to };
      said.push(wordsOf(on));
      // The page goes on with its numbers.
      if (found.left.length > 0) await store.forget(id, line, found.n + 1);
      continue;
    }
    if (found?.to) said.push(await keepApart(store, id, { ...found, to: found.to }));
    else await store.forget(id, line);
    letGo(line);
  }
  return { ...(on && { on }), said };
}

async function keepApart(store: Store, id: string, { to, line }: Whole): Promise<string> {
  const list = await store.list();
  const title = freeTitle(to.book.title, list.ok ? list.entries.map((entry) => entry.title) : []);
  const saved = await store.save({ ...to.book, id: crypto.randomUUID(), title }, to.history, 0);
  if (!saved.ok) return `What another page had not saved of this book waits to be put on the shelf. ${saved.message}`;
  await store.forget(id, line);
  return `What another page had not saved of this book is on the shelf now, as “${title}”.`;
}

const wordsOf = ({ count, last }: Played): string =>
  count === 1
    ? `A change made before this page closed, and not saved then, is in again: ${last}.`
    : `${count} changes made before this page closed, and not saved then, are in again, the last of them: ${last}.`;

function byLine(notes: readonly Note[]): ReadonlyMap<string, readonly Note[]> {
  const lines = new Map<string, Note[]>();
  for (const note of notes) {
    const line = lines.get(note.line);
    if (line) line.push(note);
    else lines.set(note.line, [note]);
  }
  return lines;
}

/** The line that was saved last goes before others that follow upon the same save. */
const ownFirst = (lines: ReadonlyMap<string, readonly Note[]>, own: string | undefined): [string, readonly Note[]][] =>
  [...lines].sort(([a], [b]) => Number(b === own) - Number(a === own));
