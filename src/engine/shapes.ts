/**
 * Formulas that say the same seen from their cells: in a large table each of ten thousand rows has `=A7+B7` with a row number of its own. The
 * calculator remembers their trees, but only after taking each text into words, and makes the tree and what it reads anew for each. Here the text of the
 * formula with its cells counted from its own is looked up first, which takes a tenth of the time; the trees are shared.
 */
import type { Position } from './addresses.ts';

/** A text or a quoted name, which says what it says anywhere; or a word. */
const PIECE = /"[^"]*"|'[^']*'|[A-Za-z0-9_.$\u00C0-\uFFFF]+/g;
/** A cell as the book writes it. */
const CELL = /^(\$?)([A-Z]{1,2})(\$?)([1-9]\d{0,4})$/;
/** A word that says the same anywhere: of letters or of digits alone, or with a line in it, as no cell has. */
const WORD = /^(?:[A-Za-z]+|\d[\d.]*(?:[eE]\d+)?|\w*_\w*)$/;

/** As many as a book may hold formulas, roughly: then it begins anew. */
const MOST = 100_000;

function columnOf(letters: string): number {
  const last = letters.charCodeAt(letters.length - 1) - 65;
  return letters.length === 1 ? last : (letters.charCodeAt(0) - 64) * 26 + last;
}

/** The sign next to a place in a formula, in the direction of the step. */
function beside(formula: string, from: number, step: 1 | -1): string {
  let at = from;
  while (formula[at] === ' ') at += step;
  return formula[at] ?? '';
}

/** Two formulas, as the calculator reads them, have the same shape where their trees are the same. Undefined: the text alone does not tell. */
export function shapeOf(formula: string, { sheet, row, col }: Position): string | undefined {
  const range = formula.includes(':');
  // Which corner of a range is the first may hang on the row where one of them stays and the other moves.
  if (range && formula.includes('$')) return undefined;
  let shape = `${sheet} `;
  let from = 0;
  PIECE.lastIndex = 0;
  for (let found = PIECE.exec(formula); found; found = PIECE.exec(formula)) {
    const [word] = found;
    const end = found.index + word.length;
    if (word.startsWith('"') || word.startsWith("'")) continue;
    const next = formula[end];
    // A function or a table.
    if (next === '(' || next === '!') continue;
    const cell = CELL.exec(word);
    if (cell) {
      const [, fixedColumn, letters = '', fixedRow, number] = cell;
      const across = fixedColumn ? letters : columnOf(letters) - col;
      const down = fixedRow ? number : Number(number) - 1 - row;
      shape += `${formula.slice(from, found.index)}\u0001${fixedColumn}${across}\u0001${fixedRow}${down}\u0001`;
      from = end;
    } else if (!WORD.test(word)) return undefined;
    // Whole columns or rows lie beside the formula's own.
    else if (range && (beside(formula, end, 1) === ':' || beside(formula, found.index - 1, -1) === ':')) return undefined;
  }
  return shape + formula.slice(from);
}

interface Read {
  readonly errors: readonly unknown[];
}

export class Shapes<T extends Read> {
  readonly #known = new Map<string, T>();

  /** What was read of a formula of this shape. */
  known(formula: string, at: Position): T | undefined {
    const shape = shapeOf(formula, at);
    return shape === undefined ? undefined : this.#known.get(shape);
  }

  /** Reads a formula where none of its shape was read. What can't be read has words of its own place, and is not kept. */
  read(formula: string, at: Position, parse: () => T): T {
    const shape = shapeOf(formula, at);
    const known = shape === undefined ? undefined : this.#known.get(shape);
    if (known) return known;
    const made = parse();
    if (shape === undefined || made.errors.length > 0) return made;
    if (this.#known.size >= MOST) this.#known.clear();
    this.#known.set(shape, made);
    return made;
  }
}
