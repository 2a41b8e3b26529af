/** Brings stored books of older versions to the current one. */
import { CURRENT_VERSION } from './book.ts';
import { firstEdition } from './first-editions.ts';
import type { History } from './history.ts';
import { PlacesAnew } from './migrate-places.ts';

type Stored = Readonly<Record<string, unknown>>;

/**
 * `MIGRATIONS[0]` makes version 2 of version 1, and so on. Only ever added to: a book written years ago goes through all of them. `say` is told, in
 * sentences, what whoever opens the book should know.
 */
export const MIGRATIONS: readonly ((stored: Stored, say: (sentence: string) => void) => Stored)[] = [
  // From 2 on a row may say that it holds text.
  (stored) => stored,
  // From 3 on a book says which edition of which template it was begun from. Until then there was one of each.
  (stored) => {
    const slug = stored.template === undefined ? firstEdition(stored) : undefined;
    return slug === undefined ? stored : { ...stored, template: { slug, edition: 1 } };
  },
  // From 4 on places are written Scenarios.B7.
  (stored, say) => new PlacesAnew(stored, say).book(stored),
  // From 5 on a book may say how its wires are called and what paper it is printed on; one that does not goes by its measures.
  (stored) => stored,
  // From 6 on a book may hold what the client wrote.
  (stored) => stored,
];

export type Migrated =
  | { readonly ok: true; readonly book: Stored; readonly said: readonly string[] }
  | { readonly ok: false; readonly newer: boolean; readonly message: string };

export function migrate(stored: Stored, migrations = MIGRATIONS, current = CURRENT_VERSION): Migrated {
  const { version } = stored;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return { ok: false, newer: false, message: 'It does not say which version it has.' };
  if (version > current) {
    return { ok: false, newer: true, message: `A newer version of this program wrote it (version ${version}; this one reads up to ${current}).` };
  }
  const said: string[] = [];
  let book = stored;
  for (let v = version; v < current; v++) {
    const step = migrations[v - 1];
    if (!step) throw new Error(`there is no migration from version ${v}`);
    book = { ...step(book, (sentence) => said.push(sentence)), version: v + 1 };
  }
  return { ok: true, book, said };
}

/** The first version whose changes are as they are now: a history that was kept with an older book, or a journal, is brought along. */
const CHANGES_SINCE = 4;

/** `stored`: the book that they are of, as it was kept. */
export function migrateHistory(history: History, stored: Stored): History {
  const { version } = stored;
  if (typeof version !== 'number' || version >= CHANGES_SINCE) return history;
  const { change } = new PlacesAnew(stored);
  return { done: history.done.map(change), undone: history.undone.map(change) };
}
