/** What a formula may hold, beside what a book may. More is refused with a word, never cut in silence. */
import { BOUNDS, count } from '../book/bounds.ts';
import { type Fault, TOO_LARGE } from './errors.ts';

export const FORMULA_BOUNDS = {
  ...BOUNDS,
  depth: 32,
  references: 256,
  /** Cells that the ranges of one formula may cover together: half a second of the slowest function offered. */
  rangeCells: 100_000,
} as const;

/** Length and nesting, judged from the text alone, before anything recursive reads it. */
export function tooLong(formula: string): Fault | undefined {
  if (formula.length > FORMULA_BOUNDS.formulaCharacters) {
    return {
      word: TOO_LARGE,
      message: `This formula has ${count(formula.length)} characters; at most ${count(FORMULA_BOUNDS.formulaCharacters)} are allowed. Work part of it out in a cell of its own.`,
    };
  }
  let depth = 0;
  let deepest = 0;
  let signs = 0;
  let quote = '';
  for (const c of formula) {
    if (quote) {
      if (c === quote) quote = '';
      continue;
    }
    if (c === '"' || c === "'") quote = c;
    else if (c === '(' || c === '{') deepest = Math.max(deepest, ++depth);
    else if (c === ')' || c === '}') depth--;
    // A run of signs nests as deeply as brackets do.
    if (c === '-' || c === '+') deepest = Math.max(deepest, depth + ++signs);
    else if (c !== ' ') signs = 0;
  }
  if (deepest > FORMULA_BOUNDS.depth) {
    return {
      word: TOO_LARGE,
      message: `This formula is nested ${deepest} deep; at most ${FORMULA_BOUNDS.depth} is allowed. Work part of it out in a cell of its own.`,
    };
  }
  return undefined;
}

export function tooMany(references: number, rangeCells: number): Fault | undefined {
  if (references > FORMULA_BOUNDS.references) {
    return {
      word: TOO_LARGE,
      message: `This formula reads ${count(references)} cells and ranges; at most ${FORMULA_BOUNDS.references} are allowed. Use a range, or work part of it out in a cell of its own.`,
    };
  }
  if (rangeCells > FORMULA_BOUNDS.rangeCells) {
    return {
      word: TOO_LARGE,
      message: `The ranges of this formula cover ${count(rangeCells)} cells; at most ${count(FORMULA_BOUNDS.rangeCells)} are allowed.`,
    };
  }
  return undefined;
}
