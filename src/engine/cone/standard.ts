/**
 * Functions of the standard that plans call most, on plain numbers and texts, as the calculator does them. Where something else stands there than is
 * plain, and for all other functions, the calculator is asked.
 */
import { int, mod, quotient, round, roundDown, roundUp } from '../../../functions/standard/rounding.ts';
import { left, len } from '../../../functions/standard/text.ts';
import { type Ast, BLANK, CellError, type Inner, plain } from '../hyper.ts';
import { isUnanswered } from '../register.ts';
import { type Around, isSingle, type Part, workOf } from './part.ts';

type Call = Extract<Ast, { type: 'FUNCTION_CALL' }>;

/** What is known to be the same; undefined where the calculator is to be asked. */
type Known = (formula: Around, call: Call) => (() => Inner) | undefined;

export function standardCall(formula: Around, call: Call): Part | undefined {
  const known = KNOWN[call.procedureName]?.(formula, call);
  if (!known) return undefined;
  const { work: otherwise } = formula.byCalculator(call);
  const work = (): Inner => {
    const value = known();
    return value === undefined ? otherwise() : value;
  };
  return { is: 'work', work, single: true };
}

/** The arguments as closures; undefined where one is left out or may be a range. */
function singles(formula: Around, call: Call): readonly (() => Inner)[] | undefined {
  if (call.args.some((arg) => arg.type === 'EMPTY')) return undefined;
  const parts = call.args.map((arg) => formula.part(arg));
  return parts.every(isSingle) ? parts.map(workOf) : undefined;
}

const finite = (x: number | undefined): Inner => (x !== undefined && Number.isFinite(x) ? x + 0 : undefined);

const ofNumber =
  (f: (x: number) => number | undefined): Known =>
  (formula, call) => {
    const [a, more] = singles(formula, call) ?? [];
    if (!a || more) return undefined;
    return () => {
      const x = a();
      return typeof x === 'number' ? finite(f(x)) : undefined;
    };
  };

const ofTwo =
  (f: (x: number, y: number) => number | undefined): Known =>
  (formula, call) => {
    const [a, b, more] = singles(formula, call) ?? [];
    if (!a || !b || more) return undefined;
    return () => {
      const [x, y] = [a(), b()];
      return typeof x === 'number' && typeof y === 'number' ? finite(f(x, y)) : undefined;
    };
  };

/** One number, or with the places to which it is rounded. */
const rounding =
  (f: (x: number, places?: number) => number): Known =>
  (formula, call) =>
    (call.args.length === 1 ? ofNumber((x) => f(x, 0)) : ofTwo(f))(formula, call);

const condition: Known = (formula, call) => {
  const [test, ...branches] = call.args.map((arg) => (arg.type === 'EMPTY' ? undefined : formula.part(arg)));
  if (!test || branches.length === 0 || branches.length > 2) return undefined;
  if (![test, ...branches].every((part) => part !== undefined && isSingle(part))) return undefined;
  const [a, then, otherwise] = [workOf(test), workOf(branches[0] as Part), branches[1] ? workOf(branches[1]) : () => false];
  return () => {
    const is = a();
    if (typeof is !== 'boolean' && typeof is !== 'number') return undefined;
    return is ? then() : otherwise();
  };
};

const isNumber: Known = (formula, call) => {
  const [a] = singles(formula, call) ?? [];
  return a && (() => typeof plain(a()) === 'number');
};

const isBlank: Known = (formula, call) => {
  const [a] = singles(formula, call) ?? [];
  if (!a) return undefined;
  return () => {
    const value = a();
    return value === BLANK || (value instanceof CellError && isUnanswered(value));
  };
};

/** Of single numbers and of ranges that hold nothing but numbers: texts are passed over in one and read in the other. */
const over =
  (start: number, add: (formula: Around) => (x: number, y: number) => number): Known =>
  (formula, call) => {
    const plus = add(formula);
    const takes: ((sum: number) => number | undefined)[] = [];
    for (const arg of call.args) {
      const span = arg.type === 'CELL_RANGE' ? formula.span(arg) : undefined;
      const part = span ? undefined : formula.part(arg);
      if (arg.type === 'EMPTY' || (part && !isSingle(part))) return undefined;
      if (part) {
        const of = workOf(part);
        takes.push((sum) => {
          const x = of();
          return typeof x === 'number' ? plus(sum, x) : undefined;
        });
      } else if (span && span.start.row <= span.end.row && span.start.col <= span.end.col) {
        const rows = formula.cellsOf(span);
        takes.push((sum) => {
          let all = start;
          for (const row of rows()) {
            for (const x of row) {
              if (typeof x !== 'number') return undefined;
              all = plus(all, x);
            }
          }
          return plus(all, sum);
        });
      } else return undefined;
    }
    if (takes.length === 0) return undefined;
    return () => {
      let sum: number | undefined = start;
      for (const take of takes) {
        sum = take(sum);
        if (sum === undefined) return undefined;
      }
      return finite(sum);
    };
  };

/** A cell of a range, by places that are whole and lie within it. */
const index: Known = (formula, call) => {
  const [range, ...places] = call.args;
  if (!range || places.length === 0 || places.length > 2 || call.args.some((arg) => arg.type === 'EMPTY')) return undefined;
  const span = formula.span(range);
  if (!span || span.start.row > span.end.row || span.start.col > span.end.col) return undefined;
  const parts = places.map((arg) => formula.part(arg));
  if (!parts.every(isSingle)) return undefined;
  const [height, width] = [span.end.row - span.start.row + 1, span.end.col - span.start.col + 1];
  if (parts.length === 1 && height > 1 && width > 1) return undefined;
  const [first, second] = parts.map(workOf) as [() => Inner, (() => Inner)?];
  const there = (place: Inner, count: number): place is number => typeof place === 'number' && Number.isInteger(place) && place >= 1 && place <= count;
  return () => {
    const x = first();
    const y = second ? second() : 1;
    // Of one row the only place is the column.
    const [row, col] = second || height > 1 ? [x, y] : [1, x];
    if (!there(row, height) || !there(col, width)) return undefined;
    const at = { sheet: span.start.sheet, row: span.start.row + row - 1, col: span.start.col + col - 1 };
    return formula.cellAt(at);
  };
};

const KNOWN: Readonly<Record<string, Known>> = {
  IF: condition,
  INDEX: index,
  ISNUMBER: isNumber,
  ISBLANK: isBlank,
  MAX: over(Number.NEGATIVE_INFINITY, () => Math.max),
  MIN: over(Number.POSITIVE_INFINITY, () => Math.min),
  SUM: over(
    0,
    ({ epsilon }) =>
      (a, b) =>
        Math.abs(a + b) < epsilon * Math.abs(a) ? 0 : a + b,
  ),
  SQRT: ofNumber((x) => (x < 0 ? undefined : Math.sqrt(x))),
  MOD: ofTwo(mod),
  INT: ofNumber(int),
  ROUND: rounding(round),
  ROUNDUP: rounding(roundUp),
  ROUNDDOWN: rounding(roundDown),
  TRUNC: rounding(roundDown),
  QUOTIENT: ofTwo(quotient),
  LEN: (formula, call) => {
    const [a] = singles(formula, call) ?? [];
    if (!a) return undefined;
    return () => {
      const text = a();
      return typeof text === 'string' ? len(text) : undefined;
    };
  },
  LEFT: (formula, call) => {
    const [a, b] = singles(formula, call) ?? [];
    if (!a || !b) return undefined;
    return () => {
      const [text, length] = [a(), b()];
      return typeof text === 'string' && typeof length === 'number' ? left(text, length) : undefined;
    };
  },
};
