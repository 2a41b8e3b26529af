/**
 * The record behind every function: one `define()` feeds the engine, the working, the reference page, completion and the tests.
 */
import type { Family } from './family.ts';

/** What one argument is. Numbers arrive in `unit`; a range keeps its shape; blanks arrive as null. */
export interface Param {
  readonly name: string;
  /** The quantity in words, as it is spoken: "mount height". */
  readonly quantity: string;
  /**
   * The default unit, `"1"` for a plain number, `"text"`, `"yes or no"`, or `"any"`: any quantity, taken in base units;
   * all parameters marked `any` in one function must be of one kind, and a result marked `any` is of that kind.
   */
  readonly unit: string;
  readonly meaning: string;
  /** One value, or a range of cells. A range of unit `mixed` carries values of several kinds (a whole table), in base units. */
  readonly shape?: 'one' | 'range';
  /** Of a table (`mixed`): the unit of each column from the first on. Without it each cell may be of any kind. */
  readonly columns?: readonly string[];
  readonly optional?: boolean;
  /** Stands in when an optional argument is left out; it is shown in the working. */
  readonly fallback?: number | string | boolean;
  /** The last parameter may be given again and again. */
  readonly repeats?: boolean;
  /** Allowed values, in `unit`. `above`/`below` exclude the limit itself. */
  readonly atLeast?: number;
  readonly above?: number;
  readonly atMost?: number;
  readonly below?: number;
  readonly whole?: boolean;
  /** Of a fraction the next larger whole number is the safe one to name, as of wire gauges; else the next smaller. */
  readonly upward?: boolean;
  readonly oneOf?: readonly string[];
  /** The function itself says what a blank means (a blank limit is "unknown"); otherwise a blank is refused. */
  readonly blankAllowed?: boolean;
  /** Of a range: a cell that has no value arrives as the reason why, for the function to pass over; otherwise the result has none either. */
  readonly faultsPass?: boolean;
  /** Beside `blankAllowed`: the text “unknown”, as a look-up gives it, may stand for the number, and means what a blank does. */
  readonly unknownAllowed?: boolean;
}

export type CellValue = number | string | boolean | null;

/** A range as a function sees it: rows of values in the parameter's unit; blanks are null. */
export type Cells = readonly (readonly CellValue[])[];

/** The same where cells without a value arrive as the reason why. */
export type MaybeCells = readonly (readonly (CellValue | Refusal)[])[];

/** An ordinary miss: out of range, no solution, unknown name. Its message is a sentence for the person at the bench. */
export interface Refusal {
  readonly refused: true;
  readonly message: string;
}

export const refuse = (message: string): Refusal => ({ refused: true, message });

export function isRefusal(x: unknown): x is Refusal {
  return typeof x === 'object' && x !== null && (x as Refusal).refused === true;
}

export interface Term {
  readonly label: string;
  readonly value: number;
}

/** One line of a working. */
export type Step =
  /** `expression` gives `value` again when any general evaluator reckons it from the numbers printed in it. */
  | { readonly kind: 'expression'; readonly label: string; readonly expression: string; readonly value: number; readonly unit: string }
  /** `value` is `scale` times the sum of the terms, which are made only when asked for. */
  | {
      readonly kind: 'sum';
      readonly label: string;
      readonly terms: () => readonly Term[];
      readonly scale: number;
      readonly value: number;
      readonly unit: string;
    }
  /** `value` was searched for between the ends of `bracket`; `check` is a formula of ours that gives `equals` (in `equalsUnit`) there. */
  | {
      readonly kind: 'search';
      readonly label: string;
      readonly value: number;
      readonly unit: string;
      readonly bracket: readonly [number, number];
      readonly check: string;
      readonly equals: number;
      readonly equalsUnit: string;
    }
  /** A look-up, a rule that was applied, or a word of warning. */
  | { readonly kind: 'note'; readonly label: string };

