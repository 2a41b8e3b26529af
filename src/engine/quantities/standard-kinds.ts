/**
 * Kinds of the standard's functions. What is not in this table takes and gives plain numbers (or gives text), so that no
 * function is ever unknown: ROUND, EXP, TEXT and their kin see base values, and must not be given quantities.
 */
import { placeNumber } from '../../../functions/standard/rounding.ts';
import { need, over, PLAIN, times } from '../../../functions/units.ts';
import type { Span } from '../addresses.ts';
import type { Ast } from '../hyper.ts';
import { criterion } from './criteria.ts';
import type { FormulaParts } from './formula-parts.ts';
import { any, isPlain, isQuantity, type Kind, kindWords, numberKind, numeric, plainNumber, samePosition, text, yesOrNo } from './kind.ts';
import { constant, isWritten } from './written.ts';

export type Call = Extract<Ast, { type: 'FUNCTION_CALL' }>;
type Rule = (inference: FormulaParts, call: Call) => Kind;

const angle = numberKind(need('rad').dimension);
const difference = numberKind(need('K').dimension);

const words = (names: string): readonly string[] => names.trim().split(/\s+/);

function rules(names: string, rule: Rule): readonly (readonly [string, Rule])[] {
  return words(names).map((name) => [name, rule] as const);
}

const fails = (inference: FormulaParts, args: readonly Ast[]): Kind | undefined => args.map((arg) => inference.infer(arg)).find((kind) => kind.is === 'fail');

const plainArgs = (inference: FormulaParts, call: Call, args: readonly Ast[]): Kind | undefined => {
  for (const arg of args) {
    const fault = inference.plain(arg, call.procedureName);
    if (fault) return fault;
  }
  return undefined;
};

const alike = (inference: FormulaParts, call: Call, args: readonly Ast[], readings: 'allowed' | 'refused' = 'refused'): Kind =>
  numeric(inference.oneKind(args, { what: `${call.procedureName} takes`, readings }));

/** All arguments of one kind, which is the result's: SUM. */
const keepsAll: Rule = (inference, call) => alike(inference, call, call.args);
const keepsAllReadings: Rule = (inference, call) => alike(inference, call, call.args, 'allowed');

/** The first argument's kind, the others being plain: LARGE. */
const keepsFirst: Rule = (inference, call) => plainArgs(inference, call, call.args.slice(1)) ?? alike(inference, call, call.args.slice(0, 1), 'allowed');

/** The spread of some numbers: of readings it is a difference. */
const spread: Rule = (inference, call) => {
  const kind = alike(inference, call, call.args, 'allowed');
  return kind.is === 'number' && kind.reading ? difference : kind;
};

function squared(kind: Kind): Kind {
  if (kind.is !== 'number') return kind;
  return numberKind(times(kind.dimension, kind.dimension));
}

const plainOfAny: Rule = (inference, call) => fails(inference, call.args) ?? plainNumber;
const yesOfAny: Rule = (inference, call) => fails(inference, call.args) ?? yesOrNo;

/** Conditions: a yes or no, or a plain number that is 0 or not. */
const logic: Rule = (inference, call) => {
  for (const arg of call.args) {
    const fault = condition(inference, call, arg);
    if (fault) return fault;
  }
  return yesOrNo;
};

function condition(inference: FormulaParts, call: Call, arg: Ast): Kind | undefined {
  const kind = inference.infer(arg);
  if (kind.is === 'fail') return kind;
  if (isQuantity(kind))
    return inference.fail(`${call.procedureName} asks for a yes or no; ${inference.described(arg)} is ${kindWords(kind)}: compare it with something.`);
  return undefined;
}

/** A plain number, or an angle: SIN. */
const ofAngle =
  (gives: Kind): Rule =>
  (inference, call) => {
    const [arg] = call.args;
    const kind = arg ? inference.infer(arg) : any;
    if (kind.is === 'fail') return kind;
    return kind === angle ? gives : ((arg && inference.plain(arg, call.procedureName)) ?? gives);
  };

const toAngle: Rule = (inference, call) => plainArgs(inference, call, call.args) ?? angle;

/** Money (or anything of one kind) among plain numbers: positions of the amounts. */
const amounts =
  (positions: readonly number[], gives: 'amount' | 'plain'): Rule =>
  (inference, call) => {
    const at = (i: number): boolean => positions.includes(i) || (positions.at(-1) === -1 && i >= (positions[0] ?? 0));
    const fault = plainArgs(
      inference,
      call,
      call.args.filter((_, i) => !at(i)),
    );
    if (fault) return fault;
    const kind = alike(
      inference,
      call,
      call.args.filter((_, i) => at(i)),
    );
    return kind.is === 'fail' || gives === 'amount' ? kind : plainNumber;
  };

