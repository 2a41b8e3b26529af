/**
 * The working of one formula: its parts as steps that can be reckoned again, innermost first. Our own functions tell their
 * steps by the same run that works them out; operators and the standard's functions are written as expressions in printed numbers.
 */

import { digits, type FunctionRecord, type Step, stepList } from '../../../functions/define.ts';
import { layoutInFeet } from '../../../functions/field/index.ts';
import { declaredIn, usualUnit } from '../../../functions/measures.ts';
import { saidInMeasures } from '../../../functions/said-in-measures.ts';
import { baseUnits, fromBase, toBase, unit, withCurrency } from '../../../functions/units.ts';
import { lacksSaid } from '../../book/edition/said.ts';
import type { Position, Span } from '../addresses.ts';
import { type Ast, type BinaryType, CellError, type Raw, SimpleRangeValue } from '../hyper.ts';
import { argumentsFor, conversion, recordOf, run } from '../register.ts';
import type { TraceStep, Value } from '../types.ts';
import type { Workbook } from '../workbook.ts';
import type { Printed } from './printed.ts';
import * as printed from './printed.ts';
import { expressionOf, isWritable } from './standard-expressions.ts';
import type { Taking } from './taken.ts';
import { said, Words } from './words.ts';

/** Terms up to this many are written out in one expression; more become a list of terms. */
const WRITTEN_OUT = 24;

const COMPARED: Partial<Readonly<Record<BinaryType, string>>> = {
  EQUALS_OP: '==',
  NOT_EQUAL_OP: '!=',
  GREATER_THAN_OP: '>',
  LESS_THAN_OP: '<',
  GREATER_THAN_OR_EQUAL_OP: '>=',
  LESS_THAN_OR_EQUAL_OP: '<=',
};

const SAME_KIND_CALLS: Readonly<Record<string, string>> = { MIN: 'min', MAX: 'max', AVERAGE: 'mean', MEDIAN: 'median' };

/** The unit in which a line is worked: feet would need their inches, and inches alone go into any calculator. */
const onPaper = (symbol: string): string => (symbol === 'ft' ? 'in' : symbol);

export class Steps {
  readonly steps: TraceStep[] = [];
  /** What the functions called ask to be careful of, each once, said after the steps. */
  private readonly cautions = new Set<string>();
  private readonly book: Workbook;
  private readonly at: Position;
  private readonly root: Ast;
  private readonly taking: Taking;
  private readonly words: Words;

  constructor(book: Workbook, at: Position, root: Ast, taking: Taking) {
    this.book = book;
    this.at = at;
    this.root = root;
    this.taking = taking;
    this.words = new Words(book, at, taking);
  }

  /** Tells the steps of the whole formula, down to the value of the cell. */
  tell(heading: string, value: Value): void {
    const span = this.span(this.root);
    const label = span ? `as ${this.book.sheets.heading(span.start)}` : heading;
    const result = this.print(this.root);
    if (value.kind === 'number' && result) {
      if (!result.bare || !this.toldAlready(value)) this.settle(label, result, value.unit, span ? undefined : this.root);
    } else if ((value.kind === 'yes or no' || value.kind === 'text') && !this.toldAlready(value)) {
      this.steps.push({ kind: 'note', label, value });
    }
    for (const caution of this.cautions) this.steps.push({ kind: 'note', label: `Caution: ${caution}` });
  }

  /** Whether the last step gave this already, in the same unit. */
  private toldAlready(value: Value): boolean {
    const told = this.steps.at(-1)?.value;
    if (value.kind !== 'number' || told?.kind !== 'number') return JSON.stringify(told) === JSON.stringify(value);
    return told.unit === onPaper(value.unit) && Math.abs(told.base - value.base) <= 1e-13 * Math.abs(value.base);
  }

  /** A value from inside the calculator, as it is shown. */
  private value(ast: Ast): Raw {
    return this.book.hyper.value(ast, this.at);
  }

  private inBook(symbol: string): string {
    return withCurrency(symbol === '1' ? '' : symbol, this.book.currency);
  }

  /** The same in the book's measures. */
  private told(symbol: string): string {
    const shown = onPaper(declaredIn(this.inBook(symbol), this.book.measures));
    // A wire is known by its gauge; what is reckoned with is its area.
    return shown === 'mm²' && this.book.measures !== 'metric' ? 'in²' : shown;
  }

