/**
 * The document: plain, immutable JSON. Nothing here knows an engine or a page.
 *
 * A table's rows and columns have headings (labels) of their own, outside the cells: `Scenarios.B7` is row 7 of the
 * second column, and the second column of a comparing table is scenario B. A look-up table (Crops, Fixtures) keeps its
 * headings as text in its first row, marked `head`, so that formulas can find a column by its heading.
 */

/** What is stored of a cell: exactly what it says. Left-out fields take the row's, then the column's. */
export interface Cell {
  /**
   * `=…` a formula in its canonical form (units as UNIT(6,"in"), point decimals, commas between arguments);
   * a number with its unit as given (`3.6 m`, `85 %`, `200`), point decimal; TRUE or FALSE; anything else is text, and a text
   * that looks like one of the others starts with an apostrophe. Empty: a given not answered yet.
   */
  readonly content: string;
  /** What was typed, where it differs from the content (`1,2 m`, `3 ft 6 in`). */
  readonly typed?: string;
  /** Shown unit. */
  readonly unit?: string;
  readonly decimals?: number;
  readonly kind?: Kind;
  /** Who said so: "client, by telephone", "default", "common practice, no published source". */
  readonly source?: string;
  readonly note?: string;
  /** Allowed values of a given, in `rangeUnit` of the cell, its row or column (the shown unit when the book was made). */
  readonly range?: Range;
}

/** Without one, a cell with a formula is worked and any other is a given. A given whose formula only points at another cell is "as A". */
export type Kind = 'given' | 'worked' | 'check';

export interface Range {
  readonly low?: number;
  readonly high?: number;
  /** The unit of low and high. */
  readonly unit?: string;
  /** What may be picked. Beside limits it lists numbers, and any other number between the limits may be written too. */
  readonly oneOf?: readonly string[];
  /** A range of cells whose texts are the allowed ones: `Fixtures.A2:A6`. */
  readonly from?: string;
}

interface Line {
  readonly id: string;
  readonly label?: string;
  readonly unit?: string;
  readonly decimals?: number;
  readonly kind?: Kind;
  readonly note?: string;
  readonly source?: string;
  readonly range?: Range;
}

export interface Row extends Line {
  /** The row's cells are the headings of a look-up table. */
  readonly head?: boolean;
  /** A wider gap stands above this row. */
  readonly parted?: boolean;
  /** A question of the brief: the words under the label. */
  readonly help?: string;
  /** Its givens are words, whatever is typed: `12 feet` may be a place. */
  readonly holds?: 'text';
  /** The verdict row and its like: set in strong type between ink rules. */
  readonly strong?: boolean;
}

export interface Column extends Line {
  /** In a list: a blank beside a filled first cell is a given that is not answered, never read as nothing or 0. */
  readonly needed?: true;
  /** Shown width in px; left out: shared evenly. */
  readonly width?: number;
}

export interface Table {
  readonly id: string;
  /** As formulas say it. */
  readonly name: string;
  /** How it is laid out on the page. */
  readonly form: 'brief' | 'scenarios' | 'list' | 'plain';
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** By row id, then by column id. A missing cell is blank. */
  readonly cells: Readonly<Record<string, Readonly<Record<string, Cell>>>>;
  /** The scenario that the others are compared with: a column id. */
  readonly base?: string;
}

export type Block =
  /** Markdown; `{{Scenarios.B7}}` and `{{bench_length}}` stand for the live value of a cell. */
  | { readonly id: string; readonly kind: 'prose'; readonly text: string }
  /** `table` is the table's id. */
  | { readonly id: string; readonly kind: 'table'; readonly table: string }
  /** `reads` says which cells a picture takes, by the picture's own keys, as references (`Scenarios.B6`) or ranges. */
  | { readonly id: string; readonly kind: 'picture'; readonly picture: string; readonly caption: string; readonly reads: Readonly<Record<string, string>> };

export interface Page {
  readonly id: string;
  readonly title: string;
  /** Pages with the same group stand together in the contents, under its heading. */
  readonly group?: string;
  readonly blocks: readonly Block[];
}

/** The template that a book was begun from, or is. */
export interface Origin {
  readonly slug: string;
  /** Counts up whenever what a template checks becomes another. */
  readonly edition: number;
  /** What the template's present edition checks and this book does not, as it was when the book was last opened. */
  readonly lacks?: Lacks;
}

/** Labels of checks. */
export interface Lacks {
  /** They are not in the book. */
  readonly checks: readonly string[];
  /** They are, and work by the rules of the earlier edition. */
  readonly older: readonly string[];
}

export interface Book {
  readonly format: 'overbench book';
  readonly version: number;
  readonly id: string;
  readonly title: string;
  readonly client: string;
  /** What the template is for, in one line; shown where one picks a template. */
  readonly purpose?: string;
  readonly currency: string;
  readonly measures: 'metric' | 'US customary';
  /** How wires are called and listed, where it is not as the measures have it. */
  readonly wires?: 'AWG' | 'mm²';
  /** What sheets are printed on, where it is not what goes with the measures. */
  readonly paper?: 'A4' | 'letter';
  readonly pages: readonly Page[];
  readonly tables: readonly Table[];
  /** A name stands for a cell or a range, absolute: `bench_length` → `Brief.A1`. */
  readonly names: Readonly<Record<string, string>>;
  /** Left out in a book that no template is known of. */
  readonly template?: Origin;
  /** What the client wrote, as it came in: the text that answers were read from. */
  readonly enquiry?: string;
  /** What took the place of names that an earlier edition had: `wire_amps` → a sentence. */
  readonly went?: Readonly<Record<string, string>>;
}

export const CURRENT_VERSION = 6;
