/**
 * Answers that are picked together. Of one list (Crops) a given takes a text of one column, and others beside it, its followers, take texts of later columns: a
 * crop and its stage. Whoever answers the first may pick a whole line, "tomato, fruiting"; or says the first alone, and what can only be meant follows.
 */
import { type At, placeIn } from './address.ts';
import type { Book, Cell } from './book.ts';
import { isFormula, plainText } from './content.ts';
import { alsoCalled } from './crop-words.ts';
import { sourceIn } from './look-up.ts';
import { tellerOver } from './said-by.ts';

/** A given beside the one that is asked about, with the column of the list that it takes its text from. */
export interface Picker {
  readonly at: At;
  readonly column: number;
}

export interface Picks {
  readonly followers: readonly At[];
  /** Contents of the list, row by row: of the first given's column, then of each follower's. */
  readonly lines: readonly (readonly string[])[];
}

/** All beside a given, itself among them, that take their texts from its list, by its columns. */
export function pickersOf(book: Book, at: At): readonly Picker[] {
  const own = sourceIn(book, at);
  // The cells of a look-up list are no answers, and there may be very many of them.
  const all = own && at.table.form !== 'list' ? at.table.rows.map((_, row) => placeIn(at.table, at.columnIndex, row) as At) : [];
  return all
    .flatMap((other) => {
      const its = sourceIn(book, other);
      return its?.list === own?.list && its ? [{ at: other, column: its.column }] : [];
    })
    .sort((a, b) => a.column - b.column);
}

/** Undefined where nothing follows upon the given, or the list is worked out. */
export function picksOf(book: Book, at: At): Picks | undefined {
  const own = sourceIn(book, at);
  const later = own ? pickersOf(book, at).filter(({ column }) => column > own.column) : [];
  if (!own || later.length === 0) return undefined;
  const columns = [own.column, ...later.map(({ column }) => column)];
  const lines = own.list.rows
    .slice(own.from, own.to + 1)
    .map((_, i) => columns.map((column) => placeIn(own.list, column, own.from + i)?.cell?.content ?? ''))
    .filter(([first]) => first);
  return lines.flat().some(isFormula) ? undefined : { followers: later.map((one) => one.at), lines };
}

export const same = (a: string, b: string): boolean => plainText(a).trim().toLowerCase() === plainText(b).trim().toLowerCase();
export const textOfLine = (line: readonly string[]): string => line.filter(Boolean).map(plainText).join(', ');

/** The lines that may be picked whole, in words; undefined where nothing follows upon the given. */
export const wholeLines = (book: Book, at: At): readonly string[] | undefined => picksOf(book, at)?.lines.map(textOfLine);

/** The line that the given and its followers stand at, in words. */
export function standingLine(book: Book, at: At): string | undefined {
  const picks = picksOf(book, at);
  const stands = [at, ...(picks?.followers ?? [])].map(({ cell }) => cell?.content ?? '');
  const line = picks?.lines.find((each) => each.every((content, i) => same(content, stands[i] ?? '')));
  return line && textOfLine(line);
}

/** Those that hold every word, plural or not, in whatever order: first those that begin as what is wanted does, last those that are only also called so. */
export function fitting(texts: readonly string[], wanted: string): readonly string[] {
  const said = saying(texts, wanted);
  const words = wordsOf(wanted);
  const also = texts.filter((text) => !said.includes(text) && holds(`${text} ${alsoCalled(text)}`, words));
  return [...said, ...also];
}

/** Those that say every word themselves. */
export function saying(texts: readonly string[], wanted: string): readonly string[] {
  const lower = wanted.trim().toLowerCase();
  const words = wordsOf(wanted);
  const late = (text: string): number => Number(!text.toLowerCase().startsWith(lower));
  return texts.filter((text) => holds(text, words)).sort((a, b) => late(a) - late(b));
}

const wordsOf = (text: string): readonly string[] =>
  text
    .trim()
    .toLowerCase()
    .split(/[\s,]+/u)
    .map((word) => (word.length > 3 ? word.replace(/s$/u, '') : word));

const holds = (text: string, words: readonly string[]): boolean => words.every((word) => text.toLowerCase().includes(word));

/** Whether several lines have a text for their first answer: it means itself then, and none of them. */
export const isWhole = (lines: readonly string[], text: string): boolean =>
  lines.filter((line) => line.toLowerCase().startsWith(`${text.trim().toLowerCase()}, `)).length > 1;

/** A given, and what stands there from now on. */
export interface Answered {
  readonly at: At;
  readonly after: Cell;
}

/** An answer with what follows upon it. `said`: who answered. `isAnswered`: a follower that has an answer of its own. */
export function together(book: Book, answer: Answered, said?: string, isAnswered?: (at: At) => boolean): readonly Answered[] {
  const { at, after } = answer;
  const picks = picksOf(book, at);
  if (!picks) return [answer];
  const whole = picks.lines.find((line) => same(textOfLine(line), after.content));
  const first = whole?.[0] ?? after.content;
  let left = picks.lines.filter((line) => same(line[0] ?? '', first));
  const follow = picks.followers.flatMap((follower, i): Answered[] => {
    const now = follower.cell?.content ?? '';
    const may = [...new Set(left.map((line) => line[i + 1] ?? ''))];
    const only = may.length === 1 && !may.some((one) => same(one, now)) ? may[0] : undefined;
    const next = whole?.[i + 1] ?? only ?? now;
    left = left.filter((line) => same(line[i + 1] ?? '', next));
    if (isFormula(now) || isAnswered?.(follower) || !(whole || only)) return [];
    const { typed: _, ...kept } = follower.cell ?? { content: '' };
    const source = whole ? (said ?? tellerOver(follower)) : `default: there is no other for ${plainText(first)}`;
    return [{ at: follower, after: { ...kept, content: next, ...(source && { source }) } }];
  });
  const { typed: _, ...kept } = after;
  return [whole ? { at, after: { ...kept, content: first } } : answer, ...follow];
}
