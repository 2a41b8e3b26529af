/** A whole book, worked out from its tidy CSV: contents, units, formulas and names. */
import { call, type Given, isOurs } from './call.ts';
import { type Node, type Place, parseFormula } from './parse.ts';
import { ARRAYS, arrayOf, STANDARD } from './standard.ts';
import type { TidyCell } from './tidy.ts';
import { factorOf, toBase } from './units.ts';
import { BLANK, faultOf, isOpen, near, num, refuse, sound, text, type Value, yesno } from './values.ts';

const trees = new Map<string, Node>();

function treeOf(formula: string, table: string): Node {
  const key = `${table}.${formula}`;
  const known = trees.get(key) ?? parseFormula(formula, table);
  trees.set(key, known);
  return known;
}

const letters = (column: number): string => (column < 26 ? String.fromCharCode(65 + column) : letters(Math.floor(column / 26) - 1) + letters(column % 26));
const addressOf = ({ table, column, row }: Place): string => `${table}.${letters(column)}${row + 1}`;

const NUMBER = /^(-?\d*\.?\d+(?:[eE][-+]?\d+)?)(?: (.+))?$/;

/** What stands in a cell without a formula. */
function contentOf({ kind, value, unit, held }: TidyCell): Value {
  if (kind === 'head') return value === '' ? BLANK : text(value);
  if (held !== '') {
    const [, digits, symbol] = NUMBER.exec(held) ?? [];
    return digits === undefined ? text(held.startsWith("'") ? held.slice(1) : held) : toBase(Number(digits), symbol ?? unit);
  }
  if (value === '') return { kind: 'fault', why: 'not answered yet', unanswered: true };
  if (value === 'TRUE' || value === 'FALSE') return yesno(value === 'TRUE');
  return NUMBER.test(value) ? toBase(Number(value), unit) : text(value);
}

/** Whether what stands in a given is what may stand there. */
function allowed(cell: TidyCell, found: Value, choices: (range: string) => readonly Value[]): boolean {
  if (found.kind === 'fault' || found.kind === 'blank') return true;
  const limits = (low: unknown, high: unknown, unit: string): boolean => {
    if (found.kind !== 'number') return false;
    const limit = (said: unknown, otherwise: number): number => {
      const [, digits, own] = NUMBER.exec(String(said ?? '')) ?? [];
      return digits === undefined ? otherwise : toBase(Number(digits), own ?? unit).n;
    };
    const [a, b] = [limit(low, Number.NEGATIVE_INFINITY), limit(high, Number.POSITIVE_INFINITY)];
    return (found.n >= a || near(found.n, a)) && (found.n <= b || near(found.n, b));
  };
  const same = (choice: Value): boolean =>
    choice.kind === 'number' ? found.kind === 'number' && near(choice.n, found.n) : choice.kind === found.kind && said(choice) === said(found);
  if (cell.low === 'from') return choices(cell.high).some(same);
  if (cell.low === 'one of') {
    const told: unknown = JSON.parse(cell.high);
    const { oneOf, low, high, unit = '' } = (Array.isArray(told) ? { oneOf: told } : told) as { oneOf: string[]; low?: number; high?: number; unit?: string };
    const written = (choice: string): Value =>
      contentOf({ ...cell, kind: 'given', value: '', unit: '', held: choice === 'TRUE' || choice === 'FALSE' ? '' : choice });
    if (oneOf.some((choice) => (choice === 'TRUE' || choice === 'FALSE' ? found.kind === 'yesno' && found.yes === (choice === 'TRUE') : same(written(choice)))))
      return true;
    return (low !== undefined || high !== undefined) && limits(low, high, unit);
  }
  return cell.low === '' && cell.high === '' ? true : limits(cell.low, cell.high, cell.unit);
}

const said = (value: Value): string => (value.kind === 'text' ? value.s.toLowerCase() : value.kind === 'yesno' ? String(value.yes) : '');

function addressesIn({ from, to }: Extract<Node, { is: 'range' }>): string[][] {
  const rows: string[][] = [];
  for (let row = from.row; row <= to.row; row++) {
    const line: string[] = [];
    for (let column = from.column; column <= to.column; column++) line.push(addressOf({ table: from.table, column, row }));
    rows.push(line);
  }
  return rows;
}

