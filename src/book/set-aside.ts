/** A given that was worked out, and is given by its value for now: its source says the formula, which follows its cells as formulas do. */
import type { At } from './address.ts';
import type { Cell } from './book.ts';
import { isFormula } from './content.ts';
import { sameAs } from './ditto.ts';
import { LOST } from './references.ts';

/** Whether it is given by choice, and a formula answers it for now. */
export const isAnsweredByFormula = (at: At): boolean =>
  (at.cell?.kind ?? at.row.kind ?? at.column.kind) === 'given' && isFormula(at.cell?.content ?? '') && !sameAs(at);

const BEGINS = 'ours, in place of ';

/** Who says such a value. */
export const inPlaceOf = (formula: string): string => BEGINS + formula;

/** The formula that was set aside; undefined where there is none, or what it read is gone. */
export function setAside(cell: Cell | undefined): string | undefined {
  const source = cell?.source ?? '';
  return source.startsWith(`${BEGINS}=`) && !source.includes(LOST) ? source.slice(BEGINS.length) : undefined;
}

/** The cell with that formula made anew. */
export function asideAnew(cell: Cell, anew: (formula: string) => string): Cell {
  const formula = setAside(cell);
  const made = formula === undefined ? formula : anew(formula);
  return made === undefined || made === formula ? cell : { ...cell, source: inPlaceOf(made) };
}