/** Two ranges that belong together, number by number: the kinds of both, or the first failure. */
function pair(inference: FormulaParts, call: Call, i: number, j: number): readonly [Kind, Kind] | Kind {
  const [a, b] = [call.args[i], call.args[j]];
  const left = a ? alike(inference, call, [a], 'allowed') : any;
  if (left.is === 'fail') return left;
  const right = b ? alike(inference, call, [b], 'allowed') : any;
  return right.is === 'fail' ? right : [left, right];
}

const isPair = (found: readonly [Kind, Kind] | Kind): found is readonly [Kind, Kind] => Array.isArray(found);

const dimensionOf = (kind: Kind) => (kind.is === 'number' ? kind.dimension : PLAIN);

const plainOfPair: Rule = (inference, call) => {
  const found = pair(inference, call, 0, 1);
  return isPair(found) ? plainNumber : found;
};

const joined = (inference: FormulaParts, args: readonly Ast[], what: string): Kind => inference.oneKind(args, { what, readings: 'allowed' });

function ifRule(inference: FormulaParts, call: Call): Kind {
  const [test, ...branches] = call.args;
  const fault = test && condition(inference, call, test);
  return fault ?? joined(inference, branches, 'IF gives');
}

/** The part of a range that written row and column numbers pick. */
function picked(span: Span, row: number | undefined, col: number | undefined): Span {
  const rows = row && row > 0 ? { start: span.start.row + row - 1, end: span.start.row + row - 1 } : { start: span.start.row, end: span.end.row };
  const cols = col && col > 0 ? { start: span.start.col + col - 1, end: span.start.col + col - 1 } : { start: span.start.col, end: span.end.col };
  return { start: { ...span.start, row: rows.start, col: cols.start }, end: { ...span.end, row: rows.end, col: cols.end } };
}

export function kindOfPart(inference: FormulaParts, call: Call, span: Span): Kind {
  const kind = samePosition(span.start, span.end) ? inference.cells.kindOf(span.start) : inference.cells.kindOfSpan(span);
  if (kind.is !== 'mixed') return kind;
  const { one, other } = kind;
  return inference.fail(
    `${call.procedureName} may find ${kindWords(one.kind)} (${inference.cellWords(one.at)}) or ${kindWords(other.kind)} (${inference.cellWords(other.at)}): write the number of the row or column, so that one kind is picked.`,
  );
}

/** The cells that a look-up may give, as far as written numbers tell. */
export function foundIn(inference: FormulaParts, call: Call): Span | undefined {
  const [first, second, third] = call.args;
  switch (call.procedureName) {
    case 'INDEX': {
      const span = first && inference.span(first);
      if (!span) return undefined;
      // In one row the only number is the column.
      if (!third && span.start.row === span.end.row) return picked(span, undefined, place(second));
      return picked(span, place(second), place(third));
    }
    case 'VLOOKUP':
    case 'HLOOKUP': {
      const span = second && inference.span(second);
      if (!span) return undefined;
      const n = place(third);
      return call.procedureName === 'VLOOKUP' ? picked(span, undefined, n) : picked(span, n, undefined);
    }
    case 'LOOKUP': {
      const searched = second && inference.span(second);
      if (third) return inference.span(third);
      if (!searched) return undefined;
      return acrossIs(searched)
        ? { start: { ...searched.start, row: searched.end.row }, end: searched.end }
        : { start: { ...searched.start, col: searched.end.col }, end: searched.end };
    }
    default:
      return undefined;
  }
}

const acrossIs = ({ start, end }: Span): boolean => end.col - start.col > end.row - start.row;

/** Where a look-up looks for its key. */
function keysOf(call: Call, span: Span): Span {
  if (call.procedureName === 'VLOOKUP') return { start: span.start, end: { ...span.end, col: span.start.col } };
  if (call.procedureName === 'HLOOKUP') return { start: span.start, end: { ...span.end, row: span.start.row } };
  if (call.procedureName === 'LOOKUP')
    return acrossIs(span) ? { start: span.start, end: { ...span.end, row: span.start.row } } : { start: span.start, end: { ...span.end, col: span.start.col } };
  return span;
}

/** A key must be of the kind it is looked for among; text is looked for anywhere. */
function keyFault(inference: FormulaParts, call: Call): Kind | undefined {
  const [key, searched] = call.args;
  if (!key || !searched) return undefined;
  const kind = inference.infer(key);
  if (kind.is === 'fail') return kind;
  const span = inference.span(searched);
  const among = span ? kindOfPart(inference, call, keysOf(call, span)) : inference.infer(searched);
  if (among.is === 'fail') return among;
  if (kind.is === 'text' || among.is === 'text' || kind === any || among === any || kind === among) return undefined;
  if (isPlain(kind) && isPlain(among)) return undefined;
  if (isWritten(key) && among.is === 'number' && inference.wish(key, inference.shown(searched, among), 'beside')) return undefined;
  const unitText = inference.shown(searched, among);
  return inference.fail(
    `${call.procedureName} looks for ${inference.named(key)} among ${kindWords(among)} (${inference.described(searched)}).`,
    inference.mendFor(key, kind, among, unitText),
  );
}

