/**
 * A reader of example formulas: calls of our functions with written numbers, texts, TRUE and FALSE, {…} arrays, UNIT(x,"unit"), or further
 * calls as arguments. Bare numbers are in the parameter's unit. It stands in for the engine, so that functions are tested alone.
 */
import { checkArgs } from '../../functions/check-args.ts';
import { type Cells, type CellValue, type FunctionRecord, isRefusal, type Param, type Refusal, type Step, stepList } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import { fromBase, need, toBase } from '../../functions/units.ts';

type Node = { kind: 'value'; value: CellValue } | { kind: 'array'; rows: Cells } | { kind: 'missing' } | { kind: 'call'; name: string; args: Node[] };

const TOKEN = /\s*(?:("(?:[^"]|"")*")|(-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?%?)|([A-Z][A-Z0-9.]*)|([(),;{}]))/uy;

function tokens(text: string): string[] {
  const found: string[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.trimEnd().length) {
    const match = TOKEN.exec(text);
    if (!match) throw new Error(`can't read the example ${text}`);
    found.push(match[0].trim());
  }
  return found;
}

export function parse(text: string): Node {
  const rest = tokens(text);
  const take = (): string => rest.shift() ?? '';
  const next = (): string | undefined => rest[0];
  const expectToken = (token: string): void => {
    const got = take();
    if (got !== token) throw new Error(`${text}: expected ${token}, got ${got}`);
  };
  const literal = (token: string): CellValue => {
    if (token.startsWith('"')) return token.slice(1, -1).replaceAll('""', '"');
    if (token === 'TRUE' || token === 'FALSE') return token === 'TRUE';
    const number = token.endsWith('%') ? Number(token.slice(0, -1)) / 100 : Number(token);
    if (Number.isNaN(number)) throw new Error(`${text}: ${token} is not a value`);
    return number;
  };
  const array = (): Node => {
    const rows: CellValue[][] = [[]];
    for (;;) {
      const token = take();
      if (token === '}') return { kind: 'array', rows };
      if (token === ';') rows.push([]);
      else if (token !== ',') rows.at(-1)?.push(literal(token));
      else if (next() === ',' || next() === ';' || next() === '}') rows.at(-1)?.push(null);
    }
  };
  const node = (): Node => {
    if (next() === ',' || next() === ')') return { kind: 'missing' };
    const token = take();
    if (token === '{') return array();
    if (next() !== '(') return { kind: 'value', value: literal(token) };
    expectToken('(');
    const args: Node[] = [];
    if (next() !== ')') {
      args.push(node());
      while (next() === ',') {
        take();
        args.push(node());
      }
    }
    expectToken(')');
    return { kind: 'call', name: token, args };
  };
  const found = node();
  if (rest.length > 0) throw new Error(`${text}: ${rest.join('')} is left over`);
  return found;
}

const isPlain = (unit: string): boolean => ['1', 'text', 'yes or no', 'any', 'mixed'].includes(unit);

export function record(name: string): FunctionRecord {
  const found = functions.find((f) => f.name === name);
  if (!found) throw new Error(`no function ${name}`);
  return found;
}

/** A number of a table whose columns have units, in base units as the engine hands them over. */
const inColumn = (x: number, column = '1'): number => (isPlain(column) ? x : toBase(x, need(column)));

/** An argument in its parameter's unit. */
function argument(node: Node, param: Param): CellValue | Cells | undefined | Refusal {
  if (node.kind === 'missing') return param.optional ? param.fallback : null;
  if (node.kind === 'value') return node.value;
  if (node.kind === 'array') return node.rows.map((row) => row.map((x, i) => (typeof x === 'number' ? inColumn(x, param.columns?.[i]) : x)));
  if (node.name === 'UNIT') {
    const [x, u] = node.args;
    const base = toBase(x?.kind === 'value' ? Number(x.value) : Number.NaN, need(u?.kind === 'value' ? String(u.value) : ''));
    return isPlain(param.unit) ? base : fromBase(base, need(param.unit));
  }
  const inner = run(node, false).value;
  const from = record(node.name).returns.unit;
  if (typeof inner !== 'number' || isPlain(from) || from === param.unit) return inner;
  return fromBase(toBase(inner, need(from)), need(param.unit));
}

/** The arguments of an example as they stand in it, each in its parameter's unit. */
export function argumentsOf(formula: string): readonly (CellValue | Cells | undefined | Refusal)[] {
  const node = parse(formula);
  if (node.kind !== 'call') throw new Error('not a call of a function');
  const { params } = record(node.name);
  return node.args.map((arg, i) => argument(arg, params[i] ?? (params.at(-1) as Param)));
}

export interface Outcome {
  readonly value: CellValue | Refusal;
  readonly steps: readonly Step[];
}

function run(node: Node, shown: boolean): Outcome {
  if (node.kind !== 'call') throw new Error('not a call of a function');
  const f = record(node.name);
  const last = f.params.at(-1);
  const args: unknown[] = [];
  const count = Math.max(node.args.length, f.params.length);
  for (let i = 0; i < count; i++) {
    const param = f.params[i] ?? (last?.repeats ? last : undefined);
    if (!param) throw new Error(`${f.name} takes ${f.params.length} arguments`);
    const given = node.args[i];
    if (!given && param.repeats && i >= node.args.length) break;
    const value = given ? argument(given, param) : param.optional ? param.fallback : null;
    if (isRefusal(value)) return { value: value as Refusal, steps: [] };
    args.push(value);
  }
  const fault = checkArgs(f, args);
  if (fault) return { value: fault, steps: [] };
  const { steps, show } = stepList();
  const work = f.work as (args: readonly unknown[], show: unknown) => CellValue | Refusal;
  return { value: work(args, shown ? show : undefined), steps };
}

/** The value of an example, in the unit of its function's result, or the refusal. */
export const evaluate = (formula: string): CellValue | Refusal => run(parse(formula), false).value;

export const stepsOf = (formula: string): Outcome => run(parse(formula), true);
