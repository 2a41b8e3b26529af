import { readFileSync } from 'node:fs';
import type { Book } from '../book/book.ts';
import { withLacks } from '../book/edition/lacks.ts';
import { lacksSaid } from '../book/edition/said.ts';
import { createEngine } from '../engine/engine.ts';
import { parseBook } from '../files/book/index.ts';
import { openSession, type Session } from '../session.ts';
import { laterEdition } from './templates.ts';
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
  return openText(text, file, undefined, true);
}

/** Opens the text of a book file or of a template; `made`: what of it is opened; `kept`: it may be of an earlier edition, which is said. */
export async function openText(text: string, called: string, made: (book: Book) => Book = (book) => book, kept = false): Promise<Session> {
  const read = parseBook(text);
  if (!read.ok) throw new Failure(`${called}: ${read.message}${read.rescued ? ' The page opens what can be read.' : ''}`);
  for (const sentence of read.said ?? []) console.error(`${called}: ${sentence}`);
  const later = kept ? await laterEdition(read.book) : undefined;
  const book = withLacks(read.book, later?.template, later?.past);
  const lacks = kept ? lacksSaid(book) : '';
  if (lacks !== '') console.error(`${called}: ${lacks} overbench take-in takes that in.`);
  const session = openSession(made(book), createEngine());
  await session.settled();
  if (session.trouble !== undefined) throw new Failure(`${called}: ${session.trouble}`);
  return session;
}
