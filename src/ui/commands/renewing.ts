/** Books of an earlier edition of their template: what they lack, and taking it in. Fetched when one is opened. */
import type { Book } from '../../book/book.ts';
import { takeIn } from '../../book/commands/take-in.ts';
import type { Edition } from '../../book/edition/frame.ts';
import { withLacks } from '../../book/edition/lacks.ts';
import { type Answer, refused } from '../../book/refused.ts';
import { parseBook } from '../../files/book/index.ts';

const templates = import.meta.glob<string>('../../../templates/*.json', { eager: true, query: '?url', import: 'default' });
const kept = import.meta.glob<string>('../../../templates/editions/*.json', { eager: true, query: '?url', import: 'default' });

interface Later {
  readonly template: Book;
  readonly past: Edition;
}

/** The template that a book was begun from, as it is now, with the edition that the book has of it; undefined where they can't be fetched. */
async function laterEdition({ template: origin }: Book): Promise<Later | undefined> {
  const urls = [templates[`../../../templates/${origin?.slug}.json`], kept[`../../../templates/editions/${origin?.slug}.${origin?.edition}.json`]];
  const [now, then] = await Promise.all(urls.map(async (url) => (url === undefined ? undefined : fetch(url).catch(() => undefined))));
  if (!now?.ok || !then?.ok) return undefined;
  const read = parseBook(await now.text());
  return read.ok ? { template: read.book, past: (await then.json()) as Edition } : undefined;
}

/** The book as it is opened. Without its template it says what it said when it was opened last. */
export async function opened(book: Book): Promise<Book> {
  const later = await laterEdition(book);
  return later ? withLacks(book, later.template, later.past) : book;
}

/** What takes in all that the book lacks. */
export async function taken(book: Book): Promise<Answer> {
  const later = await laterEdition(book);
  return later ? takeIn(book, later.template, later.past) : refused('The template could not be fetched: load the page again and try once more.');
}
