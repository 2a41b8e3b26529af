/**
 * Overbench as a library: the same books, functions and numbers as on the page and from the command line, in Node 20.19 or later.
 *
 *     import { openBook, evaluate } from 'overbench';
 *
 *     const book = await openBook(await readFile('club.json', 'utf8'));
 *     await book.set('bench_length', '12 ft');
 *     const dli = book.value('Scenarios.B15');   // { kind: 'number', value: 13.8, unit: 'mol/m²/d' }
 *     await evaluate('=DLI(200 µmol/m²/s, 16 h/d)');
 */

/** What a cell or a formula comes to. A number is in full precision in the unit in which it is shown; a plain number's unit is empty. */
export type Value =
  | { readonly kind: 'number'; readonly value: number; readonly unit: string }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'yes or no'; readonly yes: boolean }
  | { readonly kind: 'blank' }
  /** `word` is short ("unit error", "not answered yet"); `message` says what is wrong, where, and what is allowed. */
  | { readonly kind: 'error'; readonly word: string; readonly message: string; readonly from?: string };

/** What came of setting a given. Where it was not taken, nothing has changed. */
export type SetResult =
  | { readonly ok: true /** What was made of the text, where that deserves a word: "3,6 read as 3.6 m". */; readonly said?: string }
  | { readonly ok: false; readonly message: string };

/** One step of a function's work. `expression` recomputes to `value` in its unit; a sum has its `terms`. */
export interface Step {
  readonly kind: 'expression' | 'sum' | 'search' | 'note';
  readonly label: string;
  readonly value?: Value;
  readonly expression?: string;
  readonly terms?: readonly { readonly label: string; readonly value: number }[];
}

/** Where a value comes from: its formula, its steps, and the cells that it reads, down to the givens. */
export interface Working {
  readonly address?: string;
  readonly row: string;
  readonly column: string;
  readonly kind: 'given' | 'as' | 'worked' | 'check' | 'blank';
  readonly value: Value;
  readonly formula?: string;
  readonly steps: readonly Step[];
  readonly source?: string;
  readonly note?: string;
  /** Left empty where the cell was told earlier in the tree: `again`. */
  readonly from: readonly Working[];
  readonly again?: boolean;
}

/** A book that is open. A cell is said by its address (`Scenarios.B7`) or by its name (`bench_length`). Other writings of an address are read too: `Scenarios!B7`, `[Scenarios.B7]`. */
export interface OpenBook {
  readonly title: string;
  readonly client: string;
  /** Names and the addresses for which they stand. */
  readonly names: Readonly<Record<string, string>>;
  /** What became another as the book was brought to the present version, in sentences: a name that would now read as a place. Mostly nothing. */
  readonly said: readonly string[];
  /** Throws a RangeError where the book has no such cell. */
  value(cell: string): Value;
  /** Every cell that is not blank, by address. */
  values(): Readonly<Record<string, Value>>;
  /** Puts a text in as if it were typed: `'12 ft'`, `'0.31 EUR/kWh'`, or a bare number in the unit that the cell shows. Values follow before it resolves. */
  set(cell: string, typed: string | number): Promise<SetResult>;
  /**
   * Works the book out for one row of values after another, each value as `set` reads it, and gives the results of each row; the book stays as it is. Formulas
   * are compiled once for the same givens and results, so that thousands of rows take seconds. Throws a RangeError for a cell that is not there and for a value
   * that its cell does not take.
   */
  sweep(givens: readonly string[], rows: readonly (readonly (string | number)[])[], results: readonly string[]): Promise<readonly (readonly Value[])[]>;
  working(cell: string): Promise<Working>;
  /** `tidy`: one cell a line, for programs. `wide`: labels down, scenarios across, for people. All tables, or those named. */
  csv(form: 'tidy' | 'wide', tables?: readonly string[]): string;
  /** The book file's text, as it would be saved. */
  json(): string;
  /** Frees what working out takes; the book is of no more use. */
  close(): void;
}

/** Opens the text of a book file or template, or what JSON.parse made of it. Throws an Error that says what is wrong where it is no sound book. */
export function openBook(book: string | object): Promise<OpenBook>;

/** Works out one formula that belongs to no book. Money is in EUR. A formula that can't be worked out gives a value of kind `error`. */
export function evaluate(formula: string): Promise<Value>;
