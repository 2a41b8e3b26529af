/**
 * A book at work: its cells fed to the calculator, and their values read back with units and with our words for errors.
 * Synchronous; engine.ts and worker.ts put the asynchronous interface around it.
 */

import { layoutInFeet } from '../../functions/field/index.ts';
import { declaredIn, type Measures, usualUnit } from '../../functions/measures.ts';
import type { Content } from '../../functions/quantity-text.ts';
import { saidInMeasures } from '../../functions/said-in-measures.ts';
import { withCurrency } from '../../functions/units.ts';
import { gaugeText } from '../../functions/wire-gauge.ts';
import { cellText, tablePrefix } from '../book/address.ts';
import { resultLimits, resultNotAllowed } from '../book/allowed.ts';
import type { Book, Cell } from '../book/book.ts';
import type { Change, Edit } from '../book/change.ts';
import { type Wires, wiresOf } from '../book/customs.ts';
import { lacksShort, wentSaid } from '../book/edition/said.ts';
import { titleOf } from '../book/look-up.ts';
import { keyOf, type Position, type Span } from './addresses.ts';
import { CellMap } from './cell-map.ts';
import { type Fault, NOT_ANSWERED, OUT_OF_RANGE } from './errors.ts';
import { beyond, Feeding, fedTables } from './feeding.ts';
import { type Ast, type CellValue, DetailedCellError, Hyper } from './hyper.ts';
import { Names } from './names.ts';
import { everyPart, objection, objectionToOne, type Sound } from './objections.ts';
import { type Kind, Quantities } from './quantities/index.ts';
import { hostOf } from './quantity-host.ts';
import { type Context, recordOf } from './register.ts';
import { sameValue } from './same-value.ts';
import { explained, unitError } from './sentences.ts';
import { Sheets } from './sheets.ts';
import type { Address, Value, Values } from './types.ts';

/** Stands for the formula of `evaluate`, which lies in no table; no table may be called so. */
const SCRATCH = '(one formula)';

/** How a workbook shows that it is at work. */
export interface Life {
  /** Called often: before every formula, and for every cell that is taken in. */
  readonly beat?: () => void;
  /** A function that may take seconds starts or ends. */
  readonly running?: (slow: boolean) => void;
}

/** What formulas say with lengths or margins of warmth in it: the list of benches of one that the book does not plan for, and CHECK.TEMPERATURE. */
const MEASURED = /^no: planned for .* m; this one is .* m$|, [\d.]+ K (?:under|over)$/u;

export class Workbook {
  readonly sheets = new Sheets();
  hyper: Hyper;
  quantities: Quantities;
  readonly feeding: Feeding = new Feeding(this);
  private readonly names = new Names(this.sheets);
  private readonly values = new CellMap<Value>();
  /** Names of the calculator's tables. */
  private tables: readonly string[] = [SCRATCH];
  /** False where the calculator may have stopped half-way. */
  private sound = true;
  /** While a whole book is taken in. */
  private judged: Sound | undefined;
  readonly context: Context;

  readonly life: Life;

  constructor(life: Life) {
    this.life = life;
    this.context = {
      state: (at) => this.feeding.fault(at) ?? this.unanswered(at),
      lacking: () => {
        const lacks = this.sheets.book?.template?.lacks;
        return lacks ? lacksShort(lacks) : '';
      },
      ...(life.running && { running: life.running }),
    };
    this.hyper = this.calculator([SCRATCH]);
    this.quantities = new Quantities(hostOf(this));
  }

  /** What a formula gives for a given is held to its range as it is worked out, so that nothing reckons with what is not allowed. */
  private calculator(tables: readonly string[]): Hyper {
    return new Hyper(tables, this.context, this.life.beat, (number, at) => {
      const found = this.feeding.limits(at);
      const message = found && resultNotAllowed(found.place, found.limits, number);
      return message === undefined ? undefined : { word: OUT_OF_RANGE, message };
    });
  }

  get scratch(): Position {
    return { sheet: this.sheets.tables.length, col: 0, row: 0 };
  }

  get currency(): string {
    return this.sheets.book?.currency ?? 'EUR';
  }

  private get wires(): Wires {
    return this.sheets.book ? wiresOf(this.sheets.book) : 'mm²';
  }

  get measures(): Measures {
    return this.sheets.book?.measures ?? 'metric';
  }

  /** Builds all again from the book; gives every value that is not blank. */
  load(book: Book): Values {
    return Object.fromEntries(this.loaded(book));
  }