  /** Writes an expression as a step in a unit, and goes on with the number that it gives. */
  private settle(label: string, p: Printed, symbol: string, ast?: Ast): Printed {
    let shown = onPaper(symbol);
    let u = unit(shown);
    if (u?.dimension !== p.dimension || u.reading !== p.reading) {
      shown = onPaper(usualUnit(p.dimension, p.reading, this.book));
      u = unit(shown);
    }
    const scaled = u ? printed.onScale(p, u) : p;
    const words = ast && this.words.of(this.taking.standing(ast));
    this.steps.push({
      kind: 'expression',
      label,
      ...(words !== undefined && words !== label && { words }),
      expression: scaled.text,
      value: { kind: 'number', base: p.base, unit: shown },
    });
    return printed.atom(u ? fromBase(p.base, u) : p.base, p.base, u);
  }

  /** The number that a part of the formula comes to, as an expression; undefined where it is no number. */
  private print(ast: Ast): Printed | undefined {
    switch (ast.type) {
      case 'NUMBER':
        return printed.atom(ast.value, ast.value, undefined, ast.value === 0);
      case 'PARENTHESES':
        return this.print(ast.expression);
      case 'CELL_REFERENCE':
      case 'NAMED_EXPRESSION':
        return this.cell(ast);
      case 'FUNCTION_CALL':
        return this.call(ast.procedureName, ast.args, ast);
      case 'MINUS_UNARY_OP':
      case 'PLUS_UNARY_OP':
      case 'PERCENT_OP':
        return this.signed(ast.type, ast.value);
      default:
        return 'left' in ast ? this.operator(ast) : undefined;
    }
  }

  private signed(type: 'MINUS_UNARY_OP' | 'PLUS_UNARY_OP' | 'PERCENT_OP', inner: Ast): Printed | undefined {
    const p = this.print(inner);
    if (!p || type === 'PLUS_UNARY_OP') return p;
    return type === 'MINUS_UNARY_OP' ? printed.negative(p, -p.base) : printed.percent(p, p.base / 100);
  }

  private span(ast: Ast): Span | undefined {
    if (ast.type === 'PARENTHESES') return this.span(ast.expression);
    return this.book.span(ast, this.at);
  }

  private cell(ast: Ast): Printed | undefined {
    const span = this.span(ast);
    const raw = this.value(ast);
    if (raw === null) return printed.atom(0, 0, undefined, true);
    if (typeof raw === 'boolean') return printed.plainText(String(raw), Number(raw), 4);
    if (typeof raw !== 'number') return undefined;
    return this.number(raw, span ? this.book.shownUnit(span.start) : '');
  }

  private number(base: number, symbol: string): Printed {
    const u = unit(onPaper(symbol));
    return printed.atom(u ? fromBase(base, u) : base, base, u);
  }

  private operator(ast: Extract<Ast, { left: Ast }>): Printed | undefined {
    const sign = COMPARED[ast.type];
    if (sign) return this.compare(ast, sign);
    if (ast.type === 'CONCATENATE_OP') {
      this.print(ast.left);
      this.print(ast.right);
      return undefined;
    }
    const [a, b, base] = [this.print(ast.left), this.print(ast.right), this.value(ast)];
    if (!a || !b || typeof base !== 'number') return undefined;
    if (ast.type === 'PLUS_OP') return printed.sum(a, b, '+', base);
    if (ast.type === 'MINUS_OP') return printed.sum(a, b, '-', base);
    if (ast.type === 'TIMES_OP') return printed.multiply(a, b, base);
    return ast.type === 'DIV_OP' ? printed.divide(a, b, base) : printed.raise(a, b, base);
  }

  private compare(ast: Extract<Ast, { left: Ast }>, sign: string): Printed | undefined {
    const holds = this.value(ast);
    const [a, b] = [this.print(ast.left), this.print(ast.right)];
    if (typeof holds !== 'boolean') return undefined;
    const value: Value = { kind: 'yes or no', yes: holds };
    const label = `${this.words.of(ast)}: ${holds ? 'holds' : 'does not hold'}`;
    this.steps.push(a && b ? { kind: 'expression', label, expression: printed.comparison(a, b, sign), value } : { kind: 'note', label, value });
    return printed.plainText(String(holds), Number(holds), 4);
  }

