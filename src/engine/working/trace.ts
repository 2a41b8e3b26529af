/** Where a value comes from: its working, and what it reads, down to the givens. */
import type { Position } from '../addresses.ts';
import { toEditable } from '../formula-text.ts';
import { type Ast, CellError } from '../hyper.ts';
import { children } from '../objections.ts';
import type { TraceNode } from '../types.ts';
import type { Workbook } from '../workbook.ts';
import { Steps } from './steps.ts';

/** Cells of one range that are listed each by itself; more are counted. */
const LISTED = 60;
/** Nodes in one tree: past this a cell is named without what it reads in turn. */
const NODES = 2_000;
const DEEPEST = 200;

interface Read {
  readonly at: Position;
  readonly name?: string;
  readonly untaken: boolean;
}

export class Tracer {
  private readonly book: Workbook;
  private readonly told = new Set<string>();
  private nodes = 0;

  constructor(book: Workbook) {
    this.book = book;
  }

  trace(at: Position): TraceNode {
    return this.node({ at, untaken: false }, 0);
  }

  private node(read: Read, depth: number): TraceNode {
    const { at, name, untaken } = read;
    const { sheets } = this.book;
    const inTable = sheets.tables[at.sheet] !== undefined;
    const address = sheets.address(at);
    const ast = this.book.formulaIn(at);
    const known = this.told.has(address);
    this.told.add(address);
    const cut = known || ++this.nodes > NODES || depth > DEEPEST;
    const value = this.book.valueAt(at);
    const cell = sheets.cell(at);
    const [row, column] = [sheets.row(at), sheets.column(at)];
    const source = cell?.source ?? row?.source ?? column?.source;
    const note = cell?.note ?? row?.note ?? column?.note;
    const content = this.book.content(at);
    const { from, more } = cut || !ast ? { from: [], more: 0 } : this.from(ast, at, depth);
    return {
      ...(inTable && { address }),
      row: row?.label ?? '',
      column: column?.label ?? '',
      kind: this.kind(at, ast),
      value,
      ...(content.kind === 'formula' && { formula: toEditable(content.formula, this.book.currency) }),
      steps: cut || !ast ? [] : this.steps(ast, at),
      ...(source !== undefined && { source }),
      ...(note !== undefined && { note }),
      from,
      ...(name !== undefined && { name }),
      ...(cut && ast && { again: true }),
      ...(untaken && { untaken: true }),
      ...(more > 0 && { more }),
    };
  }

  private kind(at: Position, ast: Ast | undefined): TraceNode['kind'] {
    const cell = this.book.sheets.cell(at);
    const said = cell?.kind ?? this.book.sheets.row(at)?.kind ?? this.book.sheets.column(at)?.kind;
    if (!cell && this.book.content(at).kind === 'blank') return 'blank';
    if (!ast) return said === 'check' ? 'check' : 'given';
    if (said === 'given' && this.book.span(ast, at)) return 'as';
    return said ?? 'worked';
  }

  private steps(ast: Ast, at: Position): TraceNode['steps'] {
    const value = this.book.valueAt(at);
    const steps = new Steps(this.book, at, ast);
    steps.tell(this.book.sheets.heading(at), value);
    return steps.steps;
  }

  /** What a formula reads, each cell once, in the order in which the formula names it. */
  private from(ast: Ast, at: Position, depth: number): { from: TraceNode[]; more: number } {
    const reads = new Map<string, Read>();
    let more = 0;
    for (const { part, untaken } of this.parts(ast, at, false)) {
      const span = this.book.span(part, at);
      if (!span) continue;
      const name = part.type === 'NAMED_EXPRESSION' ? part.expressionName : undefined;
      const single = span.start.row === span.end.row && span.start.col === span.end.col;
      let listed = 0;
      for (let row = span.start.row; row <= span.end.row; row++) {
        for (let col = span.start.col; col <= span.end.col; col++) {
          const cell = { sheet: span.start.sheet, row, col };
          if (!single && !this.book.sheets.cell(cell)) continue;
          if (listed >= LISTED) {
            more++;
            continue;
          }
          listed++;
          const key = this.book.sheets.address(cell);
          const before = reads.get(key);
          if (!before || (before.untaken && !untaken)) reads.set(key, { at: cell, untaken, ...(name !== undefined && { name }) });
        }
      }
    }
    return { from: [...reads.values()].map((read) => this.node(read, depth + 1)), more };
  }

  /** The parts of a formula, each with whether it lies in a branch that was not taken. */
  private *parts(ast: Ast, at: Position, untaken: boolean): Generator<{ part: Ast; untaken: boolean }> {
    yield { part: ast, untaken };
    const branches = ast.type === 'FUNCTION_CALL' ? this.branches(ast.procedureName, ast.args, at) : undefined;
    for (const [i, child] of children(ast).entries()) yield* this.parts(child, at, untaken || (branches !== undefined && i > 0 && i !== branches));
  }

  /** Which argument IF, IFERROR or CHOOSE took; undefined for a function that reads all of them. */
  private branches(name: string, args: readonly Ast[], at: Position): number | undefined {
    const [first] = args;
    if (!first || (name !== 'IF' && name !== 'IFERROR' && name !== 'CHOOSE')) return undefined;
    const value = this.book.hyper.value(first, at);
    if (name === 'IFERROR') return value instanceof CellError ? 1 : 0;
    if (name === 'CHOOSE') return typeof value === 'number' ? Math.trunc(value) : undefined;
    return value instanceof CellError ? undefined : value ? 1 : 2;
  }
}
