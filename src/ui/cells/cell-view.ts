/** What a cell shows and says, worked out of the book and the values: one place for the eye and the ear. */

import { GAP, MINUS, type ShownNumber, spokenNumber } from '../../../functions/number-text.ts';
import { readContent } from '../../../functions/quantity-text.ts';
import { fromBase, need, unit } from '../../../functions/units.ts';
import { type At, readReference } from '../../book/address.ts';
import { wholeCall } from '../../book/content.ts';
import { sameAs } from '../../book/ditto.ts';
import { addressOf, baseOf, columnHeading, decimalsOf, rowHeading, type Standing, standingOf, titleOf, unitOf } from '../../book/look-up.ts';
import type { Address, Value, Values } from '../../engine/types.ts';
import { BLANK, checkOf, numberOf, type State, textOfValue, whyOf } from '../../shown.ts';

export { lineOf, textOfValue, valueAt } from '../../shown.ts';

export interface CellView {
  readonly address: Address;
  readonly standing: Standing;
  readonly value: Value;
  readonly number?: ShownNumber;
  /** Text of a text cell; a check's margin. */
  readonly text: string;
  readonly state?: State;
  /** Of a check: how it is said. */
  readonly word?: string;
  /** Of an error: why, in the words of the cell. */
  readonly why?: string;
  /** Its value is not that of the base scenario. */
  readonly differs: boolean;
  /** "same as A": a given that points at its neighbour of another scenario. */
  readonly sameAs?: string;
  /** Of a worked number, against the base scenario: `+0.5 %`, `same`. */
  readonly difference: string;
}

/** The value of a cell; of a given that the engine has not come to yet, what its own content says. */
function valueOr(at: At, known: Value | undefined): Value {
  if (known) return known;
  const content = readContent(at.cell?.content ?? '');
  if (content.kind === 'number') return { kind: 'number', base: content.base, unit: unitOf(at) ?? content.unit };
  if (content.kind === 'text' || content.kind === 'yes or no') return content;
  return BLANK;
}

/** A given that only points at what is worked out beside it, such as the height that just reaches a limit, is worked out too. */
function shownStanding(at: At): Standing {
  const standing = standingOf(at);
  const reference = standing === 'as' && at.table.form === 'scenarios' ? readReference(at.cell?.content.slice(1) ?? '') : undefined;
  const row = reference?.table === undefined ? at.table.rows[reference?.from.row ?? -1] : undefined;
  return row && row.kind !== 'given' ? 'worked' : standing;
}

export function viewOf(at: At, values: Values): CellView {
  const base = baseOf(at);
  return viewBeside(at, values[addressOf(at)], base && values[addressOf(base)]);
}

/** The same where one knows what the engine gave for the cell, and for the one beside it in the base scenario. */
export function viewBeside(at: At, known: Value | undefined, knownBase: Value | undefined): CellView {
  const address = addressOf(at);
  const value = valueOr(at, known);
  const standing = shownStanding(at);
  const base = baseOf(at);
  const baseValue = base && valueOr(base, knownBase);
  const check = standing === 'check' ? checkOf(value) : undefined;
  const number = value.kind === 'number' ? numberOf({ ...value, unit: value.unit || unitOf(at) || '' }, decimalsOf(at)) : undefined;
  const text = check?.margin ?? textOfValue(value);
  const source = standing === 'as' ? sameAs(at) : undefined;
  const given = standing === 'given' || standing === 'as';
  return {
    address,
    standing,
    value,
    ...(number && { number }),
    text,
    ...(check && { state: check.state, word: check.word }),
    ...(value.kind === 'error' && { why: whyOf(value.message, titleOf(at)) }),
    differs: given && baseValue !== undefined && value.kind !== 'blank' && !readsAlike(value, baseValue),
    ...(source && { sameAs: columnHeading(source) }),
    difference: standing === 'worked' && baseValue && !isPlace(at) && !isMark(at) ? differenceText(value, baseValue) : '',
  };
}

