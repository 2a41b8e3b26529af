/**
 * One formula as a closure: what does not vary in it is worked out once, what varies is read from `values`.
 *
 * Three ways, the fastest that gives the same: operators and some functions of the standard on plain numbers and texts (operators.ts, standard.ts);
 * functions of ours by their own `work` (ours.ts); and for all else the calculator itself on the same tree, which finds the varying cells in place.
 * A closure that meets what it does not know, such as a number with a format, an error or a range, asks the calculator too, so nothing is written twice.
 */
import { keyOf, type Position, type Span } from '../addresses.ts';
import { type Ast, type Hyper, type Inner, type Kept, SimpleRangeValue } from '../hyper.ts';
import { children } from '../objections.ts';
import { type Context, recordOf } from '../register.ts';
import type { Workbook } from '../workbook.ts';
import { operator } from './operators.ts';
import { ourCall } from './ours.ts';
import { type Around, type Part, workOf, written } from './part.ts';
import { standardCall } from './standard.ts';

/** What reads only the place of a cell, and never what stands there. */
const OF_PLACES: ReadonlySet<string> = new Set(['ROW', 'ROWS', 'COLUMN', 'COLUMNS']);
/** What makes one value of any number of cells. */
const OF_ALL: ReadonlySet<string> = new Set(['SUM', 'MIN', 'MAX', 'AVERAGE', 'COUNT', 'COUNTA', 'COUNTBLANK', 'PRODUCT', 'SUMPRODUCT', 'SUMSQ', 'AND', 'OR']);
/** Where functions of single values take a range. */
const OF_RANGES: Readonly<Record<string, readonly number[]>> = {
  MATCH: [1],
  INDEX: [0],
  VLOOKUP: [1],
  HLOOKUP: [1],
  LOOKUP: [1, 2],
  SUMIF: [0, 2],
  COUNTIF: [0],
  AVERAGEIF: [0, 2],
};
const isPlace = (ast: Ast): boolean => ast.type === 'CELL_REFERENCE' || ast.type === 'CELL_RANGE';

export class Compiler {
  readonly workbook: Workbook;
  readonly hyper: Hyper;
  /** Where the value of a varying cell stands in `values`, by the key of its position. */
  readonly slots: ReadonlyMap<number, number>;
  readonly values: readonly Inner[];
  private readonly positions: readonly Position[];
  private readonly overlaps = new Map<string, boolean>();

  constructor(workbook: Workbook, positions: readonly Position[], values: readonly Inner[]) {
    this.workbook = workbook;
    this.hyper = workbook.hyper;
    this.positions = positions;
    this.slots = new Map(positions.map((at, i) => [keyOf(at), i]));
    this.values = values;
  }

  /** What works out the formula in a cell, as it stands there. */
  formula(at: Position): () => Inner {
    const ast = this.hyper.ast(at);
    if (!ast) throw new Error(`there is no formula in ${this.workbook.sheets.address(at)}`);
    return workOf(new Formula(this, at).part(ast));
  }

  slotOf(at: Position): number | undefined {
    return this.slots.get(keyOf(at));
  }

  /** Whether one of these cells varies. */
  reaches({ start, end }: Span): boolean {
    if (start.row === end.row && start.col === end.col) return this.slots.has(keyOf(start));
    const key = `${keyOf(start)} ${keyOf(end)}`;
    const known = this.overlaps.get(key);
    if (known !== undefined) return known;
    const found = this.positions.some((at) => holds({ start, end }, at));
    this.overlaps.set(key, found);
    return found;
  }

  /** What stands in a cell while the calculator works for us; undefined where nothing of it varies. */
  readonly held = (at: Position): Inner | undefined => {
    if (at.sheet < 0) return this.named(at);
    const slot = this.slots.get(keyOf(at));
    return slot === undefined ? undefined : this.values[slot];
  };

  /** A name is a formula of its own. Worked out anew it reads what is held; what was kept of it does not. */
  private named(at: Position): Inner | undefined {
    const ast = this.hyper.ast(at);
    return ast && (ast.type === 'CELL_REFERENCE' || ast.type === 'CELL_RANGE') ? this.hyper.innerOf(ast, at, undefined) : undefined;
  }

  /** The ranges in which the calculator keeps sums over cells of these spans. */
  kept(spans: readonly Span[]): readonly Kept[] {
    const sheets = new Set(spans.map(({ start }) => start.sheet));
    return [...sheets].flatMap((sheet) =>
      [...this.hyper.ranges(sheet)].filter((range) => spans.some((span) => holds(span, range.start) && holds(span, range.end)) && this.reaches(range)),
    );
  }
}

const holds = ({ start, end }: Span, at: Position): boolean =>
  at.sheet === start.sheet && at.row >= start.row && at.row <= end.row && at.col >= start.col && at.col <= end.col;

/** The formula of one cell. */
class Formula implements Around {
  private readonly compiler: Compiler;
  private readonly at: Position;
  /** Where its errors begin. */
  private readonly cell: unknown;

  constructor(compiler: Compiler, at: Position) {
    this.compiler = compiler;
    this.at = at;
    this.cell = compiler.hyper.vertex(at);
  }

  get context(): Context {
    return this.compiler.workbook.context;
  }

