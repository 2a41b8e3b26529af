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
  /** A `range` stands for many cells: its value says how many, the lowest and the highest. */
  readonly kind: 'given' | 'as' | 'worked' | 'check' | 'blank' | 'range';
  readonly value: Value;
  readonly formula?: string;
  readonly steps: readonly Step[];
  readonly source?: string;
  readonly note?: string;
  /** Left empty where the cell was told earlier in the tree: `again`. */
  readonly from: readonly Working[];
  readonly again?: boolean;
}

/** What `propose` may try. What is left out is as it is said beside it. */
export interface Choices {
  /** Names as the book lists them; all of them. */
  readonly fixtures?: readonly string[];
  /** Rows along and across; 1 to 12 each. */
  readonly along?: { readonly low: number; readonly high: number };
  readonly across?: { readonly low: number; readonly high: number };
  /** Long side across; both ways. */
  readonly turned?: 'either' | 'yes' | 'no';
  /** In m; by 5 cm between the limits of the brief (2 in where the book is in feet and inches). */
  readonly heights?: { readonly low?: number; readonly high?: number; readonly step?: number };
  /** Contents of the spreads; as the first scenario has them. */
  readonly spreadAlong?: readonly string[];
  readonly spreadAcross?: readonly string[];
  /** To the least whole per cent that gives the light aimed at, or the least that is wanted, or not at all; `aim`. */
  readonly dimming?: 'aim' | 'low end' | 'none';
  /** Names as the book lists them, and contents of the fuse (`'6.3 A'`); all that are offered. */
  readonly supplies?: readonly string[];
  readonly fuses?: readonly string[];
  /** Most mains circuits. */
  readonly circuits?: number;
  /** Every arrangement in which all holds comes along in `all`. */
  readonly all?: boolean;
}

/** One arrangement of lights in which no check fails and none is unknown. Numbers are in the units that are said; NaN where the book has no such row. */
export interface Layout {
  readonly fixture: string;
  readonly along: number;
  readonly across: number;
  readonly turned: boolean;
  /** As the cells hold them; empty where the book has no such row, supply and fuse also where the light has its own driver. */
  readonly spreadAlong: string;
  readonly spreadAcross: string;
  readonly height: string;
  readonly supply: string;
  readonly fuse: string;
  /** The same height in m. */
  readonly metres: number;
  /** In per cent. */
  readonly dim: number;
  /** How many lights. */
  readonly count: number;
  /** In the book's currency a year. */
  readonly annual: number;
  /** Lowest to mean. */
  readonly evenness: number;
  /** Where it holds only with givens of another scenario: these, by the ids of their rows, and a word of them. */
  readonly elsewhere?: { readonly givens: Readonly<Record<string, string>>; readonly said: string };
}

export interface Proposal {
  readonly aim: 'cheapest' | 'most even' | 'fewest lights';
  readonly layout: Layout;
  /** What the givens of a scenario would have to say, by the ids of their rows. */
  readonly cells: Readonly<Record<string, string>>;
  /** Every worked row of that scenario, by its id. */
  readonly values: Readonly<Record<string, Value>>;
  /** Checks that rest on an assumption, and those that are close to their limit. */
  readonly assumed: readonly string[];
  readonly close: readonly string[];
  /** One sentence. */
  readonly why: string;
}

export interface Proposed {
  readonly proposals: readonly Proposal[];
  /** Arrangements in the space; of these, those that can be built, those that were worked out and those passed over; and those that were found to hold. */
  readonly counts: { readonly layouts: number; readonly built: number; readonly worked: number; readonly cut: number; readonly hold: number };
  /** What could not be asked as it was meant, in sentences. */
  readonly said: readonly string[];
  readonly all: readonly Layout[];
  /** Where nothing holds: which checks stand in the way, and each limit whose change would let something through, with the smallest that does; facts of the client's building, to be asked, come last. */
  readonly binds?: {
    readonly checks: readonly string[];
    readonly said: string;
    readonly changes: readonly {
      readonly address: string;
      readonly content: string;
      readonly said: string;
      readonly layout: Layout;
      readonly ofClient: boolean;
    }[];
  };
}

/** One value of a given, and what comes of it in the book. */
export interface Tried {
  /** As `set` takes it. */
  readonly content: string;
  readonly value: Value;
  /** What the cell then comes to. */
  readonly gives: Value;
  /** What the other cell comes to, where the two are to be equal. */
  readonly against?: Value;
  /** All else that would change: checks among it. */
  readonly others: readonly { readonly address: string; readonly before: Value; readonly after: Value }[];
}

/**
 * One way to make a cell what it should be: an exact value of the given, and the same as short as the given shows it; a stretch on which it is just that; two
 * values beside each other between which it steps over it; or those of a list without an order that come nearest on either side.
 */
export type WayBack =
  | { readonly kind: 'exact'; readonly exact: Tried; readonly rounded?: Tried }
  | { readonly kind: 'stretch'; readonly from: Tried; readonly to: Tried }
  | { readonly kind: 'step'; readonly from: Tried; readonly to: Tried }
  | { readonly kind: 'nearest'; readonly below?: Tried; readonly above?: Tried };

/** What came of working back by one given. */
export type WorkedBack =
  | {
      readonly ok: true;
      readonly given: string;
      readonly moves: 'freely' | 'by whole numbers' | 'over a list';
      readonly searched: { readonly from: Value; readonly to: Value } | { readonly choices: number };
      readonly ways: readonly WayBack[];
      /** Further ways, which are not listed. */
      readonly more: number;
      /** So many cells follow from the given of which it is not told whether they change. */
      readonly untold?: number;
      /** Beside an exact way: a formula for the given by which the cell stays as wanted whatever else changes, or why none is known. */
      readonly stay?: { readonly formula: string; readonly way: number; readonly exact: boolean; readonly tried: Tried } | { readonly why: string };
      /** Where there is no way: the lowest and the highest that can be reached; of two cells that are to be equal, where they differ least and most. */
      readonly lowest?: Tried;
      readonly highest?: Tried;
      /** In place of these: how far apart the two always are. */
      readonly apart?: Value;
    }
  | { readonly ok: false; readonly message: string };

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
  /**
   * Which lights, how many, how high: of all arrangements in which every check of the book holds, if only nearly or by what is assumed, the cheapest by the year,
   * the most even and the one with the fewest lights; the book stays as it is. Takes a second or so. Throws an Error that says why where nothing can be proposed.
   */
  propose(choices?: Choices): Promise<Proposed>;
  /**
   * Works back from what a worked cell should be: all values of each given, taken alone, that make it so within what that given may be. `wanted` is typed as on
   * the page, or is another cell by its address or name. One answer for each given, in order; the book stays as it is. Throws a RangeError for a cell that is
   * not there; all else that stands in the way is said in the answer.
   */
  back(cell: string, wanted: string | number, givens: readonly string[]): Promise<readonly WorkedBack[]>;
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
