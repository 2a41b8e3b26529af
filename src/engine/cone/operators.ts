/** Operators on plain numbers and texts, as the calculator does them; everything else is left to it. */
import type { Ast, BinaryType, Inner } from '../hyper.ts';
import { type Around, isSingle, type Part, workOf, written } from './part.ts';

type Sum = (a: number, b: number) => number | boolean | undefined;

/** What is left of a difference that is as good as nothing is 0, and two numbers as good as equal are equal. */
function arithmetic(epsilon: number): Readonly<Partial<Record<BinaryType, Sum>>> {
  const near = 1 + epsilon;
  const compared = (a: number, b: number): number => {
    if (b >= 0 && a * near >= b && a <= b * near) return 0;
    if (b <= 0 && a * near <= b && a >= b * near) return 0;
    return a > b ? 1 : -1;
  };
  const left = (difference: number, a: number): number => (Math.abs(difference) < epsilon * Math.abs(a) ? 0 : difference);
  return {
    PLUS_OP: (a, b) => left(a + b, a),
    MINUS_OP: (a, b) => left(a - b, a),
    TIMES_OP: (a, b) => a * b,
    DIV_OP: (a, b) => (b === 0 ? undefined : a / b),
    POWER_OP: (a, b) => a ** b,
    EQUALS_OP: (a, b) => compared(a, b) === 0,
    NOT_EQUAL_OP: (a, b) => compared(a, b) !== 0,
    GREATER_THAN_OP: (a, b) => compared(a, b) > 0,
    LESS_THAN_OP: (a, b) => compared(a, b) < 0,
    GREATER_THAN_OR_EQUAL_OP: (a, b) => compared(a, b) >= 0,
    LESS_THAN_OR_EQUAL_OP: (a, b) => compared(a, b) <= 0,
  };
}

/** The closure of an operator; undefined where an operand may be a range. */
export function operator(formula: Around, ast: Ast): Part | undefined {
  if ('left' in ast) return binary(formula, ast);
  if (ast.type === 'MINUS_UNARY_OP' || ast.type === 'PLUS_UNARY_OP' || ast.type === 'PERCENT_OP') return unary(formula, ast);
  return undefined;
}

function binary(formula: Around, ast: Extract<Ast, { type: BinaryType }>): Part | undefined {
  const [left, right] = [formula.part(ast.left), formula.part(ast.right)];
  if (!isSingle(left) || !isSingle(right)) return undefined;
  const [a, b, { type }] = [workOf(left), workOf(right), ast];
  const otherwise = (x: Inner, y: Inner): Inner => formula.operated({ type, left: written(x), right: written(y) });
  if (type === 'CONCATENATE_OP') {
    const join = (): Inner => {
      const [x, y] = [a(), b()];
      return typeof x === 'string' && typeof y === 'string' ? x + y : otherwise(x, y);
    };
    return { is: 'work', work: join, single: true };
  }
  const sum = arithmetic(formula.epsilon)[type];
  if (!sum) return undefined;
  const work = (): Inner => {
    const [x, y] = [a(), b()];
    const made = typeof x === 'number' && typeof y === 'number' ? sum(x, y) : undefined;
    if (typeof made === 'boolean') return made;
    return typeof made === 'number' && Number.isFinite(made) ? made + 0 : otherwise(x, y);
  };
  return { is: 'work', work, single: true };
}

function unary(formula: Around, ast: Extract<Ast, { type: 'MINUS_UNARY_OP' | 'PLUS_UNARY_OP' | 'PERCENT_OP' }>): Part | undefined {
  const { type } = ast;
  const part = formula.part(ast.value);
  if (!isSingle(part)) return undefined;
  const of = workOf(part);
  const work = (): Inner => {
    const x = of();
    // A per cent carries a format of its own.
    return typeof x === 'number' && type !== 'PERCENT_OP' ? (type === 'MINUS_UNARY_OP' ? -x + 0 : x) : formula.operated({ type, value: written(x) });
  };
  return { is: 'work', work, single: true };
}
