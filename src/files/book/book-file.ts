/**
 * The book file: the book's own JSON with a checksum of its canonical text beside the other fields. A template is the same without the checksum,
 * so that it can be edited by hand. What is stored is exactly what was typed.
 */
import { counted } from '../../../functions/quantity-text.ts';
import type { Book } from '../../book/book.ts';
import { canonical, canonicalText } from '../../book/canonical.ts';
import { checkBook } from '../../book/check.ts';
import { migrate } from '../../book/migrate.ts';
import { DEEPEST, MOST_VALUES, TOO_DEEP, TOO_MUCH } from '../../book/size.ts';
import { checksum } from './checksum.ts';
import { rescue } from './rescue.ts';

export type FileProblem = 'empty' | 'too large' | 'not a book' | 'cut short' | 'altered' | 'newer' | 'damaged';

export type BookRead =
  | {
      readonly ok: true;
      readonly book: Book;
      /** What became another as it was brought to the present version, in sentences, where whoever opens it should know. */
      readonly said?: readonly string[];
    }
  | {
      readonly ok: false;
      readonly problem: FileProblem;
      /** What is wrong, and what could be read all the same. */
      readonly message: string;
      /** The problems one by one, where there are several. */
      readonly details: readonly string[];
      /** What could be read, if it makes a book: to be opened only by someone who has been told. */
      readonly rescued?: Book;
    };

/** Also in bytes, of which there are no fewer: what has more need not be read at all. */
export const MOST_CHARACTERS = 200_000_000;
export const TOO_LARGE = 'The file is larger than any book can be.';
const NOT_OURS = 'This is not a book that Overbench has made.';

export function formatBook(book: Book): string {
  const { format, version, ...rest } = canonical(book);
  return `${JSON.stringify({ format, version, checksum: checksum(canonicalText(book)), ...rest }, null, 1)}\n`;
}

/** Reads a book file or a template of any version up to the current one. Never throws, and never gives less than the file holds without saying so. */
export function parseBook(text: string): BookRead {
  try {
    return read(text);
  } catch (error) {
    return failure('damaged', `The file can't be read as a book. (${error instanceof Error ? error.message : String(error)})`);
  }
}

function read(text: string): BookRead {
  if (text.length > MOST_CHARACTERS) return failure('too large', TOO_LARGE);
  if (text.trim() === '') return failure('empty', 'The file is empty.');
  const beyond = beyondBounds(text);
  if (beyond) return failure('too large', `The file can't be opened as a book. ${beyond}`);
  let stored: unknown;
  try {
    stored = JSON.parse(text.replace(/^\uFEFF/u, ''));
  } catch {
    return brokenText(text);
  }
  if (!isRecord(stored) || stored.format !== 'overbench book') return failure('not a book', NOT_OURS);
  const { checksum: written, ...content } = stored;
  const migrated = migrate(content);
  if (!migrated.ok) return failure(migrated.newer ? 'newer' : 'damaged', `The book can't be opened. ${migrated.message}`);
  const checked = checkBook(migrated.book);
  if (!checked.ok) return failure('damaged', `The book can't be opened. ${checked.problems[0] ?? ''}${more(checked.problems.length - 1)}`, checked.problems);
  // The checksum is of the text that was written, so it is that version's content which must give it again.
  if (written !== undefined && written !== checksum(canonicalText(content))) {
    const message =
      'The file was altered or damaged after it was saved: its content does not match its checksum. All of it can be read; look it through before you rely on it.';
    return { ...failure('altered', [message, ...migrated.said].join(' ')), rescued: checked.book };
  }
  return { ok: true, book: checked.book, ...(migrated.said.length > 0 && { said: migrated.said }) };
}

function brokenText(text: string): BookRead {
  if (!/^\uFEFF?\s*\{/u.test(text) || !text.includes('"overbench book"')) return failure('not a book', NOT_OURS);
  const { found, cut } = rescue(text);
  const what = cut ? 'The file stops in the middle: the end of it is missing.' : 'The file is damaged: from some place on it can’t be read.';
  const problem = cut ? 'cut short' : 'damaged';
  if (!found) return failure(problem, `${what} Nothing of the book could be read.`);
  const { checksum: _, ...content } = found;
  const migrated = migrate(content);
  const checked = migrated.ok ? checkBook(migrated.book) : undefined;
  if (!checked?.ok) return failure(problem, `${what} What could be read does not make a book.`);
  const { book } = checked;
  const cells = book.tables.reduce((sum, table) => sum + Object.values(table.cells).reduce((n, line) => n + Object.keys(line).length, 0), 0);
  const told = migrated.ok ? migrated.said : [];
  const message = `${what} What could be read of “${book.title}”: ${counted(book.tables.length, 'table')} with ${counted(cells, 'cell')}, ${counted(book.pages.length, 'page')}.`;
  return { ...failure(problem, [message, ...told].join(' ')), rescued: book };
}

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COMMA = 0x2c;
/** [ and {, ] and }: a brace differs from its bracket in one bit. */
const OPENS = 0x7b;
const CLOSES = 0x7d;
const BRACE = 0x20;

/** Why the text can hold no book, by its brackets and commas alone: found in one pass, before anything is made of it. */
function beyondBounds(text: string): string | undefined {
  let depth = 0;
  let values = 0;
  let inText = false;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (inText) {
      if (code === BACKSLASH) at++;
      else if (code === QUOTE) inText = false;
    } else if (code === QUOTE) inText = true;
    else if (code === COMMA) values++;
    else if ((code | BRACE) === OPENS) {
      values++;
      if (++depth > DEEPEST) return TOO_DEEP;
    } else if ((code | BRACE) === CLOSES) depth--;
    if (values > MOST_VALUES) return TOO_MUCH;
  }
  return undefined;
}

const failure = (problem: FileProblem, message: string, details: readonly string[] = []) => ({ ok: false, problem, message, details }) as const;
const more = (n: number): string => (n > 0 ? ` (and ${counted(n, 'more problem')})` : '');
const isRecord = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null && !Array.isArray(x);