/** The row or column that a written number means: 0.3/0.1 is 3. */
function place(arg: Ast | undefined): number | undefined {
  const n = arg && constant(arg);
  return n === undefined || !Number.isFinite(n) ? undefined : placeNumber(n);
}

/** Written row and column numbers are whole, or no cell is meant by them. */
function notWhole(inference: FormulaParts, call: Call, args: readonly (Ast | undefined)[]): Kind | undefined {
  for (const arg of args) {
    const n = place(arg);
    if (n !== undefined && !Number.isInteger(n)) return inference.fail(`${call.procedureName}: ${n} is no row or column; a whole number is needed.`);
  }
  return undefined;
}

function lookup(inference: FormulaParts, call: Call): Kind {
  const rest = call.procedureName === 'LOOKUP' ? undefined : (plainArgs(inference, call, call.args.slice(2)) ?? notWhole(inference, call, [call.args[2]]));
  const fault = rest ?? keyFault(inference, call);
  if (fault) return fault;
  const span = foundIn(inference, call);
  if (span) return kindOfPart(inference, call, span);
  const last = call.args[call.procedureName === 'LOOKUP' ? call.args.length - 1 : 1];
  return last ? joined(inference, [last], `${call.procedureName} takes`) : any;
}

function index(inference: FormulaParts, call: Call): Kind {
  const fault = plainArgs(inference, call, call.args.slice(1)) ?? notWhole(inference, call, call.args.slice(1));
  if (fault) return fault;
  const span = foundIn(inference, call);
  if (span) return kindOfPart(inference, call, span);
  const [first] = call.args;
  return first ? joined(inference, [first], 'INDEX takes') : any;
}

function match(inference: FormulaParts, call: Call): Kind {
  return plainArgs(inference, call, call.args.slice(2)) ?? keyFault(inference, call) ?? plainNumber;
}

/** A range of quantities would be as many factors as it has filled cells: its kind would hang on a blank. */
function product(inference: FormulaParts, call: Call): Kind {
  const range = call.args.find((arg) => {
    const span = inference.span(arg);
    return span && !samePosition(span.start, span.end) && isQuantity(inference.infer(arg));
  });
  if (range)
    return inference.fail(
      `PRODUCT multiplies the cells of ${inference.described(range)}, each ${kindWords(inference.infer(range))}: write the factors one by one.`,
    );
  return inference.multiplied(call.args, false);
}

/** Pairs of range and criterion from argument `from` on. */
function criteria(inference: FormulaParts, call: Call, from: number, to = call.args.length): Kind | undefined {
  for (let i = from; i + 1 < to; i += 2) {
    const [range, condition] = [call.args[i], call.args[i + 1]];
    const fault = range && condition && criterion(inference, call.procedureName, range, condition);
    if (fault) return fault;
  }
  return undefined;
}

const countIf: Rule = (inference, call) => criteria(inference, call, 0) ?? plainNumber;

const sumIf: Rule = (inference, call) => {
  const amount = call.args[2] ?? call.args[0];
  const readings = call.procedureName === 'AVERAGEIF' ? 'allowed' : 'refused';
  return criteria(inference, call, 0, 2) ?? (amount ? alike(inference, call, [amount], readings) : any);
};

const sumIfs: Rule = (inference, call) => criteria(inference, call, 1) ?? alike(inference, call, call.args.slice(0, 1));

