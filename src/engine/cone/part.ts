/** A part of a formula as it is compiled, and what whoever compiles it asks of the formula around it. */
import type { Position, Span } from '../addresses.ts';
import { type Ast, type Inner, SimpleRangeValue } from '../hyper.ts';
import type { Context } from '../register.ts';

export type Part =
  | { readonly is: 'constant'; readonly value: Inner }
  /** `single`: never a range of cells. */
  | { readonly is: 'work'; readonly work: () => Inner; readonly single: boolean };

export const isSingle = (part: Part): boolean => (part.is === 'constant' ? !(part.value instanceof SimpleRangeValue) : part.single);

export const workOf = (part: Part): (() => Inner) => {
  if (part.is === 'work') return part.work;
  const { value } = part;
  return () => value;
};

/** A value as a part of a tree. */
export const written = (value: Inner): Ast => ({ type: 'NUMBER', value: value as number });

export interface Around {
  readonly context: Context;
  /** What is left of a difference that is less than this share of what was subtracted from is nothing. */
  readonly epsilon: number;
  part(ast: Ast): Part;
  /** The cells that a part stands for, where it does nothing else. */
  span(ast: Ast): Span | undefined;
  /** The cells of a range row by row, with what varies in them; each time new. */
  cellsOf(span: Span): () => Inner[][];
  cellAt(at: Position): Inner;
  /** The calculator's own way with a part, the varying cells in place. */
  byCalculator(ast: Ast): Extract<Part, { is: 'work' }>;
  /** What the calculator makes of an operation whose operands are worked out. */
  operated(ast: Ast): Inner;
  /** A value as the calculator gives it on: not a number at all is an error, and what begins here says so. */
  given(value: Inner): Inner;
}