  private call(name: string, args: readonly Ast[], ast: Ast): Printed | undefined {
    if (name === 'UNIT') return this.withUnit(args);
    if (name === 'NUMBER.IN') return this.withoutUnit(args);
    const record = recordOf(name);
    if (record) return this.ours(record, args);
    if (name === 'IF') return this.branch(args);
    if (name === 'IFERROR') return this.orElse(args);
    if (name === 'CHOOSE') return this.choice(args);
    if (name === 'SUM') return this.total(args, ast);
    const same = SAME_KIND_CALLS[name];
    if (same) return this.sameKind(same, args, ast);
    const base = this.value(ast);
    if (typeof base !== 'number') return this.looked(args, ast, base);
    return this.known(name, args, base) ?? this.looked(args, ast, base);
  }

  /** Functions that an expression can hold as they are. */
  private known(name: string, args: readonly Ast[], base: number): Printed | undefined {
    if (name === 'PI') return printed.plainText('pi', base, 4);
    if (!isWritable(name) || args.some((arg) => this.span(arg) !== undefined && !this.single(arg))) return undefined;
    const parts = args.map((arg) => this.print(arg)).filter((part) => part !== undefined);
    return parts.length === args.length ? expressionOf(name, parts, base) : undefined;
  }

  private single(ast: Ast): boolean {
    const span = this.span(ast);
    return span !== undefined && span.start.row === span.end.row && span.start.col === span.end.col;
  }

  private withUnit(args: readonly Ast[]): Printed | undefined {
    const [number, symbol] = args;
    const u = symbol?.type === 'STRING' ? unit(symbol.value) : undefined;
    const p = number && this.print(number);
    if (!p || !u) return undefined;
    const { numerator, denominator, offset, dimension, reading } = u;
    return { ...p, numerator, denominator, offset, dimension, reading, base: toBase(p.base, u), joinsAny: false };
  }

  private withoutUnit(args: readonly Ast[]): Printed | undefined {
    const [quantity, symbol] = args;
    const u = symbol?.type === 'STRING' ? unit(symbol.value) : undefined;
    const p = quantity && this.print(quantity);
    return p && u && printed.asPlain(printed.onScale(p, u), fromBase(p.base, u));
  }

  /** A function of ours: arguments that come in another unit first, then its own steps. */
  private ours(record: FunctionRecord, asts: readonly Ast[]): Printed | undefined {
    if (record.caution) this.cautions.add(record.caution);
    for (const [i, ast] of asts.entries()) this.argument(record, i, ast);
    const args = argumentsFor(record, asts, (ast) => this.value(ast));
    if (args instanceof CellError) return undefined;
    const told = stepList();
    const answer = run(record, args, told.show);
    const any = this.givenIn(record, asts);
    for (const step of told.steps) this.push(step, any);
    if (told.steps.length > 0) this.inWords(record.formula, answer);
    const lacks = record.name === 'VERDICT' && this.book.sheets.book ? lacksSaid(this.book.sheets.book) : '';
    if (lacks !== '') this.steps.push({ kind: 'note', label: lacks });
    if (typeof answer !== 'number') return undefined;
    const symbol = record.returns.unit === 'any' ? this.inBook(any) : this.told(record.returns.unit);
    const u = unit(symbol);
    if (!this.steps.some((step) => step.value?.kind === 'number' && Math.abs(step.value.base - answer) <= 1e-12 * Math.abs(answer))) {
      this.steps.push({
        kind: 'expression',
        label: record.returns.quantity,
        expression: digits(u ? fromBase(answer, u) : answer),
        value: { kind: 'number', base: answer, unit: symbol },
      });
    }
    return this.number(answer, symbol);
  }

  /** The last line of a function says its formula as it is in print. */
  private inWords(words: string, answer: unknown): void {
    const last = this.steps.pop();
    const { base } = last?.value?.kind === 'number' ? last.value : { base: undefined };
    if (last) this.steps.push(base !== undefined && typeof answer === 'number' && last.kind !== 'search' && last.kind !== 'note' ? { ...last, words } : last);
  }

