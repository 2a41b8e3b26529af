/**
 * Functions of the open standard that the calculator lacks or gets wrong, put in its place. The plain arithmetic is in
 * functions/standard; here the calculator's own way of taking arguments is kept, so that they mix with its other ones.
 */
import { CellError, EmptyValue, ErrorType, FunctionArgumentType, FunctionPlugin, HyperFormula } from 'hyperformula';
import type { CellValue } from '../../functions/define.ts';
import { lastNotAbove } from '../../functions/standard/lookup.ts';
import { mode, rank } from '../../functions/standard/ranking.ts';
import { line } from '../../functions/standard/regression.ts';
import { ceiling, even, floor, int, mod, odd, quotient, round, roundDown, roundUp } from '../../functions/standard/rounding.ts';
import { find, left, len, mid, replace, right, substitute, times, trim } from '../../functions/standard/text.ts';
import { hour, minute, moment, numberIn, second, time } from '../../functions/standard/time.ts';
import { NOT_ANSWERED, pack, TOO_LARGE, unpack } from './errors.ts';
import { FORMULA_BOUNDS } from './formula-bounds.ts';
import { type Ast, plain, type Raw, SimpleRangeValue } from './hyper.ts';

const { NUMBER, RANGE, STRING, SCALAR, NOERROR } = FunctionArgumentType;

const notFound = (message: string): CellError => new CellError(ErrorType.NA, pack({ word: 'not found', message }));
const wrong = (message: string): CellError => new CellError(ErrorType.NUM, pack({ word: 'no number', message }));

const tooLong = (name: string): CellError =>
  new CellError(ErrorType.VALUE, pack({ word: TOO_LARGE, message: `${name} would give a text of more than ${FORMULA_BOUNDS.text} characters.` }));
const noPart = (name: string): CellError => wrong(`${name} counts characters from 1, and takes no length below 0.`);

const EXAMPLES = { number: '1000, 5 % or 1 3/4', date: '2026-05-21', time: '14:30' } as const;
const saysNo = (name: string, what: keyof typeof EXAMPLES): CellError =>
  new CellError(ErrorType.VALUE, pack({ word: 'no number', message: `${name} finds no ${what} in this text; it reads ${EXAMPLES[what]}.` }));

const isUnanswered = (value: Raw): boolean => value instanceof CellError && unpack(value.message)?.word === NOT_ANSWERED;

const divided = (answer: number | undefined): number | CellError => answer ?? new CellError(ErrorType.DIV_BY_ZERO);

/** A number, or the error that says why not: the two signs must agree. */
const orSigns = (name: string, answer: number | undefined): number | CellError => answer ?? wrong(`${name} needs a number and a step of the same sign.`);

const numbersOf = (range: SimpleRangeValue): readonly number[] =>
  range
    .valuesFromTopLeftCorner()
    .map(plain)
    .filter((v) => typeof v === 'number');

const valuesOf = (range: SimpleRangeValue): readonly CellValue[] =>
  range.valuesFromTopLeftCorner().map((inner) => {
    const value = plain(inner);
    return typeof value === 'object' ? null : value;
  });

/** The pairs in which both are numbers. */
function pairs(ys: SimpleRangeValue, xs: SimpleRangeValue): { readonly ys: readonly number[]; readonly xs: readonly number[] } | undefined {
  const [left, right] = [valuesOf(ys), valuesOf(xs)];
  if (left.length !== right.length) return undefined;
  const kept = left.flatMap((y, i) => {
    const x = right[i];
    return typeof y === 'number' && typeof x === 'number' ? [{ x, y }] : [];
  });
  return { ys: kept.map((pair) => pair.y), xs: kept.map((pair) => pair.x) };
}

function lineThrough(ys: SimpleRangeValue, xs: SimpleRangeValue, answer: (fit: { slope: number; intercept: number }) => number): number | CellError {
  const taken = pairs(ys, xs);
  if (!taken) return notFound('The two ranges must hold equally many cells.');
  const fit = line(taken.ys, taken.xs);
  return fit ? answer(fit) : wrong('A line needs two pairs of numbers or more, with different x.');
}

function lookUp(wanted: CellValue, searched: SimpleRangeValue, results: SimpleRangeValue | undefined): unknown {
  const [width, height] = [searched.width(), searched.height()];
  const across = width > height;
  const data = searched.rawData();
  const keys = across ? (data[0] ?? []) : data.map((row) => row[0]);
  const at = lastNotAbove(
    wanted,
    keys.map((key) => {
      const value = plain(key);
      return typeof value === 'object' ? null : value;
    }),
  );
  if (at === undefined) return notFound(`LOOKUP found nothing up to ${String(wanted)}.`);
  if (results) return results.valuesFromTopLeftCorner()[at] ?? notFound('The range of results is shorter than the range that is searched.');
  return across ? data[height - 1]?.[at] : data[at]?.[width - 1];
}

