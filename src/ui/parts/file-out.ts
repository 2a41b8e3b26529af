/** A file that the page hands to the browser, and what one of a book is called. */
import type { Book } from '../../book/book.ts';

export const fileName = (book: Book): string =>
  [book.title, book.client]
    .filter(Boolean)
    .join(', ')
    .replace(/[\\/:*?"<>|\p{Cc}]+/gu, ' ')
    .trim()
    .slice(0, 80) || 'light plan';

export function handOver(name: string, text: string, type: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  // The browser needs the address until it has begun to save.
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
