/** The paper: its size, what stands at the head and foot of every page, and the number of the page. */
import type { Paper } from '../book/customs.ts';
import type { Sheet } from './sheet.ts';

export const PAPERS = ['A4', 'letter'] as const satisfies readonly Paper[];
export type { Paper } from '../book/customs.ts';

/** A text as style sheets say it. Every sign that is no plain letter or digit is written by its number, so that no text can end the string or the style. */
const quoted = (text: string): string => `"${text.replace(/[^A-Za-z0-9 .,]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 63).toString(16)} `)}"`;

export function pageStyle({ reader, fingerprint }: Sheet, size: Paper): string {
  const { book, letter } = reader;
  const version = reader.named('plan_version')?.text;
  const name = [book.title, book.client, letter && `scenario ${letter}`, version && `version ${version}`, `book ${fingerprint}`].filter(Boolean).join(', ');
  const small = 'font: 7.5pt "Recursive", sans-serif; color: #444';
  return `@page {
  size: ${size};
  margin: 13mm 15mm 15mm;
  @bottom-left { content: ${quoted(name)}; ${small}; }
  @bottom-right { content: "page " counter(page) " of " counter(pages); ${small}; }
}`;
}
