/** What each column of the clients file is for, told by its heading. A heading that nothing knows is refused: a misspelt one must not pass for a default. */
import { unit } from '../../../functions/units.ts';
import { type At, cellAt } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { wentSaid } from '../../book/edition/said.ts';
import { addressOf, placeOf, standingOf, unitOf } from '../../book/look-up.ts';
import { ownHeading } from '../../book/other-writing.ts';
import { readHeading } from '../../files/csv/index.ts';
import { amongThese, WrongUse } from '../wrong-use.ts';

export type Target =
  /** A given, by its name or address, with the unit of bare numbers. */
  | { readonly to: 'given'; readonly heading: string; readonly address: string; readonly unit?: string }
  /** Who the client is: goes into the results and into the client's book. */
  | { readonly to: 'client' }
  /** Goes into the results as it is. */
  | { readonly to: 'results'; readonly heading: string }
  /** The reason of an earlier run, where its rejected rows were mended: passed over. */
  | { readonly to: 'nothing' };

export const REASON = 'rejected because';

export function readTargets(book: Book, headings: readonly string[], carried: readonly string[]): Target[] {
  const targets = headings.map((heading) => targetOf(book, heading, carried));
  const seen = new Set<string>();
  for (const [i, target] of targets.entries()) {
    const key = target.to === 'given' ? target.address : target.to === 'client' ? 'client' : `= ${i}`;
    if (seen.has(key)) throw new WrongUse(`two columns are for the same thing; the second is “${headings[i]}”`);
    seen.add(key);
  }
  const missing = carried.find((name) => !targets.some((target) => target.to === 'results' && same(target.heading, name)));
  if (missing !== undefined) throw new WrongUse(`--carry ${missing}: there is no such column`);
  return targets;
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

function targetOf(book: Book, text: string, carried: readonly string[]): Target {
  if (carried.some((name) => same(name, text))) return { to: 'results', heading: text };
  if (same(text, 'client')) return { to: 'client' };
  if (same(text, REASON)) return { to: 'nothing' };
  const { title, unit: symbol, unknown } = readHeading(text, book.currency);
  const at = placeOf(book, ownHeading(title));
  if (!at || !isGiven(at)) throw new WrongUse(at ? `column “${text}”: ${title} is worked out, not given` : notKnown(book, text, title));
  if (unknown !== undefined) throw new WrongUse(`column “${text}”: ${unknown} is no unit, or not one of this book's currency, ${book.currency}`);
  const shown = unitOf(at);
  if (symbol !== undefined && shown !== undefined && isOther(symbol, shown)) throw new WrongUse(`column “${text}”: ${title} takes ${shown} or the like`);
  return { to: 'given', heading: title, address: addressOf(at), ...(symbol !== undefined && { unit: symbol }) };
}

const isGiven = (at: At): boolean => ['given', 'as', 'blank'].includes(standingOf(at));

function isOther(a: string, b: string): boolean {
  const [x, y] = [unit(a), unit(b)];
  return !!x && !!y && (x.dimension !== y.dimension || x.reading !== y.reading);
}

function notKnown(book: Book, text: string, title: string): string {
  const names = Object.keys(book.names).filter((name) => {
    const at = cellAt(book, (book.names[name] ?? '').replaceAll('$', ''));
    return at !== undefined && isGiven(at);
  });
  const went = wentSaid(book, title);
  if (went !== undefined) return `column “${text}”: ${went}`;
  return `column “${text}”: no given has this name; ${amongThese(title, names)}. A column that is not for the plan can come along with --carry "${text}"`;
}