  /** The same, one value after the other: a record of all values of a large book takes longer to make than to hand over. */
  *loaded(book: Book): Generator<readonly [Address, Value]> {
    this.sound = false;
    this.build(book);
    for (const [at, value] of this.values) yield [this.sheets.address(at), value];
  }

  private build(book: Book): void {
    this.sheets.update(book);
    this.feeding.forget();
    this.takeCalculator(book);
    // Nothing is worked out until all is in place.
    this.hyper.hf.suspendEvaluation();
    this.names.give(this.hyper, book);
    const tables = this.fed(book);
    // A large table is taken in, and put in order, without a sign of life in between.
    this.life.running?.(true);
    this.hyper.takeAll(tables);
    this.sound = true;
    this.life.running?.(false);
    this.quantities = new Quantities(hostOf(this));
    this.quantities.rebuild();
    this.values.clear();
    for (const [at] of this.feeding.all()) {
      const value = this.valueAt(at);
      if (value.kind !== 'blank') this.values.set(at, value);
    }
  }

  /** What the calculator is to hold of every cell. Tables and names stay meanwhile. */
  private fed(book: Book): ReturnType<typeof fedTables> {
    this.judged = new Map();
    try {
      return fedTables(this.feeding, this.sheets, book);
    } finally {
      this.judged = undefined;
    }
  }

  /** The calculator that is there serves again where its tables are the same: it knows most of the formulas already. */
  private takeCalculator(book: Book): void {
    const tables = [...book.tables.map((table) => table.name), SCRATCH];
    const fits = this.sound && tables.length === this.tables.length && tables.every((name, i) => name === this.tables[i]);
    // Until all is in place it is not; what stops half-way is not built upon.
    this.sound = false;
    if (fits) return;
    this.hyper.dispose();
    this.hyper = this.calculator(tables);
    this.tables = tables;
    this.names.forget();
  }

  /** Why a canonical formula can't stand in a cell. */
  objection(formula: string, at: Position): Fault | undefined {
    const names = {
      has: (name: string) => name === 'TRUE' || name === 'FALSE' || this.names.has(name),
      all: () => this.names.all(),
      went: (name: string) => this.sheets.book && wentSaid(this.sheets.book, name),
      tables: () => this.sheets.tables.map((table) => table.name),
      table: (sheet: number) => this.sheets.size(sheet),
    };
    if (this.judged) return objectionToOne(this.hyper, formula, at, names, this.judged);
    return objection(this.hyper, formula, at, names) ?? (at.sheet === this.scratch.sheet ? this.lacksTable(formula, at) : undefined);
  }

  /** A formula that lies in no table has no cells beside it: its references must name their table. */
  private lacksTable(formula: string, at: Position): Fault | undefined {
    for (const part of everyPart(this.hyper.parse(formula, at).ast)) {
      const span = this.span(part, at);
      if (!span || span.start.sheet !== at.sheet) continue;
      const cell = cellText(span.start.col, span.start.row);
      const table = this.sheets.tables[0];
      const example = table ? `, such as ${tablePrefix(table.name)}${cell}` : '; no book is open here';
      return { word: 'no such cell', message: `${cell} needs the name of its table before it${example}.` };
    }
    return undefined;
  }

  unanswered(at: Position): Fault {
    const [said, address] = [this.sheets.heading(at), this.sheets.address(at)];
    const place = this.sheets.inBook(at);
    // In a list the row is called by what stands first in it: "Rail 45, Price".
    const heading = said === address && place?.table.form === 'list' ? titleOf(place) : said;
    return { word: NOT_ANSWERED, message: `${heading === address ? address : `${heading} (${address})`} is not answered yet.` };
  }

  content(at: Position): Content {
    return this.feeding.content(at);
  }

  /** The unit that the cell, its row or its column names. */
  unitSaid(at: Position, cell = this.sheets.cell(at)): string | undefined {
    return cell?.unit ?? this.sheets.row(at)?.unit ?? this.sheets.column(at)?.unit;
  }

  /** How a number in this cell is shown. */
  shownUnit(at: Position): string {
    if (at.sheet !== this.scratch.sheet) return this.quantities.shownUnitOf(at);
    return this.defaultUnitOf(this.quantities.kindOf(at), this.formulaIn(at));
  }