export class Sheet {
  readonly cells: ReadonlyMap<string, TidyCell>;
  readonly #names = new Map<string, Place>();
  readonly #values = new Map<string, Value>();

  constructor(cells: readonly TidyCell[]) {
    this.cells = new Map(cells.map((cell) => [cell.address, cell]));
    for (const cell of cells) {
      for (const name of cell.names) {
        const at = parseFormula(`=${cell.address}`, cell.table);
        if (at.is === 'cell') this.#names.set(name, at.at);
      }
    }
  }

  value(address: string): Value {
    const before = this.#values.get(address);
    if (before) return before;
    const cell = this.cells.get(address);
    const found = cell ? this.#work(cell) : BLANK;
    this.#values.set(address, found);
    return found;
  }

  /** The cells that the formula of a cell really reads by the values that there are: of IF the branch that is taken, of INDEX and MATCH the entry. */
  reads(address: string): ReadonlySet<string> {
    const found = new Set<string>();
    const cell = this.cells.get(address);
    if (cell?.held.startsWith('=')) this.#read(treeOf(cell.held, cell.table), found);
    return found;
  }

  #read(node: Node | null | undefined, found: Set<string>): void {
    if (!node) return;
    if (node.is === 'cell') found.add(addressOf(node.at));
    else if (node.is === 'range') for (const address of addressesIn(node).flat()) found.add(address);
    else if (node.is === 'name') found.add(addressOf(this.#names.get(node.name) as Place));
    else if (node.is === 'minus') this.#read(node.of, found);
    else if (node.is === 'pair') for (const part of [node.left, node.right]) this.#read(part, found);
    else if (node.is === 'call') {
      const [first, second, third] = node.args;
      const whole = (of: Node | null | undefined): number => {
        const value = of ? this.#value(of) : num(1);
        return value.kind === 'number' ? value.n : Number.NaN;
      };
      const range = node.name === 'INDEX' ? first : node.name === 'MATCH' ? second : undefined;
      if (node.name === 'IF') {
        const asked = first ? this.#value(first) : BLANK;
        this.#read(first, found);
        if (asked.kind !== 'fault') this.#read(number(asked) !== 0 ? second : third, found);
        return;
      }
      const inRange = range?.is === 'range' ? addressesIn(range) : [];
      const entry = node.name === 'INDEX' ? inRange[whole(second) - 1]?.[whole(third) - 1] : inRange.flat()[whole(node) - 1];
      if (range?.is === 'range' && entry !== undefined) found.add(entry);
      for (const arg of node.args) if (arg !== range || entry === undefined) this.#read(arg, found);
    }
  }

  #work(cell: TidyCell): Value {
    if (!cell.held.startsWith('=')) return contentOf(cell);
    try {
      const found = this.#single(treeOf(cell.held, cell.table));
      const choices = (range: string): readonly Value[] => this.#cells(parseFormula(`=${range}`, cell.table)).flat();
      return !allowed(cell, found, choices) ? refuse('out of range') : found;
    } catch (thrown) {
      return faultOf(thrown);
    }
  }

  #cells(node: Node): Value[][] {
    if (node.is !== 'range') return [[this.#value(node)]];
    return addressesIn(node).map((line) => line.map((address) => this.value(address)));
  }

  /** A value, faults among them. */
  #value(node: Node): Value {
    if (node.is === 'cell') return this.value(addressOf(node.at));
    if (node.is === 'name') {
      const at = this.#names.get(node.name);
      if (!at) throw new Error(`No cell has the name ${node.name}.`);
      return this.value(addressOf(at));
    }
    try {
      return this.#single(node);
    } catch (thrown) {
      return faultOf(thrown);
    }
  }

