/** A given that may move: from where to where, by whole numbers or over a list; and how a value of it is written. */
import { readContent, readQuantity, showNumber, withSpaces } from '../../../functions/quantity-text.ts';
import { fromBase, need, toBase, type Unit, unit } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import { choicesOf, resultLimits } from '../../book/allowed.ts';
import type { Book } from '../../book/book.ts';
import { picksOf } from '../../book/goes-with.ts';
import { addressOf, decimalsOf, rangeOf, standingOf, titleOf } from '../../book/look-up.ts';
import type { Address, Value } from '../types.ts';
import type { Workbook } from '../workbook.ts';

/** Limits in the unit in which the given is shown. */
interface Span {
  readonly low: number;
  readonly high: number;
}

export type Movable = {
  readonly at: At;
  readonly address: Address;
  readonly unit: Unit;
  /** Its present value in that unit; undefined where it has none. */
  readonly now: number | undefined;
} & (
  | ({ readonly moves: 'freely' | 'by whole numbers' } & Span)
  /** `ordered`: all are amounts, from the least to the greatest. */
  | { readonly moves: 'over a list'; readonly contents: readonly string[]; readonly ordered: boolean }
);

/** A given without limits is looked for up to so many times what it is. */
const WITHOUT_LIMITS = 10;

/** `from` and `to`: as they are typed; left out, what the given allows. */
export function movable(workbook: Workbook, book: Book, at: At, now: Value | undefined, from?: string, to?: string): Movable | { readonly refused: string } {
  const address = addressOf(at);
  const title = titleOf(at);
  const standing = standingOf(at);
  if (standing !== 'given' && standing !== 'as') return { refused: `${title} (${address}) is no given: only what is given can move.` };
  const follower = picksOf(book, at)?.followers[0];
  if (follower) return { refused: `${title} can’t move alone: ${titleOf(follower)} is picked with it.` };
  const u = unit(workbook.shownUnit(workbook.at(address))) ?? need('1');
  const number = now?.kind === 'number' ? fromBase(now.base, u) : undefined;
  const own = { at, address, unit: u, now: number };
  const range = rangeOf(at);
  const choices = (range && choicesOf(book, at, range)) ?? (now?.kind === 'yes or no' ? ['TRUE', 'FALSE'] : undefined);
  if (choices && from === undefined && to === undefined) return { ...own, moves: 'over a list', ...inOrder(choices, book.currency) };
  if (now?.kind === 'text' || now?.kind === 'yes or no') return { refused: `${title} is no number, and has no list of what it may be.` };
  const span = spanOf(book, at, u, number, from, to);
  if ('refused' in span) return span;
  if (!isWhole(at, u, number, span)) return { ...own, moves: 'freely', ...span };
  return { ...own, moves: 'by whole numbers', low: Math.ceil(span.low), high: Math.floor(span.high) };
}

/** Counts: what has no unit and is shown without decimals. */
function isWhole(at: At, u: Unit, now: number | undefined, { low, high }: Span): boolean {
  return u.symbol === '' && decimalsOf(at) === 0 && (now === undefined || Number.isInteger(now)) && Math.ceil(low) <= Math.floor(high);
}

function inOrder(choices: readonly string[], currency: string): { readonly contents: readonly string[]; readonly ordered: boolean } {
  const amounts = choices.map((content) => ({ content, read: readContent(content, currency) }));
  const ordered = amounts.every(({ read }) => read.kind === 'number');
  const base = ({ read }: (typeof amounts)[number]): number => (read.kind === 'number' ? read.base : 0);
  return { contents: (ordered ? amounts.toSorted((a, b) => base(a) - base(b)) : amounts).map(({ content }) => content), ordered };
}

function spanOf(book: Book, at: At, u: Unit, now: number | undefined, from?: string, to?: string): Span | { readonly refused: string } {
  const limits = resultLimits(book, at);
  const limit = (bound: number | undefined): number | undefined => (bound === undefined || !limits ? undefined : fromBase(toBase(bound, limits.unit), u));
  const ends: (number | undefined)[] = [limit(limits?.range.low), limit(limits?.range.high)];
  for (const [i, typed] of [from, to].entries()) {
    if (typed === undefined || typed.trim() === '') continue;
    const read = readQuantity(typed, { currency: book.currency, unit: u.symbol === '' ? '1' : u.symbol });
    if (read.kind !== 'number') return { refused: read.kind === 'refused' ? read.message : `“${typed}” is no value of ${titleOf(at)}.` };
    const said = fromBase(read.base, u);
    const allowed = ends[i];
    ends[i] = allowed === undefined ? said : i === 0 ? Math.max(allowed, said) : Math.min(allowed, said);
  }
  const far = now === undefined ? undefined : WITHOUT_LIMITS * now;
  const low = ends[0] ?? (far === undefined ? undefined : Math.min(0, far));
  const high = ends[1] ?? (far === undefined ? undefined : Math.max(0, far));
  if (low === undefined || high === undefined || low === high)
    return { refused: `${titleOf(at)} has no limits and no value to look about: say from where to where it may move.` };
  if (low > high) return { refused: `${titleOf(at)} can’t move from ${low} to ${high}: that is more than it may be, or the wrong way round.` };
  return { low, high };
}

/** A number in the given's unit, as cells store it. */
export const contentOf = (x: number, u: Unit): string => (u.symbol === '' ? String(x) : `${x} ${u.symbol}`);

/** The nearest number that is as short as the given shows; `towards`: the nearest that is not less, or not more. */
export function rounded(given: Movable, x: number, towards?: 'less' | 'more'): number {
  const { unit: u, at } = given;
  const step = stepOf(toBase(x, u), u, decimalsOf(at));
  const round = towards === undefined ? Math.round : towards === 'less' ? Math.floor : Math.ceil;
  const steps = x / step;
  // What the dividing left is no reason to go a step further.
  const near = Math.round(steps);
  const whole = Math.abs(steps - near) <= 1e-9 ? near : round(steps);
  return Number((whole * step).toPrecision(15));
}

/** What the last digit shown stands for: a tape has eighths of an inch. */
function stepOf(base: number, u: Unit, decimals: number | undefined): number {
  if (u.symbol === 'in') return 1 / 8;
  if (u.symbol === 'ft') return 1 / 96;
  if (decimals !== undefined) return 10 ** -decimals;
  const text = withSpaces(showNumber(base, u.symbol).fraction);
  return 10 ** -(/^\.(\d+)$/.exec(text)?.[1]?.length ?? 0);
}