  /** The unit of a formula that stands in no cell: what its function declares, else the one default of its kind. */
  private defaultUnitOf(kind: Kind, ast: Ast | undefined): string {
    if (kind.is !== 'number') return '';
    const declared = ast && declaredUnit(ast);
    return declared ? declaredIn(withCurrency(declared, this.currency), this.measures) : usualUnit(kind.dimension, kind.reading, this);
  }

  valueAt(at: Position): Value {
    this.life.beat?.();
    if (beyond(at)) {
      const fault = this.feeding.fault(at);
      return fault ? { kind: 'error', ...fault } : { kind: 'blank' };
    }
    return this.asValue(this.hyper.hf.getCellValue(at), this.quantities.kindOf(at), at, () => this.shownUnit(at));
  }

  /** What a cell says for what the calculator has there. */
  asValue(raw: CellValue, kind: Kind, at: Position, unit: () => string): Value {
    const value = this.value(raw, kind, at, unit);
    return (this.feeding.limits(at) && this.resultOutOfRange(at, value)) || value;
  }

  /** The same in the shown unit, once kinds are known: a number of another kind than its limits is not allowed either. */
  resultOutOfRange(at: Position, value: Value): Value | undefined {
    if (value.kind !== 'number') return undefined;
    const [book, place] = [this.sheets.book, this.sheets.inBook(at)];
    const limits = book && place && resultLimits(book, place);
    const message = limits && resultNotAllowed(place, limits, value.base, value.unit);
    return message === undefined ? undefined : { kind: 'error', word: OUT_OF_RANGE, message };
  }

  /** What the calculator gives, with its unit, or with our words for what is wrong. */
  private value(raw: CellValue, kind: Kind, at: Position, unit: () => string): Value {
    // A mistake of quantities takes the place of whatever was worked out, everywhere; but a circle has no quantity to be wrong in.
    if (kind.is === 'fail' && !(raw instanceof DetailedCellError && raw.type === 'CYCLE')) return unitError(kind, at, this);
    if (typeof raw === 'number') return this.number(raw, unit());
    if (typeof raw === 'string') return this.text(raw);
    if (typeof raw === 'boolean') return { kind: 'yes or no', yes: raw };
    if (raw instanceof DetailedCellError) return this.said(explained(raw, at, this));
    return { kind: 'blank' };
  }

  private number(base: number, unit: string): Value {
    const shown = unit === 'mm²' && this.wires === 'AWG' ? gaugeText(base * 1e6) : undefined;
    return { kind: 'number', base, unit, ...(shown !== undefined && { shown }) };
  }

  /** Functions refuse in the units that they reckon in. */
  private said(value: Value): Value {
    return value.kind === 'error' ? { ...value, message: saidInMeasures(value.message, this.measures) } : value;
  }

  private text(text: string): Value {
    const shown = this.measures === 'metric' ? text : MEASURED.test(text) ? saidInMeasures(text, this.measures) : layoutInFeet(text);
    return shown === text ? { kind: 'text', text } : { kind: 'text', text, shown };
  }

  /** The value of a committed formula that stands in no cell; `at`: as if it stood there. */
  once(formula: string, kind: Kind, at: Position = this.scratch): Value {
    return this.value(this.hyper.once(formula, at), kind, at, () => this.unitSaid(at) ?? this.defaultUnitOf(kind, this.hyper.parse(formula, at).ast));
  }

  /** Feeds changes that the book already holds; gives the values that differ from before. */
  apply(changes: readonly Change[], book: Book): Values {
    const edits = changes.flatMap((change) => change.edits);
    const local = this.sheets.book !== undefined && edits.every((edit) => isLocal(edit, this));
    try {
      return local ? this.feed(edits, book) : this.rebuild(book);
    } catch {
      // The calculator may have stopped half-way: a new one is built from the book, which is whole.
      this.sound = false;
      return this.rebuild(book);
    }
  }

  private rebuild(book: Book): Values {
    const before = new Map([...this.values].map(([at, value]) => [this.sheets.address(at), value]));
    this.build(book);
    const differ: Record<Address, Value> = {};
    for (const [at, value] of this.values) {
      const address = this.sheets.address(at);
      if (!sameValue(before.get(address), value)) differ[address] = value;
      before.delete(address);
    }
    for (const address of before.keys()) differ[address] = { kind: 'blank' };
    return differ;
  }

