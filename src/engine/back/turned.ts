/**
 * The formulas between a given and a worked cell, turned round: a formula by which the given follows what is wanted for good. Only where it comes in once, and
 * every step on the way there can be undone in plain arithmetic or by a function that is the other's inverse.
 */
import { withCurrency } from '../../../functions/units.ts';
import { rewriteFormula } from '../../book/references.ts';
import { keyOf, type Position } from '../addresses.ts';
import type { Ast } from '../hyper.ts';
import { recordOf } from '../register.ts';
import type { Workbook } from '../workbook.ts';

type Call = Extract<Ast, { type: 'FUNCTION_CALL' }>;

/**
 * How a function's result goes with each of its arguments, from what its record says: with it, against it (its reciprocal), or with it but not from 0 on.
 * Left out: in no way that can be turned round.
 */
const GOES: Readonly<Record<string, readonly ('with' | 'against' | 'straight' | undefined)[]>> = {
  DLI: ['with', 'with'],
  'PPFD.FOR.DLI': ['with', 'against'],
  'HOURS.FOR.DLI': ['with', 'against'],
  'POINT.PPFD': ['with'],
  'BAR.PPFD': ['with'],
  'LUX.TO.PPFD': ['with', 'against'],
  'PPFD.TO.LUX': ['with', 'with'],
  'MAINTENANCE.FACTOR': [undefined, undefined, 'with'],
  'MAINTENANCE.MEAN': [undefined, undefined, 'with'],
  'ENERGY.USE': ['with', 'against', 'with', 'with'],
  'RUN.COST': ['straight', 'straight', 'straight', 'straight'],
  'ANNUAL.CAPITAL': ['with'],
  'PRESENT.COST': ['straight', 'straight'],
  'COST.PER.MOL': ['straight', 'straight', 'against'],
  'PAYBACK.YEARS': ['with', 'against'],
  'CABLE.DROP': ['with', 'against', 'with', 'with'],
  'CABLE.REACH': ['against', 'against', 'with', 'with'],
  'SUPPLY.AMPS': ['with', 'against'],
  'SUPPLY.LOAD': ['with', 'against'],
  'MAINS.AMPS': ['with', 'against', 'against', 'against'],
  'HANG.LOAD': ['with', 'against', 'with'],
  'HEAT.WATTS': ['with', 'against'],
  EFFICACY: ['with', 'against', 'with'],
};

export type Turned = { readonly formula: string } | { readonly why: string };