/** Takes the steps of a run. In a recalculation it is undefined and nothing is built. */
export interface Show {
  expression(label: string, expression: string, value: number, unit: string): void;
  sum(label: string, terms: () => readonly Term[], scale: number, value: number, unit: string): void;
  search(label: string, value: number, unit: string, bracket: readonly [number, number], check: string, equals: number, equalsUnit: string): void;
  note(label: string): void;
}

type One<U extends string> = U extends 'text' ? string : U extends 'yes or no' ? boolean : U extends 'any' ? number | string | boolean : number;
type Given<P extends Param> = P extends { shape: 'range' }
  ? P extends { faultsPass: true }
    ? MaybeCells
    : Cells
  : One<P['unit']> | (P extends { blankAllowed: true } ? null : never) | (P extends { unknownAllowed: true } ? string : never);
type Arg<P extends Param> = P extends { optional: true } ? (P extends { fallback: number | string | boolean } ? Given<P> : Given<P> | undefined) : Given<P>;
export type Args<Ps extends readonly Param[]> = Ps extends readonly [...infer Head extends readonly Param[], infer Last extends Param]
  ? Last extends { repeats: true }
    ? readonly [...{ [K in keyof Head]: Arg<Head[K]> }, ...Given<Last>[]]
    : { readonly [K in keyof Ps]: Arg<Ps[K]> }
  : readonly [];

export type FunctionResult = number | string | boolean;

export interface Example {
  /** Without the equals sign; bare numbers are in the default units. */
  readonly formula: string;
  /** In the result's unit. */
  readonly gives: FunctionResult;
  /** Relative, unless `absolute`. Left out: 1e-9. */
  readonly within?: number;
  readonly absolute?: boolean;
}

export interface FunctionRecord<Ps extends readonly Param[] = readonly Param[]> {
  readonly name: string;
  readonly family: Family;
  readonly summary: string;
  /** When to use it, and where it stops being true. */
  readonly use: string;
  /** The formula in print: `2 h tan(beam/2)`. */
  readonly formula: string;
  readonly params: Ps;
  readonly returns: { readonly quantity: string; readonly unit: string };
  /** Author, title, year, equation or table; or "common practice, no published source"; or "from memory". */
  readonly source: string;
  readonly examples: readonly Example[];
  /** Work that goes over a field or a search: allowed seconds where others are allowed milliseconds. */
  readonly slow?: boolean;
  /** Why nothing outside the project can check it; left out where something does. */
  readonly unchecked?: string;
  /** The usual caution, said beside the result. */
  readonly caution?: string;
  readonly work: (args: Args<Ps>, show: Show | undefined) => FunctionResult | Refusal;
}

/** Checks nothing at run time; it gives `work` the types that its parameters say. */
export function define<const Ps extends readonly Param[]>(record: FunctionRecord<Ps>): FunctionRecord {
  return record as unknown as FunctionRecord;
}

/** A number as a step prints it: to 12 significant digits, without an exponent where one can do without. */
export function digits(x: number): string {
  const text = String(Number(x.toPrecision(12)));
  return x < 0 ? `(${text})` : text;
}

/** Writes an expression with its numbers put in: calc`${ppfd} * ${hours} * 3600 / 1e6`. */
export function calc(parts: TemplateStringsArray, ...values: readonly (number | string)[]): string {
  return parts.map((part, i) => part + (i < values.length ? (typeof values[i] === 'number' ? digits(values[i]) : values[i]) : '')).join('');
}

/** Shows steps into a list. */
export function stepList(): { readonly steps: Step[]; readonly show: Show } {
  const steps: Step[] = [];
  return {
    steps,
    show: {
      expression: (label, expression, value, unit) => steps.push({ kind: 'expression', label, expression, value, unit }),
      sum: (label, terms, scale, value, unit) => steps.push({ kind: 'sum', label, terms, scale, value, unit }),
      search: (label, value, unit, bracket, check, equals, equalsUnit) =>
        steps.push({ kind: 'search', label, value, unit, bracket, check, equals, equalsUnit }),
      note: (label) => steps.push({ kind: 'note', label }),
    },
  };
}
