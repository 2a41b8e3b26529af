/** Sheets made in this process, and what a reader finds in them. */
import { readFileSync } from 'node:fs';
import type { Book } from '../../src/book/book.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { sheetFile } from '../../src/handover/file.ts';
import type { Paper } from '../../src/handover/page-style.ts';
import { gather, type Sheet } from '../../src/handover/sheet.ts';
import { openSession, type Session } from '../../src/session.ts';

export interface Made {
  readonly session: Session;
  readonly sheet: Sheet;
  /** The file, whole. */
  file(paper?: Paper): string;
  /** What stands in its body. */
  readonly body: string;
}

const font = (name: string): string =>
  `data:font/woff2;base64,${readFileSync(new URL(`../../src/ui/fonts/${name}.woff2`, import.meta.url)).toString('base64')}`;
const letters = { literata: font('literata'), recursive: font('recursive') };

export async function make(book: Book, scenario?: string): Promise<Made> {
  const session = openSession(book, createEngine());
  await session.settled();
  return makeFrom(session, scenario);
}

/** Another sheet of a book that is open already: to open one takes longer than to make its sheet. */
export async function makeFrom(session: Session, scenario?: string): Promise<Made> {
  const sheet = await gather(session.book, session.values, (question) => session.ask(question), scenario);
  const file = (paper: Paper = 'A4'): string => sheetFile(sheet, paper, letters);
  return { session, sheet, file, body: /<body[^>]*>([\s\S]*)<\/body>/.exec(file())?.[1] ?? '' };
}

const SIGNS: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

/** The text of a piece of markup, as a reader sees it. */
export const textOf = (markup: string): string => markup.replace(/<[^>]*>/g, '').replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => SIGNS[name] ?? '');

/** From the start of an element's content to its end, elements of the same kind within it counted. */
function contentFrom(markup: string, tag: string, from: number): string {
  const marks = new RegExp(`<(/?)${tag}\\b`, 'g');
  marks.lastIndex = from;
  let depth = 1;
  for (let mark = marks.exec(markup); mark; mark = marks.exec(markup)) {
    depth += mark[1] === '/' ? -1 : 1;
    if (depth === 0) return markup.slice(from, mark.index);
  }
  throw new Error(`An element ${tag} is not closed.`);
}

export interface Marked {
  readonly target: string;
  readonly text: string;
  /** The element, whole. */
  readonly start: number;
  readonly end: number;
}

/** Every element that carries this attribute, with its text. */
export function marked(markup: string, attribute: string): readonly Marked[] {
  return [...markup.matchAll(new RegExp(`<(\\w+)\\b[^>]*?\\s${attribute}="([^"]*)"[^>]*>`, 'g'))].map((match) => {
    const from = match.index + match[0].length;
    const content = contentFrom(markup, match[1] ?? '', from);
    return { target: textOf(match[2] ?? ''), text: textOf(content), start: match.index, end: from + content.length };
  });
}

/** A section by its class. */
export function section(markup: string, name: string): string {
  const open = new RegExp(`<section class="[^"]*\\b${name}\\b[^"]*">`).exec(markup);
  if (!open) throw new Error(`There is no section ${name}.`);
  return contentFrom(markup, 'section', open.index + open[0].length);
}
