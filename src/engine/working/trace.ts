/** Where a value comes from: its working, and what it reads, down to the givens. */
import { counted } from '../../../functions/number-text.ts';
import { cellText } from '../../book/address.ts';
import { columnHeading } from '../../book/look-up.ts';
import type { Position, Span } from '../addresses.ts';
import { UNIT_ERROR } from '../errors.ts';
import { toEditable } from '../formula-text.ts';
import type { Ast } from '../hyper.ts';
import type { TraceNode, Value } from '../types.ts';
import type { Workbook } from '../workbook.ts';
import { Steps } from './steps.ts';
import { Taking } from './taken.ts';
import { nameOf, said, spanText } from './words.ts';

/** Cells of one range that are listed each by itself; more stand together. */
const SHORT = 10;
/** And of those so many are told; more are counted. */
const LISTED = 60;
/** Nodes in one tree: past this a cell is named without what it reads in turn. */
const NODES = 2_000;
const DEEPEST = 200;

interface Listed {
  readonly at: Position;
  readonly name?: string;
}

export class Tracer {
  private readonly book: Workbook;
  private readonly told = new Set<string>();
  private nodes = 0;

  constructor(book: Workbook) {
    this.book = book;
  }

  trace(at: Position): TraceNode {
    return this.node({ at }, 0);
  }

  private node({ at, name }: Listed, depth: number): TraceNode {
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
    const taking = new Taking(this.book, at);
    const all = value.kind === 'error' && value.word === UNIT_ERROR ? new Taking(this.book, at, true) : taking;
    const place = sheets.inBook(at);
    const list = place?.table.form === 'list';
    return {
      ...(inTable && { address }),
      row: list ? nameOf(this.book, at) : (row?.label ?? ''),
      column: list ? columnHeading(place) : (column?.label ?? ''),
      kind: this.kind(at, ast),
      value,
      ...(content.kind === 'formula' && { formula: toEditable(content.formula, this.book.currency) }),
      steps: cut || !ast ? [] : this.steps(ast, at, value, taking),
      ...(source !== undefined && { source }),
      ...(note !== undefined && { note }),
      from: cut || !ast ? [] : this.from(ast, all, depth),
      ...(name !== undefined && { name }),
      ...(cut && ast && { again: true }),
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

  private steps(ast: Ast, at: Position, value: Value, taking: Taking): TraceNode['steps'] {
    const steps = new Steps(this.book, at, ast, taking);
    steps.tell(this.book.sheets.heading(at), value);
    return steps.steps;
  }

  /** What a formula reads, each cell and each long range once, in the order in which the formula names it. */
  private from(ast: Ast, taking: Taking, depth: number): TraceNode[] {
    const reads = new Map<string, Listed | Span>();
    for (const { span, name } of taking.reads(ast)) {
      const cells = this.cells(span);
      if (cells.length > SHORT) reads.set(spanText(this.book, span), span);
      else
        for (const at of cells)
          if (!reads.has(this.book.sheets.address(at))) reads.set(this.book.sheets.address(at), { at, ...(name !== undefined && { name }) });
    }
    return [...reads.values()].map((read) => ('at' in read ? this.node(read, depth + 1) : this.range(read, depth + 1)));
  }

  /** Of a range those cells that hold something or wait for an answer; a single one in any case. */
  private cells({ start, end }: Span): Position[] {
    if (start.row === end.row && start.col === end.col) return [start];
    const cells: Position[] = [];
    for (let row = start.row; row <= end.row; row++) {
      for (let col = start.col; col <= end.col; col++) {
        const at = { sheet: start.sheet, row, col };
        if (this.book.sheets.cell(at)) cells.push(at);
      }
    }
    return cells;
  }

  /** Many cells as one: how many values, the lowest and the highest, and behind them the cells. */
  private range(span: Span, depth: number): TraceNode {
    const cells = this.cells(span);
    const more = Math.max(0, cells.length - LISTED);
    return {
      row: spanText(this.book, span),
      column: '',
      kind: 'range',
      value: { kind: 'text', text: this.extremes(span) },
      steps: [],
      from: cells.slice(0, LISTED).map((at) => this.node({ at }, depth)),
      ...(more > 0 && { more }),
    };
  }

  private extremes(span: Span): string {
    const all = [...this.book.valuesIn(span)].filter(({ value }) => typeof value !== 'object');
    const count = counted(all.length, 'value');
    const numbers = all.filter((one): one is { at: Position; value: number } => typeof one.value === 'number');
    const [first] = numbers;
    if (!first || this.book.quantities.kindOfSpan(span).is !== 'number') return count;
    let [low, high] = [first, first];
    for (const one of numbers) {
      if (one.value < low.value) low = one;
      if (one.value > high.value) high = one;
    }
    const told = ({ at }: { at: Position }): string => `${said(this.book, at, this.book.valueAt(at))} (${cellText(at.col, at.row)})`;
    return `${count}, lowest ${told(low)}, highest ${told(high)}`;
  }
}