/** A place in a list is no amount: the fourth row is not twice the second. The first letters tell most formulas apart without reading them through. */
function isPlace(at: At): boolean {
  const content = at.cell?.content ?? '';
  return /^=\s*MATCH\b/i.test(content) && wholeCall(content) === 'MATCH';
}

/** An IP code is two figures side by side, and no amount. */
const isMark = (at: At): boolean => /^IP\b/u.test(rowHeading(at));

/** Alike to what a reader can tell: the twelfth digit of a calculated number is dust. */
export function readsAlike(a: Value, b: Value): boolean {
  if (a.kind === 'number' && b.kind === 'number') return Math.abs(a.base - b.base) <= 1e-12 * Math.max(Math.abs(a.base), Math.abs(b.base));
  return a.kind === b.kind && textOfValue(a) === textOfValue(b);
}

export function differenceText(value: Value, base: Value): string {
  if (value.kind !== 'number' || base.kind !== 'number') return '';
  if (readsAlike(value, base)) return 'same';
  // A thermometer's zero is anywhere: twice as many degrees are not twice as warm.
  if (unit(value.unit)?.reading) return degreesBetween(value.base - base.base, value.unit === '°F' ? 'F°' : 'K');
  if (base.base === 0 || Math.sign(base.base) !== Math.sign(value.base || base.base)) return '';
  const percent = (value.base / base.base - 1) * 100;
  const size = Math.abs(percent);
  if (size < 0.05) return 'same';
  if (size >= 1000) return `×${GAP}${(value.base / base.base).toPrecision(3)}`;
  return `${percent > 0 ? '+' : MINUS}${size.toFixed(size < 9.95 ? 1 : 0)}${GAP}%`;
}

function degreesBetween(kelvin: number, symbol: 'K' | 'F°'): string {
  const degrees = fromBase(kelvin, need(symbol));
  const size = Math.abs(degrees).toFixed(1);
  return size === '0.0' ? 'same' : `${degrees > 0 ? '+' : MINUS}${size}${GAP}${symbol}`;
}

/** `45 centimetres`; a lone number without its unit. */
export function spokenValue(view: CellView): string {
  const { value, number } = view;
  if (number) return spokenNumber(number);
  if (value.kind === 'blank') return view.standing === 'given' ? 'not answered yet' : view.standing === 'blank' ? 'blank' : 'not worked out yet';
  if (value.kind === 'error') return `${value.word}. ${whyOf(value.message)}`;
  // A verdict counts: “fails 2: Evenness, Drop”.
  if (view.word) return view.text === '' ? view.word : `${view.word}${/^\d+: /.test(view.text) ? '' : ','} ${view.text}`;
  return view.text;
}

/** Within a sentence, what a value waits for: `unknown: Rail 45, L90 is not answered yet`. Empty where it waits for nothing. */
export const lacks = (value: Value): string =>
  value.kind === 'error' && value.word === 'not answered yet' ? `unknown: ${value.message.replace(/ \([^()]+\.[A-Z]+\d+\)|\.$/gu, '')}` : '';

/** The name by which a cell is read aloud: "Mount height, B: 45 centimetres, given, differs from A". */
export function spokenName(at: At, view: CellView): string {
  const base = baseOf(at);
  const parts = [`${titleOf(at)}: ${spokenValue(view)}`];
  if (view.sameAs !== undefined) parts.push(`same as ${view.sameAs}`);
  else if (view.standing === 'as') parts.push('given elsewhere');
  else if (view.standing !== 'head' && view.standing !== 'blank') parts.push(view.standing);
  if (view.differs && base) parts.push(`differs from ${columnHeading(base)}`);
  if (view.difference === 'same' && base) parts.push(`the same as ${columnHeading(base)}`);
  else if (view.difference !== '' && base) parts.push(`${view.difference.replace('+', 'plus ').replace(MINUS, 'minus ')} against ${columnHeading(base)}`);
  return parts.join(', ');
}
