/**
 * A book at work: its cells fed to the calculator, and their values read back with units and with our words for errors.
 * Synchronous; engine.ts and worker.ts put the asynchronous interface around it.
 */

import { type Content, readContent } from '../../functions/quantity-text.ts';
import { defaultUnit, withCurrency } from '../../functions/units.ts';
import type { At } from '../book/address.ts';
import { type Limits, notAllowed, resultLimits, resultNotAllowed } from '../book/allowed.ts';
import type { Book, Cell, Column, Row } from '../book/book.ts';
import type { Change, Edit } from '../book/change.ts';
import { lacksShort, wentSaid } from '../book/edition/said.ts';
import { rangeOf, titleOf } from '../book/look-up.ts';
import { cellText, keyOf, type Place, placeOf, readReference, type Span, tableText } from './addresses.ts';
import { BOUNDS } from './bounds.ts';
import { type Fault, NOT_ANSWERED, OUT_OF_RANGE, TOO_LARGE } from './errors.ts';
import { Grid } from './grid.ts';
import { everyPart, objection, tooMuchText } from './guard.ts';
import { type Ast, type CellValue, DetailedCellError, Hyper } from './hyper.ts';
import { type Kind, Quantities } from './quantities/index.ts';
import { hostOf } from './quantity-host.ts';
import { type Context, recordOf, STATE } from './register.ts';
import { explained, unitError } from './sentences.ts';
import type { Address, Value, Values } from './types.ts';

/** A cell that the calculator has no room for. */
const beyond = (at: Place): boolean => at.row >= BOUNDS.rows || at.col >= BOUNDS.columns;

/** Stands for the formula of `evaluate`, which lies in no table; no table may be called so. */
const SCRATCH = '(one formula)';

const BLANK: Content = { kind: 'blank' };

const sameMend = (a: Value, b: Value): boolean => JSON.stringify(a.kind === 'error' ? a.mend : 0) === JSON.stringify(b.kind === 'error' ? b.mend : 0);

function same(a: Value | undefined, b: Value): boolean {
  if (!a || a.kind !== b.kind) return a === b;
  if (a.kind === 'number') return b.kind === 'number' && a.base === b.base && a.unit === b.unit;
  if (a.kind === 'text') return b.kind === 'text' && a.text === b.text;
  if (a.kind === 'yes or no') return b.kind === 'yes or no' && a.yes === b.yes;
  if (a.kind === 'error') return b.kind === 'error' && a.word === b.word && a.message === b.message && a.from === b.from && sameMend(a, b);
  return true;
}

/** How a workbook shows that it is at work. */
export interface Life {
  /** Called often: before every formula, and for every cell that is taken in. */
  readonly beat?: () => void;
  /** A function that may take seconds starts or ends. */
  readonly running?: (slow: boolean) => void;
}

/** What is handed to the calculator for one cell. */
type Fed = number | string | boolean | null;

export class Workbook {
  readonly grid = new Grid();
  hyper: Hyper;
  quantities: Quantities;
  private contents = new Map<number, Content>();
  private faults = new Map<number, Fault>();
  private values = new Map<number, Value>();
  /** Givens whose allowed values stand in cells: looked at again after every change. */
  private listed = new Set<number>();
  /** Givens that a formula answers, with the limits of what it may give. */
  private limited = new Map<number, { readonly place: At; readonly limits: Limits }>();
  private formulas = 0;
  /** Names of the calculator's tables. */
  private tables: readonly string[] = [SCRATCH];
  /** False where the calculator may have stopped half-way. */
  private sound = true;
  private names: ReadonlyMap<string, string> = new Map();
  private readonly context: Context;

  readonly life: Life;

  constructor(life: Life) {
    this.life = life;
    this.context = {
      state: (at) => this.faults.get(keyOf(at)) ?? this.unanswered(at),
      lacking: () => {
        const lacks = this.grid.book?.template?.lacks;
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
      const found = this.limited.get(keyOf(at));
      const message = found && resultNotAllowed(found.place, found.limits, number);
      return message === undefined ? undefined : { word: OUT_OF_RANGE, message };
    });
  }

  get scratch(): Place {
    return { sheet: this.grid.tables.length, col: 0, row: 0 };
  }

  get currency(): string {
    return this.grid.book?.currency ?? 'EUR';
  }

  /** Builds all again from the book; gives every value that is not blank. */
  load(book: Book): Values {
    this.sound = false;
    this.build(book);
    const values: Record<Address, Value> = {};
    for (const [key, value] of this.values) values[this.grid.address(placeOf(key))] = value;
    return values;
  }

