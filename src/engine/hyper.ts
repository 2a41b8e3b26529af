/**
 * The calculator: one HyperFormula instance, set up as this project needs it, and the few of its private parts that
 * are used. Nothing else in the project reaches past this file, but hyper-fill.ts, by which it takes in a whole book.
 *
 * Why private parts: the tree of a formula is needed for its units and its working, and parsing its text again costs
 * 4 µs a formula where the tree is already there.
 */
import { CellError, type CellValue, DetailedCellError, EmptyValue, ErrorType, HyperFormula, SimpleRangeValue } from 'hyperformula';
import { CORNER, END, PLAIN, QUOTED, referenceText } from '../book/address.ts';
import { ownFormula } from '../book/other-writing.ts';
import type { Position } from './addresses.ts';
import { type Fault, pack, TOO_LARGE } from './errors.ts';
import { FORMULA_BOUNDS } from './formula-bounds.ts';
import { type Fed, fillEmpty } from './hyper-fill.ts';
import { Shapes } from './shapes.ts';

/** A reference in a tree: where it points, seen from the cell that holds the formula. */
export interface Reference {
  toSimpleCellAddress(from: Position): Position;
}

/** The tree of a formula. Shared between cells of like formulas: never written to. */
export type Ast =
  | { readonly type: 'EMPTY' }
  | { readonly type: 'NUMBER'; readonly value: number }
  | { readonly type: 'STRING'; readonly value: string }
  | { readonly type: 'MINUS_UNARY_OP' | 'PLUS_UNARY_OP' | 'PERCENT_OP'; readonly value: Ast }
  | { readonly type: BinaryType; readonly left: Ast; readonly right: Ast }
  | { readonly type: 'FUNCTION_CALL'; readonly procedureName: string; readonly args: readonly Ast[] }
  | { readonly type: 'NAMED_EXPRESSION'; readonly expressionName: string }
  | { readonly type: 'PARENTHESES'; readonly expression: Ast }
  | { readonly type: 'CELL_REFERENCE'; readonly reference: Reference }
  | { readonly type: 'CELL_RANGE'; readonly start: Reference; readonly end: Reference }
  | { readonly type: 'COLUMN_RANGE' | 'ROW_RANGE' }
  | { readonly type: 'ERROR' | 'ERROR_WITH_RAW_INPUT'; readonly rawInput?: string; readonly error?: CellError }
  | { readonly type: 'ARRAY'; readonly args: readonly (readonly Ast[])[] };

export type BinaryType =
  | 'CONCATENATE_OP'
  | 'EQUALS_OP'
  | 'NOT_EQUAL_OP'
  | 'GREATER_THAN_OP'
  | 'LESS_THAN_OP'
  | 'GREATER_THAN_OR_EQUAL_OP'
  | 'LESS_THAN_OR_EQUAL_OP'
  | 'PLUS_OP'
  | 'MINUS_OP'
  | 'TIMES_OP'
  | 'DIV_OP'
  | 'POWER_OP';

/** A value inside the calculator, made plain: numbers without their formats, blanks as null. */
export type Raw = number | string | boolean | null | CellError | SimpleRangeValue;

export interface Token {
  readonly image: string;
  /** From 0, in the formula without its equals sign. */
  readonly startOffset: number;
  readonly tokenType: { readonly name: string };
}

export interface Parsed {
  readonly ast: Ast;
  readonly errors: readonly { readonly type: string; readonly message: string }[];
  readonly dependencies: unknown;
}

/** A range of cells as the calculator keeps it, with what it remembers of sums and counts over it. */
export interface Kept {
  readonly start: Position;
  readonly end: Position;
  clearCache(): void;
}

/** A value as the calculator has it inside: a number may carry a format, a blank is a sign of its own. Looked into by `plain` alone. */
export type Inner = unknown;

/** What the calculator is to find in cells while one formula is worked out, in place of what they hold. */
interface InPlace {
  /** Undefined where a cell holds what it holds. */
  readonly held: (at: Position) => Inner | undefined;
  /** Ranges that hold such cells: of what is remembered of them nothing is good before, nor after. */
  readonly ranges: readonly Kept[];
}

