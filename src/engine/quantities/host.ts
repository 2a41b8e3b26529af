/** What the quantities ask of the workbook they are worked out for. */
import type { Measures } from '../../../functions/measures.ts';
import type { Position, Span } from '../addresses.ts';
import type { Content } from '../formula-text.ts';
import type { Ast, Parsed, Token } from '../hyper.ts';

export interface QuantityHost {
  readonly currency: string;
  /** Metric where it does not say. */
  readonly measures?: Measures;
  /** What a cell holds; numbers with the unit of their content. */
  content(at: Position): Content;
  /** The tree of the formula in a cell as the calculator holds it; undefined where the formula was refused. */
  ast(at: Position): Ast | undefined;
  /** The unit set on the cell, its row or its column. */
  ownUnit(at: Position): string | undefined;
  /** What a name stands for. */
  named(name: string): Span | undefined;
  /** All cells with formulas. */
  formulas(): Iterable<Position>;
  /** The cells that read this one directly, also through ranges and names. */
  readers(at: Position): Iterable<Position>;
  parse(formula: string, at: Position): Parsed;
  tokens(formula: string): readonly Token[];
  /** A part of a formula as text. */
  text(ast: Ast, at: Position): string;
  /** `Scenarios.B7`, as formulas in other tables say it. */
  address(at: Position): string;
  /** Row and column headings in words; where there are none, the address. */
  heading(at: Position): string;
}