  private build(book: Book): void {
    this.grid.update(book);
    this.contents = new Map();
    this.faults = new Map();
    this.listed = new Set();
    this.limited = new Map();
    this.formulas = 0;
    this.takeCalculator(book);
    // Nothing is worked out until all is in place.
    this.hyper.hf.suspendEvaluation();
    this.nameAll(book);
    const sheets: Fed[][][] = book.tables.map(() => []);
    for (const [at, cell] of this.grid.filled()) {
      const fed = this.take(at, cell);
      const sheet = sheets[at.sheet];
      if (!sheet || beyond(at)) continue;
      while (sheet.length <= at.row) sheet.push([]);
      const line = sheet[at.row];
      if (!line) continue;
      while (line.length <= at.col) line.push(null);
      line[at.col] = fed;
    }
    // A large table is taken in, and put in order, without a sign of life in between.
    this.life.running?.(true);
    for (const [i, sheet] of sheets.entries()) this.hyper.hf.setSheetContent(i, sheet);
    this.hyper.hf.resumeEvaluation();
    this.sound = true;
    this.life.running?.(false);
    this.quantities = new Quantities(hostOf(this));
    this.quantities.rebuild();
    this.values = new Map();
    for (const key of this.contents.keys()) {
      const value = this.valueAt(placeOf(key));
      if (value.kind !== 'blank') this.values.set(key, value);
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
    this.names = new Map();
  }

  private nameAll(book: Book): void {
    for (const name of this.names.values()) this.hyper.hf.removeNamedExpression(name);
    const names = new Map<string, string>();
    for (const [name, target] of Object.entries(book.names)) {
      const written = readReference(target);
      const sheet = written?.table === undefined ? undefined : this.grid.sheet(written.table);
      const table = sheet === undefined ? undefined : book.tables[sheet];
      if (!written || !table) continue;
      const absolute = target
        .slice(target.lastIndexOf('!') + 1)
        .replaceAll('$', '')
        .replaceAll(/([A-Za-z]+)(\d+)/g, '$$$1$$$2');
      try {
        this.hyper.hf.addNamedExpression(name, `=${tableText(table.name)}!${absolute}`);
        names.set(name.toUpperCase(), name);
      } catch {
        // A name that the calculator will not have is no name: formulas that use it say so.
      }
    }
    this.names = names;
  }

  /** Notes what a cell holds and gives what the calculator is to hold for it. */
  private take(at: Place, cell: Cell | undefined): Fed {
    this.life.beat?.();
    const key = keyOf(at);
    this.faults.delete(key);
    this.listed.delete(key);
    this.limited.delete(key);
    if (this.contents.get(key)?.kind === 'formula') this.formulas--;
    this.contents.delete(key);
    if (!cell) return null;
    const content = beyond(at) ? BLANK : readContent(cell.content, this.currency);
    this.contents.set(key, content);
    if (content.kind === 'formula') this.formulas++;
    const place = this.grid.inBook(at);
    if (place && content.kind !== 'formula' && rangeOf(place)?.from) this.listed.add(key);
    const limits = place && content.kind === 'formula' && this.grid.book ? resultLimits(this.grid.book, place) : undefined;
    if (place && limits) this.limited.set(key, { place, limits });
    const fault = this.noRoom(at) ?? this.objectionTo(content, at) ?? this.outOfRange(at, cell.content);
    if (fault) this.faults.set(key, fault);
    if (fault || content.kind === 'blank') return `=${STATE}()`;
    if (content.kind === 'number') return content.base;
    if (content.kind === 'yes or no') return content.yes;
    // An apostrophe keeps the calculator from reading a number, a date or a formula into a text.
    return content.kind === 'text' ? `'${content.text}` : content.formula;
  }

  private noRoom(at: Place): Fault | undefined {
    const say = (what: string): Fault => ({ word: TOO_LARGE, message: `${what} What is beyond is kept in the book but not worked out.` });
    const count = (n: number): string => n.toLocaleString('en-GB');
    if (beyond(at)) return say(`A table has at most ${count(BOUNDS.rows)} rows and ${BOUNDS.columns} columns.`);
    if (this.contents.size > BOUNDS.filledCells) return say(`A book has at most ${count(BOUNDS.filledCells)} filled cells.`);
    return this.formulas > BOUNDS.formulas ? say(`A book has at most ${count(BOUNDS.formulas)} formulas.`) : undefined;
  }

  /** Whether a given that names a list of allowed values stands otherwise to it than before. */
  private listNow(at: Place): boolean {
    const before = this.faults.get(keyOf(at));
    return before?.message !== this.outOfRange(at, this.grid.cell(at)?.content ?? '')?.message;
  }

  private objectionTo(content: Content, at: Place): Fault | undefined {
    if (content.kind === 'text') return tooMuchText(content.text);
    return content.kind === 'formula' ? this.objection(content.formula, at) : undefined;
  }

  /** Why a canonical formula can't stand in a cell. */
  objection(formula: string, at: Place): Fault | undefined {
    const names = {
      has: (name: string) => name === 'TRUE' || name === 'FALSE' || this.names.has(name.toUpperCase()),
      all: () => this.names.values(),
      went: (name: string) => this.grid.book && wentSaid(this.grid.book, name),
      tables: () => this.grid.tables.map((table) => table.name),
      table: (sheet: number) => this.grid.size(sheet),
    };
    return objection(this.hyper, formula, at, names) ?? (at.sheet === this.scratch.sheet ? this.lacksTable(formula, at) : undefined);
  }

  /** A formula that lies in no table has no cells beside it: its references must name their table. */
  private lacksTable(formula: string, at: Place): Fault | undefined {
    for (const part of everyPart(this.hyper.parse(formula, at).ast)) {
      const span = this.span(part, at);
      if (!span || span.start.sheet !== at.sheet) continue;
      const cell = cellText(span.start.col, span.start.row);
      const table = this.grid.tables[0];
      const example = table ? `, such as ${tableText(table.name)}!${cell}` : '; no book is open here';
      return { word: 'no such cell', message: `${cell} needs the name of its table before it${example}.` };
    }
    return undefined;
  }

  private unanswered(at: Place): Fault {
    const [said, address] = [this.grid.heading(at), this.grid.address(at)];
    const place = this.grid.inBook(at);
    // In a list the row is called by what stands first in it: "Rail 45, Price".
    const heading = said === address && place?.table.form === 'list' ? titleOf(place) : said;
    return { word: NOT_ANSWERED, message: `${heading === address ? address : `${heading} (${address})`} is not answered yet.` };
  }

  content(at: Place): Content {
    return this.contents.get(keyOf(at)) ?? BLANK;
  }

  /** The unit that the cell, its row or its column names. */
  unitSaid(at: Place, cell = this.grid.cell(at)): string | undefined {
    return cell?.unit ?? this.grid.row(at)?.unit ?? this.grid.column(at)?.unit;
  }

  /** How a number in this cell is shown. */
  shownUnit(at: Place): string {
    if (at.sheet !== this.scratch.sheet) return this.quantities.shownUnitOf(at);
    return this.defaultUnitOf(this.quantities.kindOf(at), this.formulaIn(at));
  }

  /** The unit of a formula that stands in no cell: what its function declares, else the one default of its kind. */
  private defaultUnitOf(kind: Kind, ast: Ast | undefined): string {
    if (kind.is !== 'number') return '';
    const declared = ast && declaredUnit(ast);
    return declared ? withCurrency(declared, this.currency) : defaultUnit(kind.dimension, kind.reading, this.currency);
  }

  valueAt(at: Place): Value {
    this.life.beat?.();
    if (beyond(at)) {
      const fault = this.faults.get(keyOf(at));
      return fault ? { kind: 'error', ...fault } : { kind: 'blank' };
    }
    const value = this.value(this.hyper.hf.getCellValue(at), this.quantities.kindOf(at), at, () => this.shownUnit(at));
    return (this.limited.has(keyOf(at)) && this.resultOutOfRange(at, value)) || value;
  }

  /** The same in the shown unit, once kinds are known: a number of another kind than its limits is not allowed either. */
  resultOutOfRange(at: Place, value: Value): Value | undefined {
    if (value.kind !== 'number') return undefined;
    const [book, place] = [this.grid.book, this.grid.inBook(at)];
    const limits = book && place && resultLimits(book, place);
    const message = limits && resultNotAllowed(place, limits, value.base, value.unit);
    return message === undefined ? undefined : { kind: 'error', word: OUT_OF_RANGE, message };
  }

  /** What the calculator gives, with its unit, or with our words for what is wrong. */
  private value(raw: CellValue, kind: Kind, at: Place, unit: () => string): Value {
    // A mistake of quantities takes the place of whatever was worked out, everywhere; but a circle has no quantity to be wrong in.
    if (kind.is === 'fail' && !(raw instanceof DetailedCellError && raw.type === 'CYCLE')) return unitError(kind, at, this);
    if (typeof raw === 'number') return { kind: 'number', base: raw, unit: unit() };
    if (typeof raw === 'string') return { kind: 'text', text: raw };
    if (typeof raw === 'boolean') return { kind: 'yes or no', yes: raw };
    if (raw instanceof DetailedCellError) return explained(raw, at, this);
    return { kind: 'blank' };
  }

  /** The value of a committed formula that stands in no cell; `at`: as if it stood there. */
  once(formula: string, kind: Kind, at: Place = this.scratch): Value {
    return this.value(this.hyper.once(formula, at), kind, at, () => this.unitSaid(at) ?? this.defaultUnitOf(kind, this.hyper.parse(formula, at).ast));
  }

  /** Feeds changes that the book already holds; gives the values that differ from before. */
  apply(changes: readonly Change[], book: Book): Values {
    const edits = changes.flatMap((change) => change.edits);
    const local = this.grid.book !== undefined && edits.every((edit) => isLocal(edit, this.currency));
    try {
      return local ? this.feed(edits, book) : this.rebuild(book);
    } catch {
      // The calculator may have stopped half-way: a new one is built from the book, which is whole.
      this.sound = false;
      return this.rebuild(book);
    }
  }

  private rebuild(book: Book): Values {
    const before = new Map([...this.values].map(([key, value]) => [this.grid.address(placeOf(key)), value]));
    this.build(book);
    const differ: Record<Address, Value> = {};
    for (const [key, value] of this.values) {
      const address = this.grid.address(placeOf(key));
      if (!same(before.get(address), value)) differ[address] = value;
      before.delete(address);
    }
    for (const address of before.keys()) differ[address] = { kind: 'blank' };
    return differ;
  }

  private feed(edits: readonly Edit[], book: Book): Values {
    this.grid.update(book);
    const touched = new Map<number, Place>();
    for (const edit of edits) for (const at of this.touchedBy(edit)) touched.set(keyOf(at), at);
    for (const key of this.listed) if (this.listNow(placeOf(key))) touched.set(key, placeOf(key));
    const changed = this.hyper.hf.batch(() => {
      for (const at of touched.values()) {
        const cell = this.grid.cell(at);
        if (!cell && !this.contents.has(keyOf(at))) continue;
        const fed = this.take(at, cell);
        if (!beyond(at)) this.hyper.hf.setCellContents(at, fed);
      }
    });
    const edited = new Map(touched);
    for (const change of changed) {
      if ('address' in change) touched.set(keyOf(change.address), change.address);
    }
    for (const at of this.quantities.changed([...edited.values()])) touched.set(keyOf(at), at);
    const differ: Record<Address, Value> = {};
    for (const [key, at] of touched) this.compare(key, at, differ);
    return differ;
  }

  private compare(key: number, at: Place, differ: Record<Address, Value>): void {
    const value = this.valueAt(at);
    if (same(this.values.get(key) ?? { kind: 'blank' }, value)) return;
    if (value.kind === 'blank') this.values.delete(key);
    else this.values.set(key, value);
    differ[this.grid.address(at)] = value;
  }

  /** The cells that an edit touches by itself. */
  private touchedBy(edit: Edit): readonly Place[] {
    if (edit.at === 'cell') {
      const at = this.grid.place(edit.table, edit.row, edit.column);
      return at ? [at, ...this.wantedBeside(at, edit)] : [];
    }
    if ((edit.at !== 'row' && edit.at !== 'column') || !matters(edit.before, edit.after)) return [];
    const sheet = this.grid.tables.findIndex((table) => table.id === edit.table);
    const table = this.grid.tables[sheet];
    const length = (edit.at === 'row' ? table?.columns.length : table?.rows.length) ?? 0;
    // Blank cells too: what is blank still has the unit of its row.
    return Array.from({ length }, (_, i) => (edit.at === 'row' ? { sheet, row: edit.index, col: i } : { sheet, row: i, col: edit.index }));
  }

  /** A row of a list that begins to be filled, or is emptied, wants its needed cells or no longer does. */
  private wantedBeside(at: Place, { before, after }: Edit & { at: 'cell' }): readonly Place[] {
    const table = this.grid.tables[at.sheet];
    if (at.col !== 0 || table?.form !== 'list' || ((before?.content ?? '') === '') === ((after?.content ?? '') === '')) return [];
    return table.columns.flatMap((column, col) => (column.needed ? [{ ...at, col }] : []));
  }

  /** The cells that a reference, a range or a name in a formula stands for. */
  span(ast: Ast, from: Place): Span | undefined {
    if (ast.type === 'CELL_REFERENCE') {
      const at = ast.reference.toSimpleCellAddress(from);
      return { start: at, end: at };
    }
    if (ast.type === 'CELL_RANGE') return { start: ast.start.toSimpleCellAddress(from), end: ast.end.toSimpleCellAddress(from) };
    return ast.type === 'NAMED_EXPRESSION' ? this.named(ast.expressionName) : undefined;
  }

  /** The cells that a name stands for. */
  named(asWritten: string): Span | undefined {
    const name = this.names.get(asWritten.toUpperCase());
    const written = name === undefined ? undefined : readReference(this.grid.book?.names[name] ?? '');
    const sheet = written?.table === undefined ? undefined : this.grid.sheet(written.table);
    return written && sheet !== undefined ? { start: { sheet, ...written.start }, end: { sheet, ...written.end } } : undefined;
  }

  /** The tree of the formula in a cell; undefined where there is none, or it was refused. */
  formulaIn(at: Place): Ast | undefined {
    const key = keyOf(at);
    return this.contents.get(key)?.kind === 'formula' && !this.faults.has(key) ? this.hyper.ast(at) : undefined;
  }

  *formulasAll(): Generator<Place> {
    for (const [key, content] of this.contents) if (content.kind === 'formula') yield placeOf(key);
  }

  /** The cells of a range with what the calculator holds for them; blanks are left out. */
  *valuesIn(span: {
    readonly start: Place;
    readonly end: Place;
  }): Generator<{ readonly at: Place; readonly value: number | string | boolean | DetailedCellError }> {
    for (let row = span.start.row; row <= span.end.row; row++) {
      for (let col = span.start.col; col <= span.end.col; col++) {
        const at = { sheet: span.start.sheet, row, col };
        const value = this.hyper.hf.getCellValue(at);
        if (value !== null) yield { at, value };
      }
    }
  }

  /** The place that an address names. */
  at(address: Address): Place {
    const at = this.grid.find(address);
    if (!at) throw new RangeError(`There is no cell ${address} in this book.`);
    return at;
  }

  /** Whether a stored content may stand in a given: a sentence where it may not. */
  outOfRange(at: Place, content: string): Fault | undefined {
    const [book, place] = [this.grid.book, this.grid.inBook(at)];
    const message = book && place && notAllowed(book, place, content);
    return message === undefined ? undefined : { word: OUT_OF_RANGE, message };
  }

  /** Works out a formula that lies in no table, and forgets it again after `use`. */
  withFormula<T>(formula: string, use: (at: Place) => T): T {
    const at = this.scratch;
    const cell: Cell = { content: formula };
    try {
      this.hyper.hf.setCellContents(at, this.take(at, cell));
      this.quantities.changed([at]);
      return use(at);
    } finally {
      this.hyper.hf.setCellContents(at, this.take(at, undefined));
      this.quantities.changed([at]);
    }
  }
}

const needed = (line: Row | Column | null): boolean => line !== null && 'needed' in line && line.needed === true;

/** Whether a row or column says something else of its cells than before: their unit, their kind, their heading, what they may hold. */
function matters(before: Row | Column | null, after: Row | Column | null): boolean {
  if (before?.kind !== after?.kind || needed(before) !== needed(after)) return true;
  return before?.unit !== after?.unit || before?.label !== after?.label || JSON.stringify(before?.range) !== JSON.stringify(after?.range);
}

/** The unit that the outermost function of a formula declares, if it declares one. */
function declaredUnit(ast: Ast): string | undefined {
  if (ast.type === 'PARENTHESES') return declaredUnit(ast.expression);
  if (ast.type === 'MINUS_UNARY_OP' || ast.type === 'PLUS_UNARY_OP') return declaredUnit(ast.value);
  const unit = ast.type === 'FUNCTION_CALL' ? recordOf(ast.procedureName)?.returns.unit : undefined;
  return unit === '1' || unit === 'any' || unit === 'text' || unit === 'yes or no' ? undefined : unit;
}

/** Edits that leave every row, column, table and name where it was. */
function isLocal(edit: Edit, currency: string): boolean {
  if (edit.at === 'cell' || edit.at === 'page' || edit.at === 'block') return true;
  if (edit.at === 'row' || edit.at === 'column') return edit.before !== null && edit.after !== null && edit.before.id === edit.after.id;
  // What a verdict says of a later edition is said anew.
  return edit.at === 'book' && edit.before.template === edit.after.template && (edit.after.currency === undefined || edit.after.currency === currency);
}
