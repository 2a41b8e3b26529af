/** What a formula really reads by the values that there are: of IF and CHOOSE the branch that is taken, of a look-up the one entry that it came to. */
import type { CellValue } from '../../../functions/define.ts';
import { lastNotAbove } from '../../../functions/standard/lookup.ts';
import type { Position, Span } from '../addresses.ts';
import { type Ast, CellError, plain, type Raw } from '../hyper.ts';
import { children } from '../objections.ts';
import type { Workbook } from '../workbook.ts';

/** One entry of the cells that were looked in. */
export interface Entry {
  readonly at: Position;
  readonly among: Span;
  /** By its count from 1, along which side. */
  readonly count: number;
  readonly along: 'row' | 'column';
}

export interface Taken {
  /** The parts that count. */
  readonly parts: readonly Ast[];
  /** What a look-up found its way by, and what it came to; the last is its value. */
  readonly entries: readonly Entry[];
}

export type Read = { readonly span: Span; readonly name?: string };

const same = (a: Raw, b: Raw): boolean =>
  a === b ||
  (a instanceof CellError && b instanceof CellError) ||
  (typeof a === 'number' && typeof b === 'number' && Math.abs(a - b) <= 1e-13 * Math.max(Math.abs(a), Math.abs(b))) ||
  (typeof a === 'string' && typeof b === 'string' && a.toLowerCase() === b.toLowerCase());

export class Taking {
  private readonly book: Workbook;
  private readonly at: Position;
  /** Steps, words and cells ask for the same parts. */
  private readonly known = new Map<Ast, Taken>();

  /** `branches`: all of them count, as they do for a unit error, which comes out of each. */
  private readonly branches: boolean;

  constructor(book: Workbook, at: Position, branches = false) {
    this.book = book;
    this.at = at;
    this.branches = branches;
  }

  /** What a formula reads, in the order in which it names it. */
  *reads(ast: Ast): Generator<Read> {
    const span = this.book.span(ast, this.at);
    if (span) {
      yield { span, ...(ast.type === 'NAMED_EXPRESSION' && { name: ast.expressionName }) };
      return;
    }
    const { parts, entries } = this.of(ast);
    for (const part of parts) yield* this.reads(part);
    for (const { at } of entries) yield { span: { start: at, end: at } };
  }

  of(ast: Ast): Taken {
    let taken = this.known.get(ast);
    if (!taken) {
      taken = this.taken(ast);
      this.known.set(ast, taken);
    }
    return taken;
  }

  private taken(ast: Ast): Taken {
    const whole: Taken = { parts: children(ast), entries: [] };
    if (ast.type !== 'FUNCTION_CALL') return whole;
    const { procedureName: name, args } = ast;
    const [first] = args;
    if (!first) return whole;
    const just = (...parts: readonly (Ast | undefined)[]): Taken => ({ parts: parts.filter((part) => part !== undefined), entries: [] });
    if (BRANCHES.test(name)) {
      if (this.branches) return whole;
      const value = this.value(first);
      if (value instanceof CellError) return just(first, name === 'IFERROR' ? args[1] : undefined);
      if (name === 'IFERROR') return just(first);
      return just(first, args[name === 'IF' ? (value ? 1 : 2) : Number(value)]);
    }
    return this.lookedUp(name, args, ast) ?? whole;
  }

  /** The part of IF, CHOOSE, IFERROR or brackets that stands for the whole. */
  standing(ast: Ast): Ast {
    if (ast.type === 'PARENTHESES') return this.standing(ast.expression);
    if (ast.type !== 'FUNCTION_CALL' || !BRANCHES.test(ast.procedureName)) return ast;
    const taken = this.of(ast).parts.at(ast.procedureName === 'IFERROR' ? -1 : 1);
    return taken ? this.standing(taken) : ast;
  }

