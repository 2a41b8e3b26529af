/**
 * Functions of the calculator that take a place (a row, a column, a choice). Given one that is not whole, its own methods find nothing
 * there and give 0, or the first cell. So places are looked at before those methods run:
 * one that is whole but for binary noise is taken as whole, any other is refused by its name.
 */

import { CellError, ErrorType, type FunctionPlugin, HyperFormula } from 'hyperformula';
import { say } from '../../functions/check-args.ts';
import { counted } from '../../functions/number-text.ts';
import { placeNumber } from '../../functions/standard/rounding.ts';
import { pack, REFUSED } from './errors.ts';
import { type Ast, plain, SimpleRangeValue } from './hyper.ts';
import { argumentAt, signatureOf } from './signatures.ts';

const PLACES: Readonly<Record<string, readonly number[]>> = {
  CHOOSE: [0],
  HLOOKUP: [2],
  INDEX: [1, 2],
  MATCH: [2],
  VLOOKUP: [2],
};

interface Call {
  readonly procedureName: string;
  readonly args: readonly Ast[];
}

/** The parts of the calculator's plug-in that are used here. */
interface Plugin {
  evaluateAst(ast: Ast, state: unknown): unknown;
}

type Method = (this: Plugin, call: Call, state: unknown) => unknown;

const refused = (message: string): CellError => new CellError(ErrorType.VALUE, pack({ word: REFUSED, message }));
const beyond = (message: string): CellError => new CellError(ErrorType.REF, pack({ word: 'no such cell', message }));

/** The whole number that a place stands for; the place as it is where it is none or no number at all. */
function whole(place: unknown): unknown {
  const number = typeof place === 'string' && place.trim() !== '' ? Number(place) : place;
  return typeof number !== 'number' || Number.isNaN(number) ? place : placeNumber(number);
}

const isSplit = (place: unknown): place is number => typeof place === 'number' && !Number.isInteger(place);

function notWhole(name: string, at: number, place: number): CellError {
  const signature = signatureOf(name);
  return refused(
    `${name}: ${(signature && argumentAt(signature, at)) ?? 'a place'} is ${say(place)}; it must be a whole number, such as ${Math.round(place)}.`,
  );
}

/** The call with its places worked out and whole, or the error that stands there. */
function withPlaces(plugin: Plugin, call: Call, state: unknown, places: readonly number[]): Call | CellError {
  const args = [...call.args];
  for (const at of places) {
    const arg = args[at];
    if (!arg || arg.type === 'EMPTY' || (arg.type === 'NUMBER' && Number.isInteger(arg.value))) continue;
    const value = plain(plugin.evaluateAst(arg, state));
    if (value instanceof CellError) return value;
    if (value instanceof SimpleRangeValue) {
      const split = value.valuesFromTopLeftCorner().map(plain).map(whole).find(isSplit);
      if (split !== undefined) return notWhole(call.procedureName, at, split);
      continue;
    }
    const place = whole(value);
    if (isSplit(place)) return notWhole(call.procedureName, at, place);
    if (typeof place === 'number') args[at] = { type: 'NUMBER', value: place };
  }
  return { ...call, args };
}

const numberAt = (call: Call, at: number): number | undefined => {
  const arg = call.args[at];
  return arg?.type === 'NUMBER' ? arg.value : undefined;
};

/** A row or column that the range has not. */
function outside(name: string, word: 'row' | 'column', asked: number | undefined, there: number): CellError | undefined {
  if (asked === undefined || (asked >= 1 && asked <= there)) return undefined;
  return beyond(`${name}: ${word} ${asked} is asked for, and the range has ${counted(there, word)}: it can be 1${there > 1 ? ` to ${there}` : ''}.`);
}

/** What is wrong with places that are whole, or the call as the calculator is to have it. */
type Check = (call: Call, plugin: Plugin, state: unknown) => Call | CellError;

function lookUp(word: 'row' | 'column'): Check {
  return (call, plugin, state) => {
    const range = call.args[1] && plugin.evaluateAst(call.args[1], state);
    if (!(range instanceof SimpleRangeValue)) return call;
    if (!range.range) return refused(`${call.procedureName} looks in the cells of a table; of an array written out, INDEX gives a part.`);
    return outside(call.procedureName, word, numberAt(call, 2), word === 'row' ? range.height() : range.width()) ?? call;
  };
}

/** In one row the only number is the column; of more rows and columns both are needed, for a cell holds one value. */
const index: Check = (call, plugin, state) => {
  const [first, second, third] = call.args;
  if (!first || !second) return call;
  const range = plugin.evaluateAst(first, state);
  if (!(range instanceof SimpleRangeValue)) return call;
  const [rows, columns] = [range.height(), range.width()];
  const given = third?.type === 'EMPTY' ? undefined : third;
  if (!given && rows > 1 && columns > 1) return refused(`INDEX: the range has ${counted(rows, 'row')} and ${counted(columns, 'column')}: give the column too.`);
  const one: Ast = { type: 'NUMBER', value: 1 };
  const row = rows === 1 && (!given || second.type === 'EMPTY') ? one : second;
  const column = given ?? (rows === 1 ? second : one);
  const taken: Call = { ...call, args: [first, row, column] };
  return outside('INDEX', 'row', numberAt(taken, 1), rows) ?? outside('INDEX', 'column', numberAt(taken, 2), columns) ?? taken;
};

const CHECKS: Readonly<Record<string, Check>> = {
  VLOOKUP: lookUp('column'),
  HLOOKUP: lookUp('row'),
  INDEX: index,
  CHOOSE: (call) => {
    const [which, there] = [numberAt(call, 0), call.args.length - 1];
    if (which === undefined || there === 0 || (which >= 1 && which <= there)) return call;
    return refused(`CHOOSE: number ${which} is asked for, and ${counted(there, 'value')} ${there === 1 ? 'is' : 'are'} given.`);
  },
  MATCH: (call) => {
    const type = numberAt(call, 2);
    return type === undefined || Math.abs(type) <= 1 ? call : refused(`MATCH: type is ${type}; it can be 1, 0 or -1.`);
  },
};

/** The calculator's own plug-in of a function, with its places looked at first. */
function guard(name: string, places: readonly number[]): void {
  const Theirs = HyperFormula.getFunctionPlugin(name) as unknown as (typeof FunctionPlugin & { prototype: Record<string, Method> }) | undefined;
  const metadata = Theirs?.implementedFunctions[name];
  const theirs = metadata && Theirs?.prototype[metadata.method];
  if (!Theirs || !metadata || !theirs) throw new Error(`the calculator has no function ${name}`);
  class Guarded extends (Theirs as unknown as new () => FunctionPlugin) {}
  const own: Method = function (call, state) {
    const whole = withPlaces(this, call, state, places);
    const checked = whole instanceof CellError ? whole : (CHECKS[name]?.(whole, this, state) ?? whole);
    return checked instanceof CellError ? checked : theirs.call(this, checked, state);
  };
  const method = `${metadata.method}AtWholePlaces`;
  Object.assign(Guarded.prototype, { [method]: own });
  const plugin = Guarded as unknown as typeof FunctionPlugin;
  plugin.implementedFunctions = { [name]: { ...metadata, method } };
  HyperFormula.registerFunctionPlugin(plugin as never, { enGB: { [name]: name } });
}

for (const [name, places] of Object.entries(PLACES)) guard(name, places);
