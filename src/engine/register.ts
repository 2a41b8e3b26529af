/**
 * Hands our functions to the calculator: each record of the catalogue becomes a function of its own there. Arguments
 * come in as base values and go to `work` in the unit that the record declares; the answer goes back the same way.
 * Nothing that a function throws gets out: it becomes an error in the cell.
 */
import { CellError, ErrorType, FunctionPlugin, HyperFormula } from 'hyperformula';
import { checkArgs } from '../../functions/check-args.ts';
import { type CellValue, type FunctionRecord, type FunctionResult, isRefusal, type Param, type Refusal, refuse, type Show } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import { fromBase, toBase, type Unit, unit } from '../../functions/units.ts';
import type { Position } from './addresses.ts';
import { explain, type Fault, NOT_ANSWERED, pack, REFUSED, TOO_LARGE, unpack } from './errors.ts';
import { FORMULA_BOUNDS } from './formula-bounds.ts';
import { type Ast, plain, type Raw, SimpleRangeValue } from './hyper.ts';
import { OFFERED } from './offered.ts';
import './places.ts';
import './put-in.ts';

/** Stands in cells that have no value to give: a given not answered, a formula refused. */
export const STATE = 'CELL.STATE';

/** What our functions ask of the workbook that they run in. */
export interface Context {
  /** Why a cell that holds STATE has no value. */
  state(at: Position): Fault;
  /** What a verdict of this book does not look at, in a few words; nothing where it looks at all. */
  lacking?(): string;
  /** A function has started or ended: the watchdog allows a slow one more time. */
  running?(slow: boolean): void;
}

export const asError = (fault: Fault): CellError => new CellError(ErrorType.VALUE, pack(fault));

export const isUnanswered = (value: Raw): boolean => value instanceof CellError && unpack(value.message)?.word === NOT_ANSWERED;

/** The unit that a parameter or a result converts to; undefined where values pass as they are. */
export function conversion(text: string): Unit | undefined {
  return text === '1' || text === 'text' || text === 'yes or no' || text === 'any' || text === 'mixed' ? undefined : unit(text);
}

interface Ready {
  readonly record: FunctionRecord;
  readonly units: readonly (Unit | undefined)[];
  readonly result: Unit | undefined;
}

const ready = new Map<string, Ready>(
  functions.map((record) => [record.name, { record, units: record.params.map((p) => conversion(p.unit)), result: conversion(record.returns.unit) }]),
);

const inUnit = (value: number, u: Unit | undefined): number => (u ? fromBase(value, u) : value);

type Line = (CellValue | Refusal)[];

/** A range as rows of values; the first error in it, if any. A given not answered is a blank. Where faults pass, each error is its reason. */
function cells(range: SimpleRangeValue, u: Unit | undefined, faultsPass = false): Line[] | CellError {
  const rows: Line[] = [];
  for (const line of range.rawData()) {
    const row: (CellValue | Refusal)[] = [];
    for (const inner of line) {
      const value = plain(inner);
      if (faultsPass && value instanceof CellError) row.push(refuse(explain(value.type, value.message).message));
      else if (isUnanswered(value)) row.push(null);
      else if (value instanceof CellError) return value;
      else if (typeof value === 'number') row.push(inUnit(value, u));
      else row.push(value instanceof SimpleRangeValue ? null : value);
    }
    rows.push(row);
  }
  return rows;
}

export type Argument = CellValue | Refusal | Line[] | undefined;

function argument(value: Raw, param: Param, u: Unit | undefined): Argument | CellError {
  if (value instanceof SimpleRangeValue) {
    const rows = cells(value, u, param.faultsPass);
    if (rows instanceof CellError || param.shape === 'range') return rows;
    return rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] ?? null) : rows;
  }
  if (value instanceof CellError && param.faultsPass) return [[refuse(explain(value.type, value.message).message)]];
  // One cell that is asked for as a range is read as a range is.
  if (value instanceof CellError) return !isUnanswered(value) ? value : param.shape === 'range' ? [[null]] : param.blankAllowed ? null : value;
  const one = typeof value === 'number' ? inUnit(value, u) : value;
  return param.shape === 'range' ? [[one]] : one;
}

/** How a value becomes the argument at a place of a record's; undefined where the record has no such place. */
export function taking(record: FunctionRecord, place: number): ((value: Raw) => Argument | CellError) | undefined {
  const { params } = record;
  const last = params.length - 1;
  const at = place > last && params[last]?.repeats ? last : place;
  const [param, u] = [params[at], ready.get(record.name)?.units[at]];
  return param && ((value) => argument(value, param, u));
}