  get epsilon(): number {
    return this.compiler.hyper.epsilon;
  }

  cellAt(at: Position): Inner {
    return this.compiler.held(at) ?? this.compiler.hyper.inner(at);
  }

  part(ast: Ast): Part {
    if (!this.varies(ast)) return this.folded(ast);
    switch (ast.type) {
      case 'PARENTHESES':
        return this.part(ast.expression);
      case 'CELL_REFERENCE':
      case 'CELL_RANGE':
      case 'NAMED_EXPRESSION':
        return this.cells(ast);
      case 'FUNCTION_CALL': {
        const record = recordOf(ast.procedureName);
        return (record ? ourCall(this, record, ast) : standardCall(this, ast)) ?? this.byCalculator(ast);
      }
      default:
        return operator(this, ast) ?? this.byCalculator(ast);
    }
  }

  /** Whether anything that varies is read in a part. */
  private varies(ast: Ast): boolean {
    const span = this.span(ast);
    if (span) return this.compiler.reaches(span);
    if (ast.type === 'FUNCTION_CALL' && OF_PLACES.has(ast.procedureName) && ast.args.every(isPlace)) return false;
    return children(ast).some((child) => this.varies(child));
  }

  span(ast: Ast): Span | undefined {
    return this.compiler.workbook.span(ast, this.at);
  }

  /** What throws throws each time that it is worked out: another branch may be taken. */
  private folded(ast: Ast): Part {
    try {
      const value = this.compiler.hyper.innerOf(ast, this.at, this.cell);
      if (value instanceof SimpleRangeValue) value.rawData();
      return { is: 'constant', value };
    } catch {
      return { is: 'work', work: () => this.compiler.hyper.innerOf(ast, this.at, this.cell), single: true };
    }
  }

  /** A cell or cells of which some vary. */
  private cells(ast: Ast): Part {
    const span = this.span(ast);
    if (!span) return this.byCalculator(ast);
    const { start, end } = span;
    const { values } = this.compiler;
    const slot = this.compiler.slotOf(start);
    if (start.row === end.row && start.col === end.col)
      return slot === undefined ? this.byCalculator(ast) : { is: 'work', work: () => values[slot], single: true };
    if (start.row > end.row || start.col > end.col) return this.byCalculator(ast);
    const rows = this.cellsOf(span);
    return { is: 'work', work: () => SimpleRangeValue.onlyValues(rows() as never), single: false };
  }

  /** The cells of a range row by row, with what varies in them; each time new. */
  cellsOf({ start, end }: Span): () => Inner[][] {
    const { values, hyper } = this.compiler;
    const still: Inner[][] = [];
    const moving: { readonly row: number; readonly col: number; readonly slot: number }[] = [];
    for (let row = start.row; row <= end.row; row++) {
      const line: Inner[] = [];
      for (let col = start.col; col <= end.col; col++) {
        const at = { sheet: start.sheet, row, col };
        const slot = this.compiler.slotOf(at);
        if (slot !== undefined) moving.push({ row: row - start.row, col: col - start.col, slot });
        line.push(slot === undefined ? hyper.inner(at) : undefined);
      }
      still.push(line);
    }
    return () => {
      const rows = still.map((line) => line.slice());
      for (const { row, col, slot } of moving) (rows[row] as Inner[])[col] = values[slot];
      return rows;
    };
  }

  /** The calculator's own way with a part, the varying cells in place. */
  byCalculator(ast: Ast): Extract<Part, { is: 'work' }> {
    const { compiler, at, cell } = this;
    let ranges: readonly Kept[] | undefined;
    const work = (): Inner => {
      ranges ??= compiler.kept(this.spansIn(ast));
      return compiler.hyper.innerOf(ast, at, cell, { held: compiler.held, ranges });
    };
    return { is: 'work', work, single: this.single(ast) };
  }

  /** Whether a part gives one value whatever it reads, and never a range. */
  private single(ast: Ast): boolean {
    const span = this.span(ast);
    if (span) return span.start.row === span.end.row && span.start.col === span.end.col;
    if (ast.type === 'ARRAY') return false;
    const all = (parts: readonly Ast[]): boolean => parts.every((part) => this.single(part));
    if (ast.type !== 'FUNCTION_CALL') return all(children(ast));
    const { procedureName: name, args } = ast;
    if (recordOf(name) || OF_ALL.has(name)) return true;
    const places = OF_RANGES[name];
    return all(places ? args.filter((arg, i) => !(places.includes(i) && this.span(arg))) : args);
  }

  private spansIn(ast: Ast): readonly Span[] {
    const span = this.span(ast);
    return span ? [span] : children(ast).flatMap((child) => this.spansIn(child));
  }

  /** What the calculator makes of an operation whose operands are worked out, or of a value alone. */
  operated(ast: Ast): Inner {
    return this.compiler.hyper.innerOf(ast, this.at, this.cell);
  }

  /** A value as the calculator gives it on: not a number at all is an error, and what begins here says so. */
  given(value: Inner): Inner {
    if (typeof value === 'number' && Number.isFinite(value)) return value + 0;
    return typeof value === 'string' || typeof value === 'boolean' ? value : this.operated(written(value));
  }
}
