/** What the rest of the project knows of the engine: plain data in, plain data out, the same from a worker or in-process. */
import type { Signature } from '../../functions/check-args.ts';
import type { FunctionRecord } from '../../functions/define.ts';
import type { Book } from '../book/book.ts';
import type { Change } from '../book/change.ts';

/** Where a cell is: table name and A1 address in it, as formulas say it: `Scenarios.B7`. */
export type Address = string;

/**
 * The value of one cell or formula. Numbers are coherent base values; `unit` is how they are to be shown. `shown`: how people read it, where that is another
 * text: a layout in feet and inches, a wire by its gauge.
 */
export type Value =
  | { readonly kind: 'number'; readonly base: number; readonly unit: string; readonly shown?: string }
  | { readonly kind: 'text'; readonly text: string; readonly shown?: string }
  | { readonly kind: 'yes or no'; readonly yes: boolean }
  | { readonly kind: 'blank' }
  | {
      readonly kind: 'error';
      /** A short word for the cell: "unit error", "not answered yet", "goes in a circle", "out of range", "no such name". */
      readonly word: string;
      /** A sentence: what is wrong, where, and what is allowed. */
      readonly message: string;
      /** The cell where it began, if another. */
      readonly from?: Address;
      /** What would mend it: a sentence and, where it can be applied with one key, the content to put into a cell. */
      readonly mend?: Mend;
    };

export interface Mend {
  readonly label: string;
  readonly cell?: Address;
  readonly content?: string;
  readonly unit?: string;
}

export type Values = Readonly<Record<Address, Value>>;

export interface TraceStep {
  readonly kind: 'expression' | 'sum' | 'search' | 'note';
  readonly label: string;
  /** What is worked out, with the headings of cells in place of their values. */
  readonly words?: string;
  readonly value?: Value;
  /** For an expression: text that a general evaluator recomputes; its result is in `unit` of the value. */
  readonly expression?: string;
  readonly terms?: readonly { readonly label: string; readonly value: number }[];
  readonly scale?: number;
  readonly bracket?: readonly [number, number];
  readonly check?: string;
  /** How people read the check, where that is another text: with the lengths in the book's measures. */
  readonly checkShown?: string;
  readonly equals?: Value;
}

export interface TraceNode {
  /** Undefined for a formula that stands in no cell. */
  readonly address?: Address;
  /** Row heading and column heading: "Maintained mean PPFD", "B". */
  readonly row: string;
  readonly column: string;
  /** A `range` stands for more cells than are listed one by one: its value says their extremes, and they are what it comes from. */
  readonly kind: 'given' | 'as' | 'worked' | 'check' | 'blank' | 'range';
  readonly value: Value;
  /** As the editor shows it: `=BENCH.MEAN(B6, B3) * Assumptions.A3`. */
  readonly formula?: string;
  readonly steps: readonly TraceStep[];
  readonly source?: string;
  readonly note?: string;
  /**
   * What it reads, in the order in which the formula names it: of a branch what was taken, of a look-up the entry that was found. `name` where the
   * formula used one; short ranges are listed cell by cell, a longer one stands as one.
   */
  readonly from: readonly TraceNode[];
  readonly name?: string;
  /** Set where the tree was cut because the cell is already told elsewhere in it. */
  readonly again?: boolean;
  /** How many further cells of its ranges are not listed in `from`. */
  readonly more?: number;
}

/** What came of a formula that was typed, before anything is stored. */
export type Reading =
  | {
      readonly ok: true /** canonical, to be stored */;
      readonly content: string;
      readonly typed?: string /** said to the user: "200 read as 200 µmol/m²/s" */;
      readonly said?: string;
      readonly unit?: string;
    }
  | { readonly ok: false; readonly message: string; readonly mend?: Mend };

export interface PictureField {
  readonly nx: number;
  readonly ny: number;
  readonly length: number;
  readonly width: number;
  /** µmol/m²/s, row by row from the origin, already times `scale`. */
  readonly values: Float64Array;
  readonly fixtures: readonly { readonly x: number; readonly y: number; readonly length: number; readonly width: number }[];
}

/** What a function's record says of it. */
export type FunctionCard = Omit<FunctionRecord, 'work'>;

/** What a worked cell should come to, and one given that may move for it. */
export interface AskedBack {
  readonly cell: Address;
  /** As it would be typed there; or another cell, by its address or name, that both are to equal. Of a check, how it should stand: `holds`. */
  readonly wanted: string;
  readonly given: Address;
  /** Where it may move, as typed; left out, where its limits or its list let it. */
  readonly from?: string;
  readonly to?: string;
}