/** The arguments as `work` takes them, or the error that stands among them. */
export function argumentsFor(record: FunctionRecord, asts: readonly Ast[], value: (ast: Ast) => Raw): readonly Argument[] | CellError {
  const { units } = ready.get(record.name) ?? { units: [] };
  const { params } = record;
  const last = params.length - 1;
  const args: Argument[] = [];
  for (const [i, ast] of asts.entries()) {
    const at = i > last && params[last]?.repeats ? last : i;
    const param = params[at];
    if (!param) {
      args.push(undefined);
      continue;
    }
    if (ast.type === 'EMPTY') {
      args.push(param.blankAllowed ? null : param.fallback);
      continue;
    }
    const taken = argument(value(ast), param, units[at]);
    if (taken instanceof CellError) return taken;
    args.push(taken);
  }
  for (let i = asts.length; i < params.length; i++) {
    const param = params[i];
    if (param && !param.repeats) args.push(param.fallback);
  }
  return args;
}

/** Runs a record on its arguments: a base value, or why there is none. With `show`, its steps are told. */
export function run(record: FunctionRecord, args: readonly Argument[], show: Show | undefined, judged = false): FunctionResult | Fault {
  try {
    const wrong = judged ? undefined : checkArgs(record, args);
    if (wrong) return { word: REFUSED, message: wrong.message };
    const answer = record.work(args as never, show);
    if (isRefusal(answer)) return { word: REFUSED, message: answer.message };
    if (typeof answer === 'string' && answer.length > FORMULA_BOUNDS.text)
      return { word: TOO_LARGE, message: `${record.name} gives a text of more than ${FORMULA_BOUNDS.text} characters.` };
    if (typeof answer !== 'number') return answer;
    if (!Number.isFinite(answer)) return { word: 'no number', message: `${record.name} has no finite answer for these arguments.` };
    const result = ready.get(record.name)?.result;
    return result ? toBase(answer, result) : answer;
  } catch (error) {
    return { word: 'error', message: `${record.name} failed: ${error instanceof Error ? error.message : String(error)}` };
  }
}

/** The parts of the calculator's plug-in that a method uses. */
interface Plugin {
  evaluateAst(ast: Ast, state: unknown): unknown;
  readonly config: { readonly context: unknown };
}

type Method = (this: Plugin, ast: { readonly args: readonly Ast[] }, state: { readonly formulaAddress: Position }) => unknown;

class Ours extends FunctionPlugin {}

/** The calculator does not let these two go; formulas that call them are refused before they reach it. */
const PROTECTED: ReadonlySet<string> = new Set(['VERSION', 'OFFSET']);

const VERDICT_NAME = 'VERDICT';

/** A verdict of a book that lacks checks never says plain “holds”. */
const withLacking = (verdict: string, lacking: string): string => (lacking === '' ? verdict : `${verdict}${verdict === 'holds' ? ',' : ';'} ${lacking}`);

/** What comes of a call in a workbook: a base value, or an error. `judged`: the arguments were held against the record already. */
export function answered(record: FunctionRecord, args: readonly Argument[], context: Context | undefined, judged = false): FunctionResult | CellError {
  if (record.slow) context?.running?.(true);
  const answer = run(record, args, undefined, judged);
  if (record.slow) context?.running?.(false);
  if (typeof answer === 'object') return asError(answer);
  return record.name === VERDICT_NAME && typeof answer === 'string' ? withLacking(answer, context?.lacking?.() ?? '') : answer;
}

function method(record: FunctionRecord): Method {
  return function (ast, state) {
    const args = argumentsFor(record, ast.args, (arg) => plain(this.evaluateAst(arg, state)));
    return args instanceof CellError ? args : answered(record, args, this.config.context as Context | undefined);
  };
}

function register(): void {
  const implemented: Record<string, { method: string }> = {};
  const names: Record<string, string> = {};
  const prototype = Ours.prototype as unknown as Record<string, unknown>;
  const add = (name: string, call: Method): void => {
    const key = `call ${name}`;
    prototype[key] = call;
    implemented[name] = { method: key };
    names[name] = name;
  };
  for (const { record } of ready.values()) add(record.name, method(record));
  add(STATE, function (_ast, state) {
    return asError((this.config.context as Context).state(state.formulaAddress));
  });
  Ours.implementedFunctions = implemented as never;

  for (const name of HyperFormula.getRegisteredFunctionNames('enGB')) {
    if (!OFFERED.has(name) && !PROTECTED.has(name)) HyperFormula.unregisterFunction(name);
  }
  HyperFormula.registerFunctionPlugin(Ours, { enGB: names });
}

register();

/** Every function that a formula may call. */
export const offered: ReadonlySet<string> = new Set([...OFFERED, ...ready.keys()]);
export const recordOf = (name: string): FunctionRecord | undefined => ready.get(name.toUpperCase())?.record;