/** A text in brackets, where it is not one thing already: a cell, a name, a number or a call. */
const whole = (text: string): string => (/^[\w.$']+$/u.test(text) || closesAtEnd(text) ? text : `(${text})`);

/** Whether the first bracket of a text, its first letter or what stands after one name, closes with its last letter. */
function closesAtEnd(text: string): boolean {
  if (!/^[A-Z.\d]*\(/.test(text) || /["']/.test(text)) return false;
  let depth = 0;
  for (const [i, letter] of [...text].entries()) {
    if (letter === '(') depth++;
    if (letter === ')' && --depth === 0) return i === text.length - 1;
  }
  return false;
}

/** Without brackets about all of it. */
function bare(text: string): string {
  let depth = 0;
  for (const [i, letter] of [...text].entries()) {
    if (i === 0 && letter !== '(') return text;
    if (letter === '(') depth++;
    if (letter === ')' && --depth === 0) return i === text.length - 1 ? text.slice(1, -1) : text;
  }
  return text;
}

/** Why a step can't be turned round. */
class Stuck extends Error {}

/** `target`: what the cell is to come to, as a formula says it. `moves`: whether a cell follows from the given. */
export function turned(workbook: Workbook, cell: Position, given: Position, target: string, moves: (at: Position) => boolean): Turned {
  try {
    return { formula: `=${bare(new Turner(workbook, given, moves).ofCell(cell, target))}` };
  } catch (error) {
    if (error instanceof Stuck) return { why: error.message };
    throw error;
  }
}

class Turner {
  readonly #workbook: Workbook;
  readonly #given: Position;
  readonly #moves: (at: Position) => boolean;

  constructor(workbook: Workbook, given: Position, moves: (at: Position) => boolean) {
    this.#workbook = workbook;
    this.#given = given;
    this.#moves = moves;
  }

  /** What the given must be for a cell to come to the target. */
  ofCell(at: Position, target: string): string {
    if (keyOf(at) === keyOf(this.#given)) return target;
    const ast = this.#workbook.formulaIn(at);
    if (!ast) throw new Stuck(`${this.#workbook.sheets.address(at)} has no formula that can be turned round`);
    return this.#of(ast, at, target);
  }

  #of(ast: Ast, at: Position, target: string): string {
    switch (ast.type) {
      case 'PARENTHESES':
        return this.#of(ast.expression, at, target);
      case 'PLUS_UNARY_OP':
        return this.#of(ast.value, at, target);
      case 'MINUS_UNARY_OP':
        return this.#of(ast.value, at, `(0-${target})`);
      case 'PLUS_OP':
      case 'MINUS_OP':
      case 'TIMES_OP':
      case 'DIV_OP':
        return this.#ofPair(ast, at, target);
      case 'FUNCTION_CALL':
        return this.#ofCall(ast, at, target);
      default: {
        const span = this.#workbook.span(ast, at);
        if (span && keyOf(span.start) === keyOf(span.end)) return this.ofCell(span.start, target);
        throw new Stuck(`${this.#text(ast, at)} can’t be turned round`);
      }
    }
  }

  #ofPair(ast: Extract<Ast, { left: Ast }>, at: Position, target: string): string {
    const [left, right] = [this.#varies(ast.left, at), this.#varies(ast.right, at)];
    if (left && right) throw this.#twice(at);
    const other = whole(this.#text(left ? ast.right : ast.left, at));
    const inner = left ? ast.left : ast.right;
    const undone = {
      PLUS_OP: `(${target}-${other})`,
      MINUS_OP: left ? `(${target}+${other})` : `(${other}-${target})`,
      TIMES_OP: `(${target}/${other})`,
      DIV_OP: left ? `(${target}*${other})` : `(${other}/${target})`,
    }[ast.type as 'PLUS_OP' | 'MINUS_OP' | 'TIMES_OP' | 'DIV_OP'];
    return this.#of(inner, at, undone);
  }

  #ofCall(call: Call, at: Position, target: string): string {
    const name = call.procedureName.toUpperCase();
    const varying = call.args.flatMap((arg, i) => (this.#varies(arg, at) ? [i] : []));
    const [i, more] = varying;
    const arg = i === undefined ? undefined : call.args[i];
    if (i === undefined || !arg) throw new Stuck(`${name} does not follow from it`);
    if (more !== undefined) throw this.#twice(at);
    // The mean over a bench is turned round by the function that looks for its height.
    if (name === 'BENCH.MEAN' && i === 1) return this.#of(arg, at, `MOUNT.HEIGHT(${this.#text(call.args[0] as Ast, at)},${bare(target)})`);
    // Without a demand charge a running cost goes with its tariff from 0 on.
    const goes = name === 'RUN.COST' && call.args.length === 2 ? 'with' : GOES[name]?.[i];
    const param = recordOf(name)?.params[i];
    // Where the supply may stand outside, the heat may not follow its efficiency.
    if (!goes || !param || (name === 'HEAT.WATTS' && call.args.length > 2)) throw new Stuck(`${name} has no inverse here`);
    const unit = withCurrency(param.unit, this.#workbook.currency);
    const amount = (n: number): string => (unit === '1' ? String(n) : `UNIT(${n},"${unit}")`);
    const with_ = (written: string): string => `${name}(${call.args.map((one, k) => (k === i ? written : this.#text(one, at))).join(',')})`;
    if (goes === 'with') return this.#of(arg, at, `(${target}/${with_(amount(1))}*${amount(1)})`);
    if (goes === 'against') return this.#of(arg, at, `(${with_(amount(1))}/${target}*${amount(1)})`);
    return this.#of(arg, at, `((${target}-${with_(amount(0))})/(${with_(amount(1))}-${with_(amount(0))})*${amount(1)})`);
  }

  #twice(at: Position): Stuck {
    return new Stuck(`it comes into ${this.#workbook.sheets.address(at)} more than once`);
  }

  #varies(ast: Ast, at: Position): boolean {
    switch (ast.type) {
      case 'PARENTHESES':
        return this.#varies(ast.expression, at);
      case 'MINUS_UNARY_OP':
      case 'PLUS_UNARY_OP':
      case 'PERCENT_OP':
        return this.#varies(ast.value, at);
      case 'FUNCTION_CALL':
        return ast.args.some((arg) => this.#varies(arg, at));
      case 'ARRAY':
        return ast.args.flat().some((arg) => this.#varies(arg, at));
      default: {
        if ('left' in ast) return this.#varies(ast.left, at) || this.#varies(ast.right, at);
        const span = this.#workbook.span(ast, at);
        if (!span) return false;
        for (let row = span.start.row; row <= span.end.row; row++) {
          for (let col = span.start.col; col <= span.end.col; col++) if (this.#moves({ sheet: span.start.sheet, row, col })) return true;
        }
        return false;
      }
    }
  }

  /** A part of the formula in one cell, as it is written in the given's. */
  #text(ast: Ast, at: Position): string {
    const { sheets, hyper } = this.#workbook;
    const [there, here] = [at, this.#given].map(({ sheet }) => sheets.tables[sheet]?.name);
    return rewriteFormula(hyper.text(ast, at).replace(/^=/, ''), (reference) => {
      const table = reference.table ?? there;
      const { table: _, ...bare } = reference;
      return { ...bare, table: table?.toLowerCase() === here?.toLowerCase() ? undefined : table };
    });
  }
}
