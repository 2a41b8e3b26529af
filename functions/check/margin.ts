/** How the checks word a margin, and what they take for a limit. */
import { NO_HIGH_END } from '../crop/crop-range.ts';
import { calc, isRefusal, type Refusal, refuse, type Show } from '../define.ts';

export const NO_LIMIT = 'unknown, no limit given';

/** How a check begins whose margin is small: it works, and is to be watched. */
export const CLOSE = 'close to limit';

/** Two values that differ by binary dust are the same. */
const SAME = 1e-9;
export const same = (a: number, b: number): boolean => Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b));

const MANY_TIMES = 1e4;

/** A share in percent to two significant digits: "4.4 %", "12 %". */
export function percent(share: number): string {
  const p = Math.abs(share) * 100;
  if (p >= MANY_TIMES) return 'more than a hundred times';
  if (p < 0.1) return 'less than 0.1 %';
  return `${Number(p.toPrecision(p < 100 ? 2 : 3))} %`;
}

export type Limit = number | undefined;

/** The limit as a number, or undefined where it is blank or a look-up said that it is unknown. */
export function limitOf(name: string, argument: string, given: unknown): Limit | Refusal {
  if (given === null || given === undefined || given === 'unknown' || given === '' || given === NO_HIGH_END) return undefined;
  return typeof given === 'number' ? given : refuse(`${name}: ${argument} is no number; give one of the same kind as the value, or leave it blank.`);
}

/** A limit as a check takes it: what is known of it, and what a plan takes where nothing is. */
export interface Held {
  readonly limit: Limit;
  readonly assumed: boolean;
  /** The source names no such end: it is known that there is none. */
  readonly open: boolean;
}

/** The known limit; where there is none, the one that a plan assumes, if it does. */
export function heldTo(name: string, argument: string, given: unknown, assumed: unknown): Held | Refusal {
  const known = limitOf(name, argument, given);
  if (known !== undefined) return isRefusal(known) ? known : { limit: known, assumed: false, open: false };
  const taken = limitOf(name, `assumed ${argument}`, assumed);
  return isRefusal(taken) ? taken : { limit: taken, assumed: taken !== undefined, open: taken === undefined && given === NO_HIGH_END };
}

/** A check’s text where something was assumed: it never says that it holds, and names what was taken. */
export function onAssumption(text: string, what: string, named: string | undefined): string {
  const said = named === undefined || named.trim() === '' ? '' : `: ${named.trim()}`;
  return `${text.replace(/^holds\b/, 'assumed')}; ${what} assumed${said}`;
}

export function checkedValue(name: string, given: unknown): number | Refusal {
  return typeof given === 'number' ? given : refuse(`${name}: value is no number; a check needs one.`);
}

/** Shows a margin over a limit, where it is a number worth printing. */
export function showMargin(show: Show | undefined, label: string, from: number, to: number, limit: number): void {
  const margin = (to - from) / Math.abs(limit);
  if (Number.isFinite(margin)) show?.expression(label, calc`(${to} - ${from}) / abs(${limit})`, margin, '1');
}

export const VALUE = { name: 'value', quantity: 'what is checked', unit: 'any', meaning: 'a number of any kind' } as const;
export const LIMIT = {
  name: 'limit',
  quantity: 'limit',
  unit: 'any',
  meaning: 'of the same kind; blank means that none is known',
  blankAllowed: true,
} as const;
export const ASSUMED_LIMIT = {
  name: 'assumed limit',
  quantity: 'limit that is assumed',
  unit: 'any',
  meaning: 'stands in where the limit is blank or unknown; the check then says assumed instead of holds',
  optional: true,
  blankAllowed: true,
} as const;
export const WHAT_IS_ASSUMED = {
  name: 'what is assumed',
  quantity: 'what is assumed, in words',
  unit: 'text',
  meaning: 'said in the check, such as “500 µmol/m²/s on a leaf”',
  optional: true,
  blankAllowed: true,
} as const;
export const LOOK_WITHIN = {
  name: 'close within',
  quantity: 'share of the limit that counts as close',
  unit: '1',
  meaning: '0.05 unless said',
  optional: true,
  fallback: 0.05,
  atLeast: 0,
  atMost: 1,
} as const;
export const CHECK_SOURCE = 'Our own wording; the margin is the difference over the limit';