  private argument(record: FunctionRecord, i: number, ast: Ast): void {
    const param = record.params[Math.min(i, record.params.length - 1)];
    if (!param || param.shape === 'range' || ast.type === 'STRING' || ast.type === 'EMPTY') return;
    const p = this.print(ast);
    const u = conversion(param.unit);
    if (!p || p.joinsAny || param.unit === 'text' || param.unit === 'yes or no') return;
    // `any` is taken in base units: how a number comes to be one is told too.
    const symbol = param.unit === 'any' ? baseUnits(p.dimension) : param.unit;
    const wanted = param.unit === 'any' && !p.reading ? unit(symbol) : u;
    if (p.bare && (!wanted || (p.numerator === wanted.numerator && p.denominator === wanted.denominator && p.offset === wanted.offset))) return;
    this.settle(wanted?.symbol ? `${param.quantity} in ${this.inBook(symbol)}` : param.quantity, p, this.inBook(symbol), ast);
  }

  /** The unit, no multiple of base units, of what a function of any quantity was given: its steps are in it. */
  private givenIn(record: FunctionRecord, asts: readonly Ast[]): string {
    const ast = asts[record.params.findIndex((param) => param.unit === 'any')];
    const shown = ast && this.unitOf(ast);
    const u = shown && unit(shown);
    if (!u) return '1';
    return u.numerator === u.denominator && u.offset === 0 ? shown : baseUnits(u.dimension);
  }

  private push(step: Step, any: string): void {
    const label = saidInMeasures(step.label, this.book.measures);
    if (step.kind === 'note') {
      this.steps.push({ kind: 'note', label });
      return;
    }
    const u = conversion(step.unit);
    const shown = step.unit === 'any' ? this.inBook(any) : this.told(step.unit);
    const value: Value = { kind: 'number', base: u ? toBase(step.value, u) : step.value, unit: shown };
    if (step.kind === 'expression') this.steps.push({ kind: 'expression', label, expression: printed.inUnit(step.expression, u, unit(shown)), value });
    else if (step.kind === 'sum') this.steps.push({ kind: 'sum', label, terms: step.terms(), scale: step.scale * printed.scaleTo(u, unit(shown)), value });
    else {
      const eu = conversion(step.equalsUnit);
      const by = printed.scaleTo(u, unit(shown));
      const bracket = [step.bracket[0] * by, step.bracket[1] * by] as const;
      const equals: Value = { kind: 'number', base: eu ? toBase(step.equals, eu) : step.equals, unit: this.told(step.equalsUnit) };
      this.steps.push({ kind: 'search', label, value, bracket, check: step.check, ...this.checkShown(step.check), equals });
    }
  }