const RULES: ReadonlyMap<string, Rule> = new Map([
  ...rules('SUM', keepsAll),
  ...rules('MIN MAX AVERAGE MEDIAN MODE', keepsAllReadings),
  ...rules('GEOMEAN HARMEAN', keepsAll),
  ...rules('LARGE SMALL PERCENTILE QUARTILE', keepsFirst),
  ...rules('STDEV STDEVP STDEVA STDEVPA AVEDEV', spread),
  ...rules('VAR VARP VARA VARPA DEVSQ', (inference, call) => squared(spread(inference, call))),
  ...rules('SUMSQ', (inference, call) => squared(keepsAll(inference, call))),
  ...rules('SUMX2MY2 SUMX2PY2 SUMXMY2', (inference, call) => squared(keepsAll(inference, call))),
  ...rules('ABS', keepsAll),
  ...rules('MOD', keepsAll),
  ...rules('QUOTIENT SIGN', (inference, call) => {
    const kind = keepsAll(inference, call);
    return kind.is === 'fail' ? kind : plainNumber;
  }),
  ...rules('SUMPRODUCT', (inference, call) => inference.multiplied(call.args, false)),
  ...rules('PRODUCT', product),
  ...rules('SQRT', (inference, call) => (call.args[0] ? inference.raised(call.args[0], HALF) : any)),
  ...rules('POWER', (inference, call) => (call.args[0] && call.args[1] ? inference.raised(call.args[0], call.args[1]) : any)),
  ...rules('SIN COS TAN COT DEGREES', ofAngle(plainNumber)),
  ...rules('ASIN ACOS ATAN ACOT RADIANS', toAngle),
  ...rules('ATAN2', (inference, call) => {
    const kind = keepsAll(inference, call);
    return kind.is === 'fail' ? kind : angle;
  }),
  ...rules('COUNT COUNTA COUNTBLANK ROWS COLUMNS ROW COLUMN', plainOfAny),
  ...rules('ISBLANK ISERR ISERROR ISLOGICAL ISNA ISNONTEXT ISNUMBER ISTEXT', yesOfAny),
  ...rules('AND OR NOT', logic),
  ...rules('TRUE FALSE', () => yesOrNo),
  ...rules('IF', ifRule),
  ...rules('IFERROR', (inference, call) => joined(inference, call.args, 'IFERROR gives')),
  ...rules('CHOOSE', (inference, call) => plainArgs(inference, call, call.args.slice(0, 1)) ?? joined(inference, call.args.slice(1), 'CHOOSE gives')),
  ...rules('INDEX', index),
  ...rules('MATCH', match),
  ...rules('LOOKUP VLOOKUP HLOOKUP', lookup),
  ...rules('COUNTIF COUNTIFS', countIf),
  ...rules('SUMIF AVERAGEIF', sumIf),
  ...rules('SUMIFS', sumIfs),
  ...rules('RANK', (inference, call) => {
    const fault = plainArgs(inference, call, call.args.slice(2));
    const kind = fault ?? alike(inference, call, call.args.slice(0, 2), 'allowed');
    return kind.is === 'fail' ? kind : plainNumber;
  }),
  ...rules('CORREL PEARSON RSQ', plainOfPair),
  ...rules('SLOPE', (inference, call) => {
    const found = pair(inference, call, 0, 1);
    if (!isPair(found)) return found;
    return numberKind(over(dimensionOf(found[0]), dimensionOf(found[1])));
  }),
  ...rules('COVAR', (inference, call) => {
    const found = pair(inference, call, 0, 1);
    return isPair(found) ? numberKind(times(dimensionOf(found[0]), dimensionOf(found[1]))) : found;
  }),
  ...rules('INTERCEPT', (inference, call) => {
    const found = pair(inference, call, 0, 1);
    return isPair(found) ? found[0] : found;
  }),
  ...rules('STEYX', (inference, call) => {
    const found = pair(inference, call, 0, 1);
    return isPair(found) ? (found[0].is === 'number' && found[0].reading ? difference : found[0]) : found;
  }),
  ...rules('FORECAST', (inference, call) => {
    const [x, , xs] = call.args;
    const fault = x && xs ? alike(inference, call, [x, xs], 'allowed') : any;
    if (fault.is === 'fail') return fault;
    const found = pair(inference, call, 1, 2);
    return isPair(found) ? found[0] : found;
  }),
  ...rules('STANDARDIZE', (inference, call) => {
    const kind = alike(inference, call, call.args);
    return kind.is === 'fail' ? kind : plainNumber;
  }),
  ...rules('PV FV PMT', amounts([2, 3], 'amount')),
  ...rules('NPER', amounts([1, 2, 3], 'plain')),
  ...rules('RATE', amounts([1, 2, 3], 'plain')),
  ...rules('NPV', amounts([1, -1], 'amount')),
  ...rules('XNPV', amounts([1], 'amount')),
  ...rules('IRR MIRR XIRR', amounts([0], 'plain')),
  ...rules('SLN SYD DDB DB', amounts([0, 1], 'amount')),
  ...rules('CONCATENATE', (inference, call) => inference.joinTexts(call.args, 'CONCATENATE')),
  ...rules('T', (inference, call) => fails(inference, call.args) ?? text),
  ...rules(
    'CHAR CLEAN LEFT LOWER MID PROPER REPLACE REPT RIGHT ROMAN SUBSTITUTE TRIM UPPER',
    (inference, call) => plainArgs(inference, call, call.args) ?? text,
  ),
]);

const HALF: Ast = { type: 'NUMBER', value: 0.5 };

/** The kind of a call of a standard function, or of one that is not offered (the calculator has its own error there). */
export function standardFunction(inference: FormulaParts, call: Call): Kind {
  const rule = RULES.get(call.procedureName);
  if (rule) return rule(inference, call);
  return plainArgs(inference, call, call.args) ?? plainNumber;
}
