/** The book file: written, read, checked, and what can be saved of one that is broken. */
export { type BookRead, formatBook, MOST_CHARACTERS, parseBook, TOO_LARGE } from './book-file.ts';
export { checksum } from './checksum.ts';