  /** The check of a search in the book's measures: what was searched for stands in it with its unit, and perhaps a layout. */
  private checkShown(check: string): { readonly checkShown?: string } {
    if (this.book.measures === 'metric') return {};
    const told = check.replace(/UNIT\(([^,()]+),"([^"]+)"\)/g, (_, number: string, symbol: string) => {
      const [from, shown] = [unit(symbol), this.told(symbol)];
      const to = unit(shown);
      return from && to ? `${digits(fromBase(toBase(Number(number), from), to))} ${shown}` : `${number} ${symbol}`;
    });
    return { checkShown: layoutInFeet(told) };
  }

  /** IFERROR: its second part where the first is an error. */
  private orElse([first, second]: readonly Ast[]): Printed | undefined {
    const taken = first && this.value(first) instanceof CellError ? second : first;
    return taken && this.print(taken);
  }

  /** IF: the condition, then only the branch that it takes. */
  private branch(args: readonly Ast[]): Printed | undefined {
    const [condition, yes, no] = args;
    if (!condition) return undefined;
    const before = this.steps.length;
    this.print(condition);
    const holds = this.value(condition);
    if (holds instanceof CellError || holds instanceof SimpleRangeValue) return undefined;
    if (this.steps.length === before) this.steps.push({ kind: 'note', label: `${this.words.of(condition)}: ${holds ? 'yes' : 'no'}` });
    const taken = holds ? yes : no;
    return taken && this.print(taken);
  }

  /** CHOOSE: which it is, then that alone. */
  private choice(args: readonly Ast[]): Printed | undefined {
    const [which, taken] = this.taking.of({ type: 'FUNCTION_CALL', procedureName: 'CHOOSE', args }).parts;
    if (!which || !taken) return undefined;
    this.print(which);
    this.steps.push({ kind: 'note', label: `${this.words.of(which)}: choice ${String(this.value(which))} of ${args.length - 1}` });
    return this.print(taken);
  }

  /** The numbers that arguments and ranges hold, each as it is shown where it stands. */
  private numbers(args: readonly Ast[]): readonly { readonly label: string; readonly p: Printed }[] | undefined {
    const found: { label: string; p: Printed }[] = [];
    for (const arg of args) {
      const span = this.span(arg);
      if (!span) {
        const p = this.print(arg);
        if (!p) return undefined;
        found.push({ label: this.words.of(arg), p });
        continue;
      }
      for (const { at, value } of this.book.valuesIn(span)) {
        if (typeof value === 'number') found.push({ label: this.book.sheets.address(at), p: this.number(value, this.book.shownUnit(at)) });
      }
    }
    return found;
  }

  private total(args: readonly Ast[], ast: Ast): Printed | undefined {
    const base = this.value(ast);
    const terms = this.numbers(args);
    const [first, ...rest] = terms ?? [];
    if (typeof base !== 'number' || !terms) return this.looked(args, ast, base);
    if (!first) return printed.atom(0, 0, undefined, true);
    if (terms.length <= WRITTEN_OUT) {
      let all = first.p;
      for (const { p } of rest) all = printed.sum(all, p, '+', all.base + p.base);
      return this.settle(this.words.of(ast), { ...all, base, bare: false }, this.symbolOf(first.p, args));
    }
    const symbol = this.symbolOf(first.p, args);
    const u = unit(symbol);
    this.steps.push({
      kind: 'sum',
      label: this.words.of(ast),
      terms: terms.map(({ label, p }) => ({ label, value: u ? fromBase(p.base, u) : p.base })),
      scale: 1,
      value: { kind: 'number', base, unit: symbol },
    });
    return this.number(base, symbol);
  }

  /** The unit in which the first of several terms is shown. */
  private symbolOf(first: Printed, args: readonly Ast[]): string {
    const span = args[0] && this.span(args[0]);
    const said = span ? this.book.shownUnit(span.start) : '';
    return unit(said)?.dimension === first.dimension ? said : usualUnit(first.dimension, first.reading, this.book);
  }

  private sameKind(name: string, args: readonly Ast[], ast: Ast): Printed | undefined {
    const base = this.value(ast);
    const terms = this.numbers(args);
    const first = terms?.[0];
    if (typeof base !== 'number' || !terms || !first || terms.length > 10 * WRITTEN_OUT) return this.looked(args, ast, base);
    const call = printed.sameKindCall(
      name,
      terms.map(({ p }) => p),
      base,
    );
    return this.settle(this.words.of(ast), call, this.symbolOf(first.p, args));
  }

  /** A look-up, or a function with no expression of its own: what it was and what it gave. */
  private looked(args: readonly Ast[], ast: Ast, result: Raw): Printed | undefined {
    for (const arg of args) if (!this.span(arg)) this.print(arg);
    // TRUE() and FALSE() say nothing of anything.
    if (typeof result === 'object' || (typeof result === 'boolean' && args.length === 0)) return undefined;
    const entry = this.taking.of(ast).entries.at(-1);
    const place = ast.type === 'FUNCTION_CALL' && ast.procedureName === 'MATCH';
    const unit = typeof result === 'number' ? onPaper(entry && !place ? this.book.shownUnit(entry.at) : this.unitOf(ast)) : '';
    const value: Value =
      typeof result === 'number'
        ? { kind: 'number', base: result, unit }
        : typeof result === 'string'
          ? { kind: 'text', text: result }
          : { kind: 'yes or no', yes: result };
    const gave = typeof result === 'boolean' ? (result ? 'holds' : 'does not hold') : said(this.book, this.at, value);
    const label = entry ? this.words.found(entry, place) : `${this.words.of(ast)}: ${gave}`;
    this.steps.push({ kind: 'note', label, value });
    if (typeof result === 'boolean') return printed.plainText(String(result), Number(result), 4);
    return typeof result === 'number' ? this.number(result, unit) : undefined;
  }

  /** How a number that was looked up is shown. */
  private unitOf(ast: Ast): string {
    if (ast === this.root) return this.book.shownUnit(this.at);
    return this.book.quantities.inferFormula(this.book.hyper.text(ast, this.at), this.at).unit;
  }
}
