import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type At, placeIn, textOf } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { parseBook } from '../../src/files/book/book-file.ts';
import { openSession, type Session } from '../../src/session.ts';

const folder = fileURLToPath(new URL('../../templates/', import.meta.url));

export const slugs: readonly string[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => name.slice(0, -'.json'.length));

export function templateBook(slug: string): Book {
  const read = parseBook(readFileSync(`${folder}${slug}.json`, 'utf8'));
  if (!read.ok) throw new Error(read.message);
  return read.book;
}

/** The template, open and worked out. */
export async function openTemplate(slug: string): Promise<Session> {
  const session = openSession(templateBook(slug), createEngine());
  await session.settled();
  return session;
}

/** Looks at a template that is open, and closes it whatever comes of it. */
export async function inside(slug: string, look: (session: Session) => Promise<void>): Promise<void> {
  const session = await openTemplate(slug);
  try {
    await look(session);
  } finally {
    session.close();
  }
}

/** Every cell that holds something, or is a given that waits for an answer. */
export function cells(book: Book): { readonly address: string; readonly at: At }[] {
  return book.tables.flatMap((table) =>
    table.rows.flatMap((_, r) =>
      table.columns.flatMap((__, c) => {
        const at = placeIn(table, c, r);
        return at ? [{ address: textOf(table.name, c, r), at }] : [];
      }),
    ),
  );
}