interface Metadata {
  readonly method: string;
  readonly parameters?: readonly object[];
  readonly repeatLastArgs?: number;
  /** The function takes the cells of a range one by one. */
  readonly expandRanges?: boolean;
}

const number = { argumentType: NUMBER };
const optional = { argumentType: NUMBER, optionalArg: true };
const places = { argumentType: NUMBER, defaultValue: 0 };
const one = { argumentType: NUMBER, defaultValue: 1 };
const text = { argumentType: STRING };
const range = { argumentType: RANGE };

const IMPLEMENTED: Readonly<Record<string, Metadata>> = {
  INT: { method: 'int', parameters: [number] },
  ROUND: { method: 'round', parameters: [number, places] },
  ROUNDUP: { method: 'roundUp', parameters: [number, places] },
  ROUNDDOWN: { method: 'roundDown', parameters: [number, places] },
  TRUNC: { method: 'roundDown', parameters: [number, places] },
  EVEN: { method: 'even', parameters: [number] },
  ODD: { method: 'odd', parameters: [number] },
  QUOTIENT: { method: 'quotient', parameters: [number, number] },
  MOD: { method: 'mod', parameters: [number, number] },
  CEILING: { method: 'ceiling', parameters: [number, optional, places] },
  FLOOR: { method: 'floor', parameters: [number, optional, places] },
  RANK: { method: 'rank', parameters: [number, range, places] },
  MODE: { method: 'mode', parameters: [range], repeatLastArgs: 1 },
  INTERCEPT: { method: 'intercept', parameters: [range, range] },
  FORECAST: { method: 'forecast', parameters: [number, range, range] },
  LOOKUP: { method: 'lookup', parameters: [{ argumentType: NOERROR }, range, { argumentType: RANGE, optionalArg: true }] },
  LEN: { method: 'len', parameters: [text] },
  LEFT: { method: 'left', parameters: [text, one] },
  RIGHT: { method: 'right', parameters: [text, one] },
  MID: { method: 'mid', parameters: [text, number, number] },
  FIND: { method: 'find', parameters: [text, text, one] },
  REPLACE: { method: 'replace', parameters: [text, number, number, text] },
  SUBSTITUTE: { method: 'substitute', parameters: [text, text, text, optional] },
  TRIM: { method: 'trim', parameters: [text] },
  REPT: { method: 'rept', parameters: [text, number] },
  VALUE: { method: 'value', parameters: [{ argumentType: SCALAR }] },
  DATEVALUE: { method: 'dateValue', parameters: [text] },
  TIMEVALUE: { method: 'timeValue', parameters: [text] },
  TIME: { method: 'time', parameters: [number, number, number] },
  HOUR: { method: 'hour', parameters: [number] },
  MINUTE: { method: 'minute', parameters: [number] },
  SECOND: { method: 'second', parameters: [number] },
  ISBLANK: { method: 'isBlank', parameters: [{ argumentType: SCALAR }] },
  COUNTA: { method: 'countFilled', parameters: [{ argumentType: SCALAR }], repeatLastArgs: 1, expandRanges: true },
  COUNTBLANK: { method: 'countBlank', parameters: [range] },
};

interface Call {
  readonly procedureName: string;
  readonly args: readonly Ast[];
}

class PutIn extends FunctionPlugin {
  private run(call: Call, state: unknown, work: (...args: never[]) => unknown): unknown {
    return this.runFunction(call.args as never, state as never, this.metadata(call.procedureName), work as never);
  }

  int(call: Call, state: unknown): unknown {
    return this.run(call, state, int);
  }

  round(call: Call, state: unknown): unknown {
    return this.run(call, state, round);
  }

  roundUp(call: Call, state: unknown): unknown {
    return this.run(call, state, roundUp);
  }

  roundDown(call: Call, state: unknown): unknown {
    return this.run(call, state, roundDown);
  }

  even(call: Call, state: unknown): unknown {
    return this.run(call, state, even);
  }

  odd(call: Call, state: unknown): unknown {
    return this.run(call, state, odd);
  }

  quotient(call: Call, state: unknown): unknown {
    return this.run(call, state, (x: number, by: number) => divided(quotient(x, by)));
  }

  mod(call: Call, state: unknown): unknown {
    return this.run(call, state, (x: number, by: number) => divided(mod(x, by)));
  }

  ceiling(call: Call, state: unknown): unknown {
    return this.run(call, state, (x: number, by: number | undefined, mode: number) => orSigns('CEILING', ceiling(x, by, mode)));
  }