/** What is used of HyperFormula beyond its typings. */
interface Insides {
  readonly _parser: { parse(text: string, at: Position): Parsed; tokenizeFormula(text: string): { readonly tokens: readonly Token[] } };
  readonly _exporter: { exportValue(value: unknown): CellValue; cellValueRounding(x: number): number };
  readonly _unparser: { unparse(ast: Ast, at: Position): string };
  readonly _crudOperations: { readonly operations: { readonly changes: object } };
  readonly _lazilyTransformingAstService: unknown;
  readonly _dependencyGraph: {
    getCell(at: Position): { getFormula?(service: unknown): Ast | string } | undefined;
    readonly addressMapping: { getCellValue(at: Position): unknown };
    readonly rangeMapping: { rangesInSheet(sheet: number): Iterable<Kept> };
  };
  readonly _namedExpressions: { nearestNamedExpression(name: string, sheet: number): { readonly address: Position } | undefined };
  readonly _evaluator: {
    /** Every formula goes through here when it is worked out. */
    evaluateAstToCellValue(ast: Ast, state: { readonly formulaAddress: Position; readonly formulaVertex?: unknown }): unknown;
    runAndForget(ast: Ast, at: Position, dependencies: unknown): unknown;
    readonly interpreter: {
      evaluateAst(ast: Ast, state: unknown): unknown;
      readonly arithmeticHelper: { readonly actualEps: number };
      readonly arraySizePredictor: { checkArraySize(ast: Ast, at: Position): { readonly width: number; readonly height: number } };
    };
  };
}

