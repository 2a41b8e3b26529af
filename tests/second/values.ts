/** What a cell comes to for the second evaluator. Numbers are in base units: m, kg, s, A, K, mol, money, d, year. */

export interface NumberValue {
  readonly kind: 'number';
  readonly n: number;
  /** A reading of a thermometer, in kelvin: its margins are told in °C. */
  readonly reading: boolean;
}

export type Value =
  | NumberValue
  | { readonly kind: 'text'; readonly s: string }
  | { readonly kind: 'yesno'; readonly yes: boolean }
  | { readonly kind: 'blank' }
  /** `unanswered`: it began with a given that nobody has filled in. */
  | { readonly kind: 'fault'; readonly why: string; readonly unanswered: boolean };

export const BLANK: Value = { kind: 'blank' };
export const num = (n: number, reading = false): NumberValue => ({ kind: 'number', n, reading });
export const text = (s: string): Value => ({ kind: 'text', s });
export const yesno = (yes: boolean): Value => ({ kind: 'yesno', yes });

/** A function that can give no answer. */
export class Refusal extends Error {
  readonly unanswered: boolean;
  constructor(why: string, unanswered = false) {
    super(why);
    this.unanswered = unanswered;
  }
}

export function refuse(why: string): never {
  throw new Refusal(why);
}

export const faultOf = (thrown: unknown): Value => {
  if (thrown instanceof Refusal) return { kind: 'fault', why: thrown.message, unanswered: thrown.unanswered };
  throw thrown;
};

/** The value, or the refusal that it is. */
export function sound(value: Value): Exclude<Value, { kind: 'fault' }> {
  if (value.kind === 'fault') throw new Refusal(value.why, value.unanswered);
  return value;
}

export const isUnanswered = (value: Value): boolean => value.kind === 'fault' && value.unanswered;
/** Blank, or a given that nobody has filled in. */
export const isOpen = (value: Value): boolean => value.kind === 'blank' || isUnanswered(value);

/** Reckoned numbers that should be equal differ by the last digits. */
export const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
export const atMost = (a: number, b: number): boolean => a <= b || near(a, b);
/** Whole numbers by 9 decimals, so that the last digits of a quotient start no further lamp. */
export const up = (x: number): number => Math.ceil(Number(x.toFixed(9)));
export const down = (x: number): number => Math.floor(Number(x.toFixed(9)));
