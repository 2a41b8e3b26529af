/** What a worked cell is to come to, as it was typed: an amount, a word, or another cell. */
import { readQuantity } from '../../../functions/quantity-text.ts';
import { quantityName, unit } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import { addressOf, placeOf, titleOf } from '../../book/look-up.ts';
import { ownAddress } from '../../book/other-writing.ts';
import type { Address, Value } from '../types.ts';
import type { Workbook } from '../workbook.ts';
import type { Sample } from './sample.ts';

export type Aim =
  | { readonly kind: 'amount'; readonly base: number /** As a formula says it. */; readonly written: string }
  | { readonly kind: 'cell'; readonly address: Address }
  | { readonly kind: 'words'; readonly said: string };

/** `now`: what the cell comes to by now. */
export function readAim(workbook: Workbook, at: At, now: Value | undefined, typed: string): Aim | { readonly refused: string } {
  const { book } = workbook.sheets;
  const text = typed.trim().replace(/^=\s*/, '');
  if (!book || text === '') return { refused: `Say what ${titleOf(at)} should be.` };
  const other = placeOf(book, /^\$?[a-z]{1,3}\$?\d+$/i.test(text) ? addressOf(at).replace(/[^.]+$/, text.replaceAll('$', '')) : ownAddress(text));
  if (other) return another(workbook, at, now, other);
  if (now?.kind === 'text' || now?.kind === 'yes or no') return { kind: 'words', said: text.toLowerCase() };
  const position = workbook.at(addressOf(at));
  const symbol = now?.kind === 'number' ? now.unit : workbook.shownUnit(position);
  // What can't be worked out by now may be of any quantity.
  const sure = now?.kind === 'number' || workbook.quantities.kindOf(position).is === 'number';
  const read = readQuantity(text, { currency: book.currency, ...(symbol !== '' ? { unit: symbol } : sure && { unit: '1' }) });
  if (read.kind === 'number') return { kind: 'amount', base: read.base, written: read.unit === '' ? String(read.value) : `UNIT(${read.value},"${read.unit}")` };
  if (!sure) return { kind: 'words', said: text.toLowerCase() };
  return { refused: read.kind === 'refused' ? read.message : `${titleOf(at)} is a number; “${text}” is none.` };
}

function another(workbook: Workbook, at: At, now: Value | undefined, other: At): Aim | { readonly refused: string } {
  const address = addressOf(other);
  if (address === addressOf(at)) return { refused: `${titleOf(at)} is what it is: say another cell, or a value.` };
  const there = workbook.valueAt(workbook.at(address));
  if (there.kind === 'error') return { refused: `${titleOf(other)} (${address}) can’t be worked out: ${there.message}` };
  const [a, b] = [now, there].map((value) => (value?.kind === 'number' ? unit(value.unit) : undefined));
  if (there.kind !== 'number' || !b) return { refused: `${titleOf(other)} (${address}) is no number that ${titleOf(at)} could come to.` };
  if (a && a.dimension !== b.dimension)
    return {
      refused: `${titleOf(at)} is ${quantityName(a.dimension, a.reading)}; ${titleOf(other)} (${address}) is ${quantityName(b.dimension, b.reading)}: the two can’t be equal.`,
    };
  return { kind: 'cell', address };
}

/** What a function's own rounding leaves of two values that are the same. */
const SAME = 2e-14;

/** How far a value is from what is wanted. Of words only whether it is that. `other`: what the other cell comes to. */
export function distance(x: number, aim: Aim, value: Value, other: Value | undefined): Sample {
  if (aim.kind === 'words') return { x, f: value.kind === 'error' ? Number.NaN : says(value, aim.said) ? 0 : 1, size: 1 };
  const wanted = aim.kind === 'amount' ? aim.base : other?.kind === 'number' ? other.base : Number.NaN;
  const is = value.kind === 'number' ? value.base : Number.NaN;
  const size = Math.max(Math.abs(is), Math.abs(wanted));
  const f = is - wanted;
  return { x, f: Math.abs(f) <= SAME * size ? 0 : f, size };
}

const YES = /^(yes|true)$/;

/** A check says how it stands first: "holds" is `holds, 3.4 % under`. */
function says(value: Value, said: string): boolean {
  if (value.kind === 'yes or no') return value.yes === YES.test(said);
  if (value.kind !== 'text') return false;
  const text = value.text.toLowerCase();
  return text === said || (text.startsWith(said) && /^[\s,:;]/.test(text.slice(said.length)));
}