/** A number with a format (percent, date, money) is an object inside the calculator; the plain number is what counts here. */
export function plain(value: unknown): Raw {
  if (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') return value;
  if (value instanceof CellError || value instanceof SimpleRangeValue) return value;
  if (typeof value === 'object' && value !== null && 'val' in value && typeof value.val === 'number') return value.val;
  return null;
}

/** A text, or what says a table before a cell, or before whole rows and columns, which are refused by their trees. */
const TABLES = new RegExp(
  `"[^"]*"|(?:${QUOTED}|(?<![A-Za-z0-9_.$\\u00C0-\\u02AF])${PLAIN})\\.(?=${CORNER}${END}|\\$?[A-Za-z]{1,3}:\\$?[A-Za-z]|\\$?\\d+:\\$?\\d)`,
  'gu',
);

/** Whether there may be any: most formulas have none, and functions have points in their names. */
const MAY_BE = /\.\$?(?:[A-Za-z]{1,3}[$:1-9]|\d+:)/;

/** A formula as the calculator reads it. It has a ! where the book has a point, so that no part of it stands elsewhere. */
const forCalculator = (formula: string): string =>
  MAY_BE.test(formula) ? formula.replaceAll(TABLES, (found) => (found.startsWith('"') ? found : `${found.slice(0, -1)}!`)) : formula;

/** What the calculator wrote, in our writing. */
const fromCalculator = (formula: string): string => (formula.includes('!') ? ownFormula(formula) : formula);

const NO_DATES = (): undefined => undefined;

/** Two binary ways of the same decimal differ in the last of 15 digits or so: 14 are kept. */
const DIGITS = 14;

export class Hyper {
  readonly hf: HyperFormula;
  private readonly insides: Insides;
  private readonly shapes = new Shapes<Parsed>();
  /** Nothing was put into any table yet. */
  private empty = true;
  private readonly judge: ((number: number, at: Position) => Fault | undefined) | undefined;
  private inPlace: InPlace['held'] | undefined;

  /**
   * `context` is what our functions find as theirs (see register.ts); `beforeEach` is told of every formula about to be worked out;
   * `judge` says why the number that one gave can't stand in its cell.
   */
  constructor(tables: readonly string[], context: unknown, beforeEach?: () => void, judge?: (number: number, at: Position) => Fault | undefined) {
    this.hf = HyperFormula.buildEmpty({
      licenseKey: 'gpl-v3',
      undoLimit: 0,
      smartRounding: true,
      precisionRounding: DIGITS,
      useArrayArithmetic: true,
      useWildcards: false,
      useRegularExpressions: false,
      maxRows: 20_000,
      maxColumns: 100,
      // Texts are never read as dates or money: what a person types is parsed before it comes here.
      dateFormats: [],
      timeFormats: [],
      parseDateTime: NO_DATES,
      context,
    });
    for (const [i, table] of tables.entries()) {
      // A second table of one name can't be spoken of in formulas; its own cells still work.
      this.hf.addSheet(this.hf.isItPossibleToAddSheet(table) ? table : `(table ${i + 1})`);
    }
    this.hf.addNamedExpression('TRUE', '=TRUE()');
    this.hf.addNamedExpression('FALSE', '=FALSE()');
    this.insides = this.hf as unknown as Insides;
    // The calculator's own reading of formulas goes by shape too.
    const parser = this.insides._parser;
    const parse = parser.parse.bind(parser);
    parser.parse = (text, at) => this.shapes.read(text, at, () => parse(text, at));
    this.judge = judge;
    this.guardEachFormula(beforeEach);
    // The calculator's rounding to 14 places overflows for the smallest and the largest of numbers and gives none.
    const exporter = this.insides._exporter;
    const rounded = exporter.cellValueRounding.bind(exporter);
    exporter.cellValueRounding = (x) => {
      const near = rounded(x);
      return Number.isFinite(near) ? near : x;
    };
  }

  /**
   * What one formula throws stays in its cell. Without this it would escape from the middle of a recalculation and
   * leave the cells after it stale.
   */
  private guardEachFormula(beforeEach: (() => void) | undefined): void {
    const evaluator = this.insides._evaluator;
    const evaluate = evaluator.evaluateAstToCellValue.bind(evaluator);
    evaluator.evaluateAstToCellValue = (ast, state) => {
      beforeEach?.();
      try {
        return this.allowed(evaluate(ast, state), state.formulaAddress, state.formulaVertex);
      } catch (error) {
        return this.thrown(error);
      }
    };
  }

  /** What a formula gave, or why that can't stand in its cell. */
  allowed(value: Inner, at: Position, cell: unknown): Inner {
    const number = this.judge && plain(value);
    const fault = typeof number === 'number' ? this.judge?.(number, at) : undefined;
    if (fault) {
      const error = new CellError(ErrorType.VALUE, pack(fault));
      // With the cell where it began, as the calculator's own errors have.
      return cell === undefined ? error : error.attachRootVertex(cell as never);
    }
    if (typeof value !== 'string' || value.length <= FORMULA_BOUNDS.text) return value;
    return new CellError(ErrorType.VALUE, pack({ word: TOO_LARGE, message: `This gives a text of more than ${FORMULA_BOUNDS.text} characters.` }));
  }

  /** What stands in the cell of a formula that throws. */
  thrown(error: unknown): Inner {
    const why = error instanceof Error ? error.message : String(error);
    return new CellError(ErrorType.VALUE, pack({ word: 'error', message: `This can not be worked out: ${why}.` }));
  }

  /**
   * Takes in all tables, of which nothing was worked out yet, and works them out. The calculator's list of what has changed is not kept: it has a
   * text for every cell, and here all of them have.
   */
  takeAll(tables: readonly (readonly (readonly Fed[])[])[]): void {
    const list = Object.getPrototypeOf(this.insides._crudOperations.operations.changes) as { add(at: Position, change: unknown): void };
    const { add } = list;
    list.add = () => {};
    try {
      if (this.empty)
        fillEmpty(
          this.hf,
          tables.map((table) => table.map((row) => row.map(fed))),
        );
      else for (const [i, table] of tables.entries()) this.fill(i, table);
      this.empty = false;
      this.hf.resumeEvaluation();
    } finally {
      list.add = add;
    }
  }

  parse(formula: string, at: Position): Parsed {
    return this.insides._parser.parse(forCalculator(formula), at);
  }

  /** What was read of a formula of the same shape; undefined where none was. The same object for all of a shape. */
  known(formula: string, at: Position): Parsed | undefined {
    return this.shapes.known(forCalculator(formula), at);
  }

  /** Puts contents into cells of a table, row by row from its first. */
  fill(sheet: number, rows: readonly (readonly Fed[])[]): void {
    this.hf.setSheetContent(
      sheet,
      rows.map((row) => row.map(fed)),
    );
  }

  put(at: Position, content: Fed): ReturnType<HyperFormula['setCellContents']> {
    this.empty = false;
    return this.hf.setCellContents(at, fed(content));
  }

  /** Lets a name stand for cells of a table. Throws where the calculator will not have it. */
  name(name: string, table: string, { start, end }: { readonly start: Omit<Position, 'sheet'>; readonly end: Omit<Position, 'sheet'> }): void {
    const corner = ({ col, row }: Omit<Position, 'sheet'>) => ({ column: col, row, columnFixed: true, rowFixed: true });
    const range = start.col !== end.col || start.row !== end.row;
    this.hf.addNamedExpression(name, forCalculator(`=${referenceText({ table, from: corner(start), to: corner(end), range })}`));
  }

  /** Works out a formula that stands in no cell, as if it stood in `at`. */
  once(formula: string, at: Position): CellValue {
    const { ast, dependencies } = this.parse(formula, at);
    return this.insides._exporter.exportValue(this.insides._evaluator.runAndForget(ast, at, dependencies));
  }

  /** The words of a formula, without its equals sign. */
  tokens(formula: string): readonly Token[] {
    return this.insides._parser.tokenizeFormula(forCalculator(formula).slice(1)).tokens;
  }

  /** The tree of the formula in a cell, or undefined where there is none. */
  ast(at: Position): Ast | undefined {
    const found = this.insides._dependencyGraph.getCell(at)?.getFormula?.(this.insides._lazilyTransformingAstService);
    return typeof found === 'object' ? found : undefined;
  }

  /** A tree as text, with its equals sign, seen from a cell. */
  text(ast: Ast, at: Position): string {
    return fromCalculator(this.insides._unparser.unparse(ast, at));
  }

  /** Works out a part of a formula that stands in `at`, whose cells are already worked out. */
  value(ast: Ast, at: Position): Raw {
    return plain(this.insides._evaluator.interpreter.evaluateAst(ast, { formulaAddress: at, arraysFlag: true, formulaVertex: undefined }));
  }

  /** The cell as the calculator knows it: where an error that begins in its formula says that it began. */
  vertex(at: Position): unknown {
    return this.insides._dependencyGraph.getCell(at);
  }

  /** What the calculator holds of a cell, to its last digit. */
  inner(at: Position): Inner {
    return this.insides._dependencyGraph.addressMapping.getCellValue(at);
  }

  /** Whether a cell lies on a circle, and does not only read from one. */
  onCircle(at: Position): boolean {
    const value = this.inner(at);
    return value instanceof CellError && value.type === ErrorType.CYCLE && (value.root as unknown) === this.vertex(at);
  }

  /** Works out a part of a formula as it is worked out in its cell, with the values in place that are said. */
  innerOf(ast: Ast, at: Position, cell: unknown, inPlace?: InPlace): Inner {
    const state = { formulaAddress: at, arraysFlag: true, formulaVertex: cell };
    const { interpreter } = this.insides._evaluator;
    if (!inPlace) return interpreter.evaluateAst(ast, state);
    this.readInPlace();
    for (const range of inPlace.ranges) range.clearCache();
    this.inPlace = inPlace.held;
    try {
      const value = interpreter.evaluateAst(ast, state);
      // A range reads its cells when it is asked for them, and later they hold what they hold.
      if (value instanceof SimpleRangeValue) value.rawData();
      return value;
    } finally {
      this.inPlace = undefined;
      for (const range of inPlace.ranges) range.clearCache();
    }
  }

  /** From here on the calculator looks whether something else is to be found in a cell than it holds. */
  private readInPlace(): void {
    const mapping = this.insides._dependencyGraph.addressMapping;
    if (Object.hasOwn(mapping, 'getCellValue')) return;
    const own = mapping.getCellValue.bind(mapping);
    mapping.getCellValue = (at) => this.inPlace?.(at) ?? own(at);
  }

  /** The ranges of a table that the calculator keeps. */
  ranges(sheet: number): Iterable<Kept> {
    return this.insides._dependencyGraph.rangeMapping.rangesInSheet(sheet);
  }

  /** Where the calculator keeps what a name stands for. */
  nameCell(name: string, sheet: number): Position | undefined {
    return this.insides._namedExpressions.nearestNamedExpression(name, sheet)?.address;
  }

  /** As a value that is read from a cell: rounded, and an error with the cell where it began. */
  outside(value: Inner): CellValue {
    return this.insides._exporter.exportValue(value);
  }

  /** What is left of a difference that is less than this share of what was subtracted from is nothing. */
  get epsilon(): number {
    return this.insides._evaluator.interpreter.arithmeticHelper.actualEps;
  }

  /** More than one cell's worth of result. */
  spills(ast: Ast, at: Position): boolean {
    const size = this.insides._evaluator.interpreter.arraySizePredictor.checkArraySize(ast, at);
    return size.width > 1 || size.height > 1;
  }

  dispose(): void {
    this.hf.destroy();
  }
}

const fed = (content: Fed): Fed => (typeof content === 'string' && content.startsWith('=') ? forCalculator(content) : content);

/** What the calculator says of a formula or an address, in our writing. */
export const said = (written: string): string => fromCalculator(written);

/** An error that says a fault of ours, and where it began. */
export function faultAt(fault: Fault, at: Position): Inner {
  const began = { getAddress: () => at };
  return new CellError(ErrorType.VALUE, pack(fault)).attachRootVertex(began as never);
}

/** A blank cell, as the calculator has it inside. */
export const BLANK: Inner = EmptyValue;

export { CellError, type CellValue, DetailedCellError, ErrorType, SimpleRangeValue };