  #single(node: Node): Value {
    switch (node.is) {
      case 'number':
        return num(node.n);
      case 'text':
        return text(node.s);
      case 'minus':
        return num(-number(this.#value(node.of)));
      case 'pair':
        return pair(node.op, this.#value(node.left), this.#value(node.right));
      case 'call':
        return this.#call(node.name, node.args);
      case 'range':
        return refuse('a range where one value belongs');
      default:
        return sound(this.#value(node));
    }
  }

  #call(name: string, args: readonly (Node | null)[]): Value {
    const given = (i: number): Value => (args[i] ? this.#value(args[i] as Node) : BLANK);
    if (name === 'IF') {
      const asked = sound(given(0));
      const yes = asked.kind === 'yesno' ? asked.yes : number(asked) !== 0;
      return sound(given(yes ? 1 : 2));
    }
    if (name === 'ISBLANK') return yesno(isOpen(given(0)));
    if (name === 'ISTEXT') return yesno(given(0).kind === 'text');
    if (name === 'ISNUMBER') return yesno(given(0).kind === 'number');
    if (name === 'UNIT') {
      const unit = sound(given(1));
      return toBase(number(given(0)), unit.kind === 'text' ? unit.s : refuse('no unit'));
    }
    if (name === 'SHOW') {
      const [shown, unit] = [number(given(0)), sound(given(1))];
      return unit.kind === 'text' ? text(`${shown / factorOf(unit.s)} ${unit.s}`) : refuse('no unit');
    }
    if (ARRAYS.has(name))
      return num(
        arrayOf(
          name,
          args.map((arg) => this.#array(arg as Node)),
        ),
      );
    const all = args.map((arg): Given => (arg === null ? null : arg.is === 'range' ? this.#cells(arg) : this.#value(arg)));
    if (isOurs(name)) return call(name, all);
    const standard = STANDARD[name];
    if (!standard) throw new Error(`The second evaluator has no ${name}.`);
    return standard(all.map((one) => (one === null ? [[BLANK]] : Array.isArray(one) ? one : [[one as Value]])));
  }

  /** Cell by cell: ranges of one size, and single values beside them. */
  #array(node: Node): Value[][] {
    if (node.is === 'range') return this.#cells(node);
    if (node.is !== 'pair') return [[this.#value(node)]];
    const [left, right] = [this.#array(node.left), this.#array(node.right)];
    const [rows, columns] = [Math.max(left.length, right.length), Math.max(left[0]?.length ?? 1, right[0]?.length ?? 1)];
    const pick = (all: Value[][], r: number, c: number): Value => (all.length === 1 && all[0]?.length === 1 ? all[0][0] : all[r]?.[c]) ?? BLANK;
    return Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (__, c) => pair(node.op, pick(left, r, c), pick(right, r, c))));
  }
}

/** A number for arithmetic: a blank counts as 0, yes as 1. */
function number(value: Value): number {
  const found = sound(value);
  if (found.kind === 'number') return found.n;
  if (found.kind === 'blank') return 0;
  return found.kind === 'yesno' ? Number(found.yes) : refuse('a text where a number belongs');
}

function order(a: Value, b: Value): number {
  const [x, y] = [sound(a), sound(b)];
  if (x.kind === 'text' || y.kind === 'text') {
    const blanks = x.kind === 'blank' || y.kind === 'blank';
    if (x.kind !== y.kind && !blanks) return x.kind === 'text' ? 1 : -1;
    return said(x) === said(y) ? 0 : said(x) < said(y) ? -1 : 1;
  }
  const [p, q] = [number(x), number(y)];
  return near(p, q) ? 0 : p - q;
}

function pair(op: string, left: Value, right: Value): Value {
  const [a, b] = [sound(left), sound(right)];
  switch (op) {
    case '=':
      return yesno(order(a, b) === 0);
    case '<>':
      return yesno(order(a, b) !== 0);
    case '<':
      return yesno(order(a, b) < 0);
    case '>':
      return yesno(order(a, b) > 0);
    case '<=':
      return yesno(order(a, b) <= 0);
    case '>=':
      return yesno(order(a, b) >= 0);
    case '&':
      return text([a, b].map((x) => (x.kind === 'text' ? x.s : x.kind === 'blank' ? '' : String(number(x)))).join(''));
  }
  const [x, y] = [number(a), number(b)];
  const readings = (a.kind === 'number' && a.reading ? 1 : 0) + (b.kind === 'number' && b.reading ? 1 : 0);
  if (op === '+' || op === '-') {
    const sum = op === '+' ? x + y : x - y;
    // What is left of two like numbers is nothing.
    const clean = Math.abs(sum) < 1e-13 * Math.max(Math.abs(x), Math.abs(y)) ? 0 : sum;
    return num(clean, op === '+' ? readings === 1 : readings === 1 && a.kind === 'number' && a.reading);
  }
  if (op === '/' && y === 0) return refuse('divides by zero');
  return num(op === '*' ? x * y : op === '/' ? x / y : x ** y);
}
