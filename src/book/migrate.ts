/** Brings stored books of older versions to the current one. */
import { CURRENT_VERSION } from './book.ts';
import { firstEdition } from './first-editions.ts';

type Stored = Readonly<Record<string, unknown>>;

/** `MIGRATIONS[0]` makes version 2 of version 1, and so on. Only ever added to: a book written years ago goes through all of them. */
export const MIGRATIONS: readonly ((stored: Stored) => Stored)[] = [
  // From 2 on a row may say that it holds text.
  (stored) => stored,
  // From 3 on a book says which edition of which template it was begun from. Until then there was one of each.
  (stored) => {
    const slug = stored.template === undefined ? firstEdition(stored) : undefined;
    return slug === undefined ? stored : { ...stored, template: { slug, edition: 1 } };
  },
];

export type Migrated = { readonly ok: true; readonly book: Stored } | { readonly ok: false; readonly newer: boolean; readonly message: string };

export function migrate(stored: Stored, migrations = MIGRATIONS, current = CURRENT_VERSION): Migrated {
  const { version } = stored;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return { ok: false, newer: false, message: 'It does not say which version it has.' };
  if (version > current) {
    return { ok: false, newer: true, message: `It was written by a newer version of this program (book version ${version}; this one reads up to ${current}).` };
  }
  let book = stored;
  for (let v = version; v < current; v++) {
    const step = migrations[v - 1];
    if (!step) throw new Error(`there is no migration from version ${v}`);
    book = { ...step(book), version: v + 1 };
  }
  return { ok: true, book };
}
