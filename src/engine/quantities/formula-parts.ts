/** What the rules for functions, criteria and shown units ask about the parts of the formula that they stand in. `Inference` answers. */
import type { Position, Span } from '../addresses.ts';
import type { Ast } from '../hyper.ts';
import type { FormulaInCell } from './formula.ts';
import type { Fail, Kind, NumberKind } from './kind.ts';

/** The kinds of the cells that a formula reads. */
export interface CellKinds {
  kindOf(at: Position): Kind;
  kindOfSpan(span: Span): Kind;
  shownUnitOf(at: Position): string;
}

/** A written number that is to get a unit when the formula is committed. */
export interface Wish {
  readonly node: Ast;
  readonly unit: string;
  /** A parameter's default unit is always written; the unit beside a quantity only when the whole formula then checks. */
  readonly sort: 'parameter' | 'beside';
  /** For a criterion such as ">160": the comparison that goes before the number, and the number itself. */
  readonly criterion?: { readonly comparison: string; readonly number: string };
}

export interface OneKindOptions {
  /** What is done, for the sentence: "SUM", "This compares". */
  readonly what: string;
  readonly readings: 'allowed' | 'refused';
}

export interface FormulaParts extends Pick<FormulaInCell, 'host' | 'at' | 'span' | 'fail' | 'described' | 'cellWords' | 'mendFor' | 'rewritten' | 'shown'> {
  readonly cells: CellKinds;
  infer(ast: Ast): Kind;
  /** The kind of a product; with `divides`, of the first by the second. */
  multiplied(parts: readonly Ast[], divides: boolean): Kind;
  raised(base: Ast, exponent: Ast): Kind;
  /** Parts that must be of one kind. Written numbers are looked at last: they take the kind of the others. */
  oneKind(parts: readonly Ast[], options: OneKindOptions): Kind;
  mixed(what: string, ast: Ast, kind: Extract<Kind, { is: 'mixed' }>): Fail;
  /** An argument that a function declares to be a quantity, with the unit that is written to a bare number. */
  wanted(ast: Ast, want: NumberKind, unitText: string, what: string): Fail | undefined;
  /** An argument that must be no quantity. */
  plain(ast: Ast, name: string): Fail | undefined;
  joinTexts(parts: readonly Ast[], name: string): Kind;
  /** Notes the unit for a written number, when this is a commit. */
  wish(ast: Ast, unitText: string, sort: Wish['sort'], criterion?: Wish['criterion']): boolean;
  /** "a length (Mount height, B, B7)". */
  named(ast: Ast): string;
}