/** One value of the given, and what comes of it. */
export interface Tried {
  /** What would be put into the given. */
  readonly content: string;
  readonly value: Value;
  readonly gives: Value;
  /** What the other cell comes to, where the two are to be equal. */
  readonly against?: Value;
  /** All else that would become another. */
  readonly others: readonly { readonly address: Address; readonly before: Value; readonly after: Value }[];
}

/** `step`: two values beside each other, as far as the given shows; what is wanted lies between what comes of them. */
export type WayBack =
  /** `rounded`: the same as short as the given shows it, where that is another value. */
  | { readonly kind: 'exact'; readonly exact: Tried; readonly rounded?: Tried }
  /** From the one to the other it is just what is wanted. */
  | { readonly kind: 'stretch'; readonly from: Tried; readonly to: Tried }
  | { readonly kind: 'step'; readonly from: Tried; readonly to: Tried }
  /** Of a list without an order: those that come nearest, below and above. */
  | { readonly kind: 'nearest'; readonly below?: Tried; readonly above?: Tried };

/**
 * A formula for the given, by which the cell stays what it should be whatever else changes. `way`: which of the ways it is; `exact`: it is that way to the last
 * digit, and not only near it.
 */
export type Stay = { readonly formula: string; readonly way: number; readonly exact: boolean; readonly tried: Tried } | { readonly why: string };

export type WorkedBack =
  | {
      readonly ok: true;
      readonly given: Address;
      readonly moves: 'freely' | 'by whole numbers' | 'over a list';
      /** Where it was looked for: the ends, or how many a list has. */
      readonly searched: { readonly from: Value; readonly to: Value } | { readonly choices: number };
      readonly ways: readonly WayBack[];
      /** Further ways that are not listed. */
      readonly more: number;
      /** So many cells follow from the given of which it is not told whether they change. */
      readonly untold?: number;
      /** How the given would follow what is wanted for good, or why it can't; only beside an exact way. */
      readonly stay?: Stay;
      /** The lowest and the highest that the cell comes to of all that was looked at, where no way was found; of two that are to be equal, where their difference is. */
      readonly lowest?: Tried;
      readonly highest?: Tried;
      /** In their place: of two that are to be equal, how far apart they always are. */
      readonly apart?: Value;
    }
  | { readonly ok: false; readonly message: string };

/** What whoever waits for a long answer may say and hear. */
export interface Waiting {
  /** How much is done, from 0 to 1. */
  readonly share?: (done: number) => void;
  readonly signal?: AbortSignal;
}

export interface Engine {
  /** Builds from a book; gives every non-blank cell's value. Whoever gives a `part` may be handed many of them piece by piece, and the answer is the rest. */
  load(book: Book, part?: (values: Values) => void): Promise<Values>;
  /** Feeds changes that were already applied to the book; gives the values that differ from before, as `load` does. */
  apply(changes: readonly Change[], book: Book, part?: (values: Values) => void): Promise<Values>;
  /** What typed text would become in that cell, or why it can't be taken. Changes nothing. */
  read(address: Address, typed: string): Promise<Reading>;
  /** How a stored content is shown for editing: `=C5 + 6 in`. */
  editable(address: Address): Promise<string>;
  trace(address: Address): Promise<TraceNode>;
  /** The cells that read this one directly, and all that follow. */
  feeds(address: Address): Promise<{ readonly directly: readonly Address[]; readonly all: readonly Address[] }>;
  /** A formula of its own against the loaded book (or none): `=DLI(200,16)`. */
  evaluate(formula: string): Promise<Value>;
  evaluateWithSteps(formula: string): Promise<TraceNode>;
  /**
   * What a formula that is still being written would give in that cell, or what is wrong with it. Changes nothing. A blank where its
   * functions may take seconds: they are worked out only once it is kept.
   */
  preview(address: Address, formula: string): Promise<Value>;
  /** The records of all functions that are ours, without what works them out: for the reference, completion and hints. */
  functions(): Promise<readonly FunctionCard[]>;
  /** What every function takes, the standard's too, by the names of its arguments. */
  signatures(): Promise<readonly Signature[]>;
  /** A field for a picture: the layout text and height (m) of a cell pair, times a plain factor. */
  field(layout: string, height: number, nx: number, ny: number, scale: number): Promise<PictureField | { readonly refused: string }>;
  /** The givens from which a worked cell follows: first those with limits, then those with a list, the nearest first. */
  givensOf(address: Address): Promise<readonly Address[]>;
  /** Which values of a given make a worked cell what it should be. On a copy of the book: changes nothing. */
  back(asked: AskedBack, waiting?: Waiting): Promise<WorkedBack>;
  close(): void;
}
