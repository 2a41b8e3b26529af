import { readFileSync } from 'node:fs';
import type { Book } from '../book/book.ts';
import { createEngine } from '../engine/engine.ts';
import { parseBook } from '../files/book-file.ts';
import { openSession, type Session } from '../session.ts';
import { Failure } from './wrong-use.ts';

/** Opens a book file with everything worked out. The file itself is only read. */
export async function openBook(file: string): Promise<Session> {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    throw new Failure(code === 'ENOENT' ? `there is no file ${file}` : `can't read ${file}: ${message}`);
  }
  return openText(text, file);
}

/** Opens the text of a book file or of a template; `made`: what of it is opened. */
export async function openText(text: string, called: string, made: (book: Book) => Book = (book) => book): Promise<Session> {
  const read = parseBook(text);
  if (!read.ok) throw new Failure(`${called}: ${read.message}${read.rescued ? ' The page opens what can be read.' : ''}`);
  const session = openSession(made(read.book), createEngine());
  await session.settled();
  if (session.trouble !== undefined) throw new Failure(`${called}: ${session.trouble}`);
  return session;
}
