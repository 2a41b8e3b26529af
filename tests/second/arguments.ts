/** Arguments as the functions of the second evaluator take them: numbers in the unit of the page, undefined where nothing stands. */
import { toBase } from './units.ts';
import { isOpen, refuse, sound, type Value } from './values.ts';

export type Cells = readonly (readonly Value[])[];
export type Argument = number | string | boolean | undefined | Value | Cells;

export const n = (argument: Argument): number => argument as number;
export const maybe = (argument: Argument): number | undefined => argument as number | undefined;
export const s = (argument: Argument): string => argument as string;
export const cells = (argument: Argument): Cells => argument as Cells;
export const value = (argument: Argument): Value => argument as Value;

/** A function: takes arguments, gives a number in the unit of its page, a text, or yes or no. */
export type Work = (...args: readonly Argument[]) => number | string | boolean;

/** Rows of numbers in a unit; undefined where nothing stands. A text is refused. */
export function grid(argument: Argument, unit: string): (number | undefined)[][] {
  const one = toBase(1, unit).n;
  return cells(argument).map((row) =>
    row.map((cell) => {
      if (isOpen(cell)) return undefined;
      const found = sound(cell);
      return found.kind === 'number' ? found.n / one : refuse('a reading is no number');
    }),
  );
}
