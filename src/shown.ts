/** What a value says in a line, and how a check stands: the same on the page, on paper and in files that go out. */
import { type ShownNumber, showDecimal, showNumber } from '../functions/number-text.ts';
import type { Address, Value, Values } from './engine/types.ts';

/** A check says how it stands first: `holds, 3.4 % under`. What is assumed holds only as far as an assumption does. */
export type State = 'holds' | 'assumed' | 'look' | 'fails' | 'unknown';

export interface Check {
  readonly state: State;
  /** How it is said: a verdict that rests on assumptions is `holds, 2 assumed: …`. */
  readonly word: string;
  /** What is said after the word. */
  readonly margin: string;
}

export const BLANK: Value = { kind: 'blank' };
const STATE = /^(holds|assumed|close to limit|look|fails|unknown)\b[\s,:;]*/i;
/** How a state is said; in formulas of books begun earlier the check that is close to its limit says look. */
export const wordOf = (state: State): string => (state === 'look' ? 'close to limit' : state);
/** After the word of a verdict: what it assumes, or checks that it lacks. */
const SOME_ASSUMED = /^\d+ (?:assumed|checks?)\b/i;

/** A function's name before what it says, or within. */
const CALLED = /(^|: )[A-Z][A-Z0-9]*(?:\.[A-Z0-9]+)*: /gu;

/** How sentences begin that are the calculator's: they name no cell. */
const OF_NO_CELL =
  /^(?:This (?!cell )|There is no number that|The look-up found|The function was given|The ranges given|A number was needed|A range of cells such|A whole number is|An argument is)/u;

/** Why there is no value, in the words of the cell: the function's name before it is for whoever writes the formula. Without a title, as a sentence. */
export function whyOf(message: string, title = ''): string {
  const plain = message.replace(CALLED, '$1');
  if (plain === message) return title !== '' && OF_NO_CELL.test(message) ? `${title}: ${message.charAt(0).toLowerCase()}${message.slice(1)}` : message;
  return title === '' ? plain.charAt(0).toUpperCase() + plain.slice(1) : `${title}: ${plain}`;
}

export function valueAt(values: Values, address: Address): Value {
  return values[address] ?? BLANK;
}

export function checkOf(value: Value): Check | undefined {
  if (value.kind === 'yes or no') return { state: value.yes ? 'holds' : 'fails', word: value.yes ? 'holds' : 'fails', margin: '' };
  if (value.kind !== 'text') return undefined;
  const match = STATE.exec(value.text);
  if (!match?.[1]) return undefined;
  const first = match[1].toLowerCase();
  const word = (first === 'close to limit' ? 'look' : first) as State;
  const margin = value.text.slice(match[0].length);
  return { state: word === 'holds' && SOME_ASSUMED.test(margin) ? 'assumed' : word, word: wordOf(word), margin };
}

/** How a check stands before and after a change; undefined where it stands as it stood, and for what is no check. */
export function turnOf(before: Value, after: Value): { readonly from: Check; readonly to: Check } | undefined {
  const [from, to] = [checkOf(before), checkOf(after)];
  return from && to && from.state !== to.state ? { from, to } : undefined;
}

export function textOfValue(value: Value): string {
  if (value.kind === 'text') return value.shown ?? value.text;
  if (value.kind === 'yes or no') return value.yes ? 'yes' : 'no';
  if (value.kind === 'error') return value.word;
  return '';
}

/** A value in a line of a working: with decimals, so that the line can be worked again. */
export const workedLine = (value: Value): string => (value.kind === 'number' ? showDecimal(value.base, value.unit).text : textOfValue(value));

/** The parts of a number, for columns whose points stand under one another. */
export function numberOf({ base, unit, shown }: Extract<Value, { kind: 'number' }>, decimals?: number): ShownNumber {
  if (shown === undefined) return showNumber(base, unit, decimals);
  const at = shown.lastIndexOf(' ');
  return { sign: '', whole: shown.slice(0, at), fraction: '', unit: shown.slice(at + 1), text: shown };
}

/** A value in one line: `45 cm`, `9 Rail 90`, `unit error`. */
export function lineOf(value: Value, decimals?: number): string {
  return value.kind === 'number' ? numberOf(value, decimals).text : textOfValue(value);
}