  private feed(edits: readonly Edit[], book: Book): Values {
    this.sheets.update(book);
    const touched = this.feeding.touchedBy(edits);
    const changed = this.hyper.hf.batch(() => {
      for (const at of touched.values()) {
        const cell = this.sheets.cell(at);
        if (!cell && !this.feeding.has(at)) continue;
        const fed = this.feeding.take(at, cell);
        if (!beyond(at)) this.hyper.put(at, fed);
      }
    });
    const edited = new Map(touched);
    for (const change of changed) {
      if ('address' in change) touched.set(keyOf(change.address), change.address);
    }
    for (const at of this.quantities.changed([...edited.values()])) touched.set(keyOf(at), at);
    const differ: Record<Address, Value> = {};
    for (const at of touched.values()) this.compare(at, differ);
    return differ;
  }

  private compare(at: Position, differ: Record<Address, Value>): void {
    const value = this.valueAt(at);
    if (sameValue(this.values.get(at) ?? { kind: 'blank' }, value)) return;
    if (value.kind === 'blank') this.values.delete(at);
    else this.values.set(at, value);
    differ[this.sheets.address(at)] = value;
  }

  /** The cells that a reference, a range or a name in a formula stands for. */
  span(ast: Ast, from: Position): Span | undefined {
    if (ast.type === 'CELL_REFERENCE') {
      const at = ast.reference.toSimpleCellAddress(from);
      return { start: at, end: at };
    }
    if (ast.type === 'CELL_RANGE') return { start: ast.start.toSimpleCellAddress(from), end: ast.end.toSimpleCellAddress(from) };
    return ast.type === 'NAMED_EXPRESSION' ? this.named(ast.expressionName) : undefined;
  }

  /** The cells that a name stands for. */
  named(asWritten: string): Span | undefined {
    return this.names.span(asWritten);
  }

  /** The tree of the formula in a cell; undefined where there is none, or it was refused. */
  formulaIn(at: Position): Ast | undefined {
    return this.feeding.content(at).kind === 'formula' && !this.feeding.fault(at) ? this.hyper.ast(at) : undefined;
  }

  *formulasAll(): Generator<Position> {
    for (const [at, content] of this.feeding.all()) if (content.kind === 'formula') yield at;
  }

  /** The cells of a range with what the calculator holds for them; blanks are left out. */
  *valuesIn(span: {
    readonly start: Position;
    readonly end: Position;
  }): Generator<{ readonly at: Position; readonly value: number | string | boolean | DetailedCellError }> {
    for (let row = span.start.row; row <= span.end.row; row++) {
      for (let col = span.start.col; col <= span.end.col; col++) {
        const at = { sheet: span.start.sheet, row, col };
        const value = this.hyper.hf.getCellValue(at);
        if (value !== null) yield { at, value };
      }
    }
  }

  /** The position that an address names. */
  at(address: Address): Position {
    const at = this.sheets.find(address);
    if (!at) throw new RangeError(`There is no cell ${address} in this book.`);
    return at;
  }

  /** Works out a formula that lies in no table, and forgets it again after `use`. */
  withFormula<T>(formula: string, use: (at: Position) => T): T {
    const at = this.scratch;
    const cell: Cell = { content: formula };
    try {
      this.hyper.put(at, this.feeding.take(at, cell));
      this.quantities.changed([at]);
      return use(at);
    } finally {
      this.hyper.put(at, this.feeding.take(at, undefined));
      this.quantities.changed([at]);
    }
  }
}

/** The unit that the outermost function of a formula declares, if it declares one. */
function declaredUnit(ast: Ast): string | undefined {
  if (ast.type === 'PARENTHESES') return declaredUnit(ast.expression);
  if (ast.type === 'MINUS_UNARY_OP' || ast.type === 'PLUS_UNARY_OP') return declaredUnit(ast.value);
  const unit = ast.type === 'FUNCTION_CALL' ? recordOf(ast.procedureName)?.returns.unit : undefined;
  return unit === '1' || unit === 'any' || unit === 'text' || unit === 'yes or no' ? undefined : unit;
}

/** Edits that leave every row, column, table and name where it was. */
function isLocal(edit: Edit, shown: { readonly currency: string; readonly measures: Measures }): boolean {
  if (edit.at === 'cell' || edit.at === 'page' || edit.at === 'block') return true;
  if (edit.at === 'row' || edit.at === 'column') return edit.before !== null && edit.after !== null && edit.before.id === edit.after.id;
  // What a verdict says of a later edition is said anew.
  if (edit.at !== 'book' || edit.before.template !== edit.after.template || edit.before.wires !== edit.after.wires) return false;
  return (['currency', 'measures'] as const).every((field) => edit.after[field] === undefined || edit.after[field] === shown[field]);
}