  /** Undefined for what is no look-up, and for one whose entry can't be told for sure. */
  private lookedUp(name: string, args: readonly Ast[], ast: Ast): Taken | undefined {
    const place = LOOKS_IN[name];
    const looked = place === undefined ? undefined : args[place];
    const cells = looked && this.standing(looked);
    const among = cells && this.book.span(cells, this.at);
    if (place === undefined || !looked || !among) return undefined;
    const numbers = args.map((arg) => this.value(arg));
    const value = this.value(ast);
    const entries = this.entries(name, args, numbers, among, value);
    const last = entries?.at(-1);
    const fits = name === 'MATCH' ? typeof value === 'number' : last && same(this.held(last.at) ?? 0, value ?? 0);
    if (!entries || !fits) return undefined;
    const others = args.filter((_, i) => i !== place && !(name === 'LOOKUP' && i === 2));
    // The cells may be chosen by a condition, which is read too.
    const condition = looked === cells || looked.type !== 'FUNCTION_CALL' ? [] : this.of(looked).parts.slice(0, -1);
    return { parts: [...others, ...condition], entries };
  }

  private entries(name: string, args: readonly Ast[], [a = null, b = null, c = null, d = null]: readonly Raw[], among: Span, value: Raw): Entry[] | undefined {
    if (name === 'INDEX') return this.listed(this.entry(among, b ?? 1, c ?? 1));
    const wide = among.end.col - among.start.col > among.end.row - among.start.row;
    if (name === 'MATCH') return this.listed(wide ? this.entry(among, 1, value) : this.entry(among, value, 1));
    const across = name === 'HLOOKUP' || (name === 'LOOKUP' && wide);
    const count = this.search(a, among, across, name !== 'LOOKUP' && (d === false || d === 0));
    if (count === undefined) return undefined;
    const key = across ? this.entry(among, 1, count) : this.entry(among, count, 1);
    if (name !== 'LOOKUP') return this.listed(key, across ? this.entry(among, c, count) : this.entry(among, count, c));
    if (!args[2]) return this.listed(key, across ? this.entry(among, rows(among), count) : this.entry(among, count, columns(among)));
    const results = this.book.span(this.standing(args[2]), this.at);
    return results && this.listed(key, columns(results) > rows(results) ? this.entry(results, 1, count) : this.entry(results, count, 1));
  }

  private listed(...entries: (Entry | undefined)[]): Entry[] | undefined {
    const found = entries.filter((entry) => entry !== undefined);
    return found.length === entries.length ? found : undefined;
  }

  /** The entry in a row and a column, counted from 1. */
  private entry(among: Span, row: Raw, column: Raw): Entry | undefined {
    const inside = (count: Raw, most: number): count is number => typeof count === 'number' && Number.isInteger(count) && count >= 1 && count <= most;
    if (!inside(row, rows(among)) || !inside(column, columns(among))) return undefined;
    const at = { sheet: among.start.sheet, row: among.start.row + row - 1, col: among.start.col + column - 1 };
    return rows(among) === 1 && columns(among) > 1 ? { at, among, count: column, along: 'column' } : { at, among, count: row, along: 'row' };
  }

  /** Where a key stands in the first row or column, counted from 1. */
  private search(wanted: Raw, { start, end }: Span, across: boolean, exact: boolean): number | undefined {
    const keys: CellValue[] = [];
    for (let i = 0; i <= (across ? end.col - start.col : end.row - start.row); i++) {
      const held = this.held({ sheet: start.sheet, row: start.row + (across ? 0 : i), col: start.col + (across ? i : 0) });
      if (exact && same(held, wanted)) return i + 1;
      keys.push(typeof held === 'object' ? null : held);
    }
    const found = exact || typeof wanted === 'object' ? undefined : lastNotAbove(wanted, keys);
    return found === undefined ? undefined : found + 1;
  }

  private held(at: Position): Raw {
    return plain(this.book.hyper.inner(at));
  }

  private value(ast: Ast): Raw {
    return ast.type === 'CELL_RANGE' || ast.type === 'EMPTY' ? null : this.book.hyper.value(ast, this.at);
  }
}

const BRANCHES = /^(?:IF|IFERROR|CHOOSE)$/;

/** Which argument of a look-up has the cells that it looks in. */
const LOOKS_IN: Readonly<Record<string, number>> = { INDEX: 0, MATCH: 1, VLOOKUP: 1, HLOOKUP: 1, LOOKUP: 1 };

const rows = ({ start, end }: Span): number => end.row - start.row + 1;
const columns = ({ start, end }: Span): number => end.col - start.col + 1;
