/** What the quantities ask of the workbook they are worked out for. */
import type { Place } from '../addresses.ts';
import type { Content } from '../formula-text.ts';
import type { Ast, Parsed, Token } from '../hyper.ts';

export interface Area {
  readonly start: Place;
  readonly end: Place;
}

export interface QuantityHost {
  readonly currency: string;
  /** What a cell holds; numbers with the unit of their content. */
  content(at: Place): Content;
  /** The tree of the formula in a cell as the calculator holds it; undefined where the formula was refused. */
  ast(at: Place): Ast | undefined;
  /** The unit set on the cell, its row or its column. */
  ownUnit(at: Place): string | undefined;
  /** What a name stands for. */
  named(name: string): Area | undefined;
  /** All cells with formulas. */
  formulas(): Iterable<Place>;
  /** The cells that read this one directly, also through ranges and names. */
  readers(at: Place): Iterable<Place>;
  parse(formula: string, at: Place): Parsed;
  tokens(formula: string): readonly Token[];
  /** A part of a formula as text. */
  text(ast: Ast, at: Place): string;
  /** `Scenarios!B7`, as formulas in other tables say it. */
  address(at: Place): string;
  /** Row and column headings in words; where there are none, the address. */
  heading(at: Place): string;
}
