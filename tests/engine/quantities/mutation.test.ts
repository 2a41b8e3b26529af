import { describe, expect, test } from 'vitest';
import { columnText, tableText } from '../../../src/book/address.ts';
import type { Book } from '../../../src/book/book.ts';
import type { Position } from '../../../src/engine/addresses.ts';
import type { Content } from '../../../src/engine/formula-text.ts';
import type { Ast } from '../../../src/engine/hyper.ts';
import { Quantities, type QuantityHost } from '../../../src/engine/quantities/index.ts';
import { spliced, stretchesOf } from '../../../src/engine/quantities/stretches.ts';
import { hostOf } from '../../../src/engine/quantity-host.ts';
import { Workbook } from '../../../src/engine/workbook.ts';
import { slugs, templateBook } from '../../templates/open-template.ts';
import { random } from './random.ts';

/** 2,000 in all. */
const SWAPS = Math.ceil(2_000 / slugs.length);

const same = (a: Position, b: Position): boolean => a.sheet === b.sheet && a.row === b.row && a.col === b.col;

/** The references of a formula, but for those inside IS…(…): what these ask has an answer for a cell of any quantity, so that no swap there is a mistake of quantities. */
function references(ast: Ast, found: Ast[] = []): Ast[] {
  if (ast.type === 'CELL_REFERENCE') found.push(ast);
  else if (ast.type === 'FUNCTION_CALL' && /^IS[A-Z]+$/.test(ast.procedureName)) return found;
  else if (ast.type === 'FUNCTION_CALL') for (const arg of ast.args) references(arg, found);
  else if ('left' in ast) for (const side of [ast.left, ast.right]) references(side, found);
  else if (ast.type === 'PARENTHESES') references(ast.expression, found);
  else if (ast.type === 'MINUS_UNARY_OP' || ast.type === 'PLUS_UNARY_OP' || ast.type === 'PERCENT_OP') references(ast.value, found);
  return found;
}

/** A template whose one cell holds another formula. */
class Mutant implements QuantityHost {
  private readonly book: Workbook;
  private readonly original: QuantityHost;
  private mutated: { readonly at: Position; readonly formula: string } | undefined;
  readonly quantities: Quantities;

  constructor(book: Workbook) {
    this.book = book;
    this.original = hostOf(book);
    this.quantities = new Quantities(this);
    this.quantities.rebuild();
  }

  /** Whether the formula in place of the cell's own makes it or a cell that follows from it a unit error. */
  isFlagged(at: Position, formula: string): boolean {
    // Most are found in the formula itself: what follows from the cell need not be worked out for those.
    if (this.quantities.inferFormula(formula, at).kind.is === 'fail') return true;
    this.mutated = { at, formula };
    const changed = this.quantities.changed([at]);
    const flagged = [at, ...changed].some((place) => this.quantities.kindOf(place).is === 'fail');
    this.mutated = undefined;
    this.quantities.changed([at]);
    return flagged;
  }

  content(at: Position): Content {
    return this.mutated && same(at, this.mutated.at) ? { kind: 'formula', formula: this.mutated.formula } : this.original.content(at);
  }

  ast(at: Position): Ast | undefined {
    return this.mutated && same(at, this.mutated.at) ? this.book.hyper.parse(this.mutated.formula, at).ast : this.original.ast(at);
  }

  get currency(): string {
    return this.original.currency;
  }

  ownUnit = (at: Position): string | undefined => this.original.ownUnit(at);
  named = (name: string) => this.original.named(name);
  formulas = () => this.original.formulas();
  readers = (at: Position) => this.original.readers(at);
  parse = (formula: string, at: Position) => this.original.parse(formula, at);
  tokens = (formula: string) => this.original.tokens(formula);
  text = (ast: Ast, at: Position) => this.original.text(ast, at);
  address = (at: Position) => this.original.address(at);
  heading = (at: Position) => this.original.heading(at);
}

/** The template with a number for each given that has none yet, of those that it may be: what nobody has said has no quantity that anything could fail to fit. */
function answered(slug: string): Book {
  const book = templateBook(slug);
  const tables = book.tables.map((table) => ({
    ...table,
    cells: Object.fromEntries(
      Object.entries(table.cells).map(([row, cells]) => {
        const choices = table.rows.find(({ id }) => id === row)?.range?.oneOf;
        const number = Array.isArray(choices) ? choices.find((choice) => /^\d/.test(choice)) : undefined;
        return [
          row,
          Object.fromEntries(
            Object.entries(cells).map(([column, cell]) => [column, number && /^[a-z]/.test(cell.content) ? { ...cell, content: number } : cell]),
          ),
        ];
      }),
    ),
  }));
  return { ...book, tables };
}

describe.each(slugs)('One reference in a formula of the template %s swapped for a cell of another quantity', (slug) => {
  const book = new Workbook({});
  const template = answered(slug);
  book.load(template);
  const mutant = new Mutant(book);
  const formulas = [...mutant.formulas()].flatMap((at) => {
    const content = mutant.content(at);
    const ast = mutant.ast(at);
    return content.kind === 'formula' && ast ? [{ at, formula: content.formula, ast }] : [];
  });
  const numbers = [...book.sheets.filled()].flatMap(([at]) => {
    const kind = mutant.quantities.kindOf(at);
    return kind.is === 'number' ? [{ at, kind }] : [];
  });

  test('as they stand, no formula is flagged', () => {
    expect(formulas.length).toBeGreaterThan(20);
    expect(formulas.filter(({ at }) => mutant.quantities.kindOf(at).is === 'fail').map(({ at }) => mutant.address(at))).toEqual([]);
  });

  test(`is flagged in at least 99 % of ${SWAPS} swaps`, () => {
    const next = random(2026);
    const missed: string[] = [];
    let swaps = 0;
    while (swaps < SWAPS) {
      const picked = formulas[Math.floor(next() * formulas.length)];
      const other = numbers[Math.floor(next() * numbers.length)];
      if (!picked || !other) continue;
      const leaves = references(picked.ast);
      const leaf = leaves[Math.floor(next() * leaves.length)];
      if (leaf?.type !== 'CELL_REFERENCE') continue;
      const now = mutant.quantities.kindOf(leaf.reference.toSimpleCellAddress(picked.at));
      if (now.is !== 'number' || now === other.kind || same(other.at, picked.at)) continue;
      const stretch = stretchesOf(picked.ast, mutant.tokens(picked.formula)).get(leaf);
      if (!stretch) throw new Error(`no stretch in ${picked.formula}`);
      const name = template.tables[other.at.sheet]?.name ?? '';
      const swapped = spliced(picked.formula, [{ stretch, text: `${tableText(name)}.${columnText(other.at.col)}${other.at.row + 1}` }]);
      swaps++;
      if (!mutant.isFlagged(picked.at, swapped)) missed.push(`${mutant.address(picked.at)}: ${picked.formula} → ${swapped}`);
    }
    expect(missed.length, missed.slice(0, 40).join('\n')).toBeLessThanOrEqual(SWAPS / 100);
  });
});
