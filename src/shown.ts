/** What a value says in a line, and how a check stands: the same on the page, on paper and in files that go out. */
import { showNumber } from '../functions/number-text.ts';
import type { Address, Value, Values } from './engine/types.ts';

/** A check says how it stands first: `holds, 3.4 % under`. */
export type State = 'holds' | 'look' | 'fails' | 'unknown';

export const BLANK: Value = { kind: 'blank' };
const STATE = /^(holds|look|fails|unknown)\b[\s,:;]*/i;

export function valueAt(values: Values, address: Address): Value {
  return values[address] ?? BLANK;
}

export function checkOf(value: Value): { state: State; margin: string } | undefined {
  if (value.kind === 'yes or no') return { state: value.yes ? 'holds' : 'fails', margin: '' };
  if (value.kind !== 'text') return undefined;
  const match = STATE.exec(value.text);
  return match?.[1] ? { state: match[1].toLowerCase() as State, margin: value.text.slice(match[0].length) } : undefined;
}

export function textOfValue(value: Value): string {
  if (value.kind === 'text') return value.text;
  if (value.kind === 'yes or no') return value.yes ? 'yes' : 'no';
  if (value.kind === 'error') return value.word;
  return '';
}

/** A value in one line: `45 cm`, `9 Rail 90`, `unit error`. */
export function lineOf(value: Value, decimals?: number): string {
  return value.kind === 'number' ? showNumber(value.base, value.unit, decimals).text : textOfValue(value);
}
