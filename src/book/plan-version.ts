import type { Book } from './book.ts';
import { placeOf } from './look-up.ts';

/** Which plan of several alike it is, as its sheet says: "version 2 of 2027-01-08"; empty in a book that says neither. */
export function planVersion(book: Book): string {
  const [version, date] = ['plan_version', 'plan_date'].map((name) => placeOf(book, name)?.cell?.content ?? '');
  return [version && `version ${version}`, date && `of ${date}`].filter(Boolean).join(' ');
}
