/** What kind of thing a cell or a part of a formula is. The shown unit is no part of it. */
import { aQuantity, type Dimension, PLAIN, type Unit } from '../../../functions/units.ts';
import type { Position } from '../addresses.ts';
import type { Mend } from '../types.ts';

export type Kind = NumberKind | TextKind | YesKind | AnyKind | MixedKind | Fail;

export interface NumberKind {
  readonly is: 'number';
  readonly dimension: Dimension;
  /** A thermometer reading, whose origin is 0 °C; differences are no readings. */
  readonly reading: boolean;
}

interface TextKind {
  readonly is: 'text';
  /** It reads as a number, and the calculator would reckon with it as one that has no unit. */
  readonly digits?: true;
}

interface YesKind {
  readonly is: 'yes or no';
}

/** A blank, or a written 0: joins any quantity. */
interface AnyKind {
  readonly is: 'any';
}

/** Only of ranges: cells of several kinds, with one of each of two of them. */
interface MixedKind {
  readonly is: 'mixed';
  readonly one: { readonly at: Position; readonly kind: Kind };
  readonly other: { readonly at: Position; readonly kind: Kind };
}

/** A mistake of quantities. All that reads it is the same mistake. */
export interface Fail {
  readonly is: 'fail';
  readonly message: string;
  /** The cell where it began. */
  readonly at: Position;
  readonly mend?: Mend;
}

const kinds = new Map<Dimension, NumberKind>();

/** One object for each kind of number: two kinds are the same when they are the same object. */
export function numberKind(dimension: Dimension): NumberKind {
  const known = kinds.get(dimension);
  if (known) return known;
  const made: NumberKind = { is: 'number', dimension, reading: false };
  kinds.set(dimension, made);
  return made;
}

export const plainNumber = numberKind(PLAIN);
export const text: Kind = { is: 'text' };
export const digitsAsText: Kind = { is: 'text', digits: true };

const DIGITS = /^\s*[-+$]?\s*(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?\s*%?\s*$/i;

export const kindOfText = (content: string): Kind => (DIGITS.test(content) ? digitsAsText : text);
export const yesOrNo: Kind = { is: 'yes or no' };
export const any: Kind = { is: 'any' };

let readings: NumberKind | undefined;
export function kindOfUnit(u: Unit): NumberKind {
  if (!u.reading) return numberKind(u.dimension);
  readings ??= { is: 'number', dimension: u.dimension, reading: true };
  return readings;
}

/** A number with a dimension: not a plain one. */
export const isQuantity = (kind: Kind): kind is NumberKind => kind.is === 'number' && kind !== plainNumber;

/** A kind that takes part in sums as a plain number. */
export const isPlain = (kind: Kind): boolean => kind === plainNumber || kind === yesOrNo || kind === any;

/** What arithmetic makes of a kind: TRUE counts as 1. */
export const numeric = (kind: Kind): Kind => (kind === yesOrNo || kind.is === 'text' ? plainNumber : kind);

export function sameKind(a: Kind, b: Kind): boolean {
  if (a === b) return true;
  if (a.is === 'fail' && b.is === 'fail') return a.message === b.message && samePosition(a.at, b.at) && JSON.stringify(a.mend) === JSON.stringify(b.mend);
  if (a.is === 'mixed' && b.is === 'mixed')
    return a.one.kind === b.one.kind && a.other.kind === b.other.kind && samePosition(a.one.at, b.one.at) && samePosition(a.other.at, b.other.at);
  return false;
}

export const samePosition = (a: Position, b: Position): boolean => a.sheet === b.sheet && a.row === b.row && a.col === b.col;

/** "a length", "a plain number", "text". */
export function kindWords(kind: Kind): string {
  if (kind.is === 'number') return aQuantity(kind.dimension, kind.reading);
  if (kind.is === 'text') return kind.digits ? 'a number kept as text' : 'text';
  if (kind.is === 'yes or no') return 'a yes or no';
  if (kind.is === 'mixed') return `${kindWords(kind.one.kind)} and ${kindWords(kind.other.kind)}`;
  return kind.is === 'any' ? 'a blank' : 'a unit error';
}