  floor(call: Call, state: unknown): unknown {
    return this.run(call, state, (x: number, by: number | undefined, mode: number) => orSigns('FLOOR', floor(x, by, mode)));
  }

  rank(call: Call, state: unknown): unknown {
    return this.run(
      call,
      state,
      (x: number, data: SimpleRangeValue, order: number) => rank(x, numbersOf(data), order !== 0) ?? notFound('RANK: the number is not among the data.'),
    );
  }

  mode(call: Call, state: unknown): unknown {
    return this.run(call, state, (...data: SimpleRangeValue[]) => mode(data.flatMap(numbersOf)) ?? notFound('MODE: no number comes twice.'));
  }

  intercept(call: Call, state: unknown): unknown {
    return this.run(call, state, (ys: SimpleRangeValue, xs: SimpleRangeValue) => lineThrough(ys, xs, (fit) => fit.intercept));
  }

  forecast(call: Call, state: unknown): unknown {
    return this.run(call, state, (x: number, ys: SimpleRangeValue, xs: SimpleRangeValue) => lineThrough(ys, xs, (fit) => fit.intercept + fit.slope * x));
  }

  lookup(call: Call, state: unknown): unknown {
    return this.run(call, state, lookUp);
  }

  len(call: Call, state: unknown): unknown {
    return this.run(call, state, len);
  }

  left(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string, length: number) => left(text, length) ?? noPart('LEFT'));
  }

  right(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string, length: number) => right(text, length) ?? noPart('RIGHT'));
  }

  mid(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string, start: number, length: number) => mid(text, start, length) ?? noPart('MID'));
  }

  find(call: Call, state: unknown): unknown {
    return this.run(call, state, (wanted: string, text: string, start: number) => find(wanted, text, start) ?? notFound(`FIND does not find that text.`));
  }

  replace(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string, start: number, count: number, added: string) => replace(text, start, count, added) ?? noPart('REPLACE'));
  }

  substitute(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string, old: string, added: string, which: number | undefined) => {
      if (text.length + times(text, old) * (added.length - old.length) > FORMULA_BOUNDS.text) return tooLong('SUBSTITUTE');
      return substitute(text, old, added, which) ?? wrong('SUBSTITUTE counts from 1.');
    });
  }

  trim(call: Call, state: unknown): unknown {
    return this.run(call, state, trim);
  }

  rept(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string, times: number) => {
      const count = Math.trunc(times);
      if (count < 0) return wrong('REPT needs a number of times that is not negative.');
      return text.length * count > FORMULA_BOUNDS.text ? tooLong('REPT') : text.repeat(count);
    });
  }

  value(call: Call, state: unknown): unknown {
    return this.run(call, state, (value: unknown) => {
      const given = plain(value);
      return typeof given === 'number' ? given : ((typeof given === 'string' ? numberIn(given) : undefined) ?? saysNo('VALUE', 'number'));
    });
  }

  dateValue(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string) => moment(text)?.day ?? saysNo('DATEVALUE', 'date'));
  }

  timeValue(call: Call, state: unknown): unknown {
    return this.run(call, state, (text: string) => moment(text)?.time ?? saysNo('TIMEVALUE', 'time'));
  }

  time(call: Call, state: unknown): unknown {
    return this.run(call, state, time);
  }

  hour(call: Call, state: unknown): unknown {
    return this.run(call, state, hour);
  }

  minute(call: Call, state: unknown): unknown {
    return this.run(call, state, minute);
  }

  second(call: Call, state: unknown): unknown {
    return this.run(call, state, second);
  }

  isBlank(call: Call, state: unknown): unknown {
    return this.run(call, state, (value: unknown) => value === EmptyValue || isUnanswered(plain(value)));
  }

  countFilled(call: Call, state: unknown): unknown {
    return this.count(call, state, (value) => value !== null && !isUnanswered(value));
  }

  countBlank(call: Call, state: unknown): unknown {
    return this.count(call, state, (value) => value === null || isUnanswered(value));
  }

  private count(call: Call, state: unknown, counts: (value: Raw) => boolean): number {
    let n = 0;
    for (const arg of call.args) {
      const value = this.evaluateAst(arg as never, state as never) as unknown;
      const values = value instanceof SimpleRangeValue ? value.valuesFromTopLeftCorner().map(plain) : [plain(value)];
      n += values.filter(counts).length;
    }
    return n;
  }
}

PutIn.implementedFunctions = IMPLEMENTED as never;

const names = Object.keys(IMPLEMENTED);

HyperFormula.registerFunctionPlugin(PutIn, { enGB: Object.fromEntries(names.map((name) => [name, name])) });

/** The standard's functions that are put in here. */
export const PUT_IN: readonly string[] = names;
