/**
 * A whole book into a calculator that holds nothing yet. Cell by cell through the calculator's own commands, each cell is looked up, emptied and noted
 * down as changed before it is set; and as every value counts as changed, all of them are put in order before the formulas. Here values are set first,
 * which nothing has read yet, and only formulas are left to be worked out. With hyper.ts the only file that reaches into the calculator.
 */
import type { HyperFormula } from 'hyperformula';
import type { Position } from './addresses.ts';

/** What is handed to the calculator for one cell. */
export type Fed = number | string | boolean | null;

/** The tree of a formula, which is only handed on here. */
type Tree = unknown;

interface Size {
  readonly width: number;
  readonly height: number;
}

interface ReadFormula {
  readonly ast: Tree;
  readonly errors: readonly unknown[];
  readonly dependencies: readonly { absolutize(at: Position): unknown }[];
  readonly hasVolatileFunction: boolean;
  readonly hasStructuralChangeFunction: boolean;
}

interface Insides {
  readonly _parser: { parse(text: string, at: Position): ReadFormula };
  readonly _crudOperations: { readonly operations: { setCellContent(at: Position, content: Fed): void } };
  readonly _evaluator: { readonly interpreter: { readonly arraySizePredictor: { checkArraySize(ast: Tree, at: Position): Size } } };
  readonly _dependencyGraph: {
    readonly graph: { markNodeAsDirty(node: object): void };
    setValueToCell(at: Position, value: { readonly parsedValue: number; readonly rawValue: number }): void;
    setFormulaToCell(at: Position, ast: Tree, reads: readonly unknown[], size: Size, isVolatile: boolean, followsStructure: boolean): void;
  };
}

const isFormula = (content: Fed): content is string => typeof content === 'string' && content.startsWith('=');

function* cellsOf(tables: readonly (readonly (readonly Fed[])[])[], wanted: (content: Fed) => boolean): Generator<readonly [Position, Fed]> {
  for (const [sheet, rows] of tables.entries())
    for (const [row, line] of rows.entries())
      for (const [col, content] of line.entries()) if (content !== null && wanted(content)) yield [{ sheet, row, col }, content];
}

/** The calculator's evaluation is suspended meanwhile; formulas are in its own writing. */
export function fillEmpty(hf: HyperFormula, tables: readonly (readonly (readonly Fed[])[])[]): void {
  const { _parser: parser, _dependencyGraph: cells, _crudOperations, _evaluator } = hf as unknown as Insides;
  const { operations } = _crudOperations;
  const { graph } = cells;
  const mark = graph.markNodeAsDirty;
  graph.markNodeAsDirty = () => {};
  try {
    for (const [at, content] of cellsOf(tables, (one) => !isFormula(one))) {
      if (typeof content === 'number') cells.setValueToCell(at, { parsedValue: content, rawValue: content });
      else operations.setCellContent(at, content);
    }
  } finally {
    graph.markNodeAsDirty = mark;
  }
  const { arraySizePredictor } = _evaluator.interpreter;
  const sizes = new WeakMap<object, Size>();
  for (const [at, content] of cellsOf(tables, isFormula)) {
    const read = parser.parse(content as string, at);
    const size = sizes.get(read) ?? (read.errors.length === 0 ? arraySizePredictor.checkArraySize(read.ast, at) : undefined);
    if (size?.width !== 1 || size.height !== 1) operations.setCellContent(at, content);
    else {
      sizes.set(read, size);
      const reads = read.dependencies.map((one) => one.absolutize(at));
      cells.setFormulaToCell(at, read.ast, reads, size, read.hasVolatileFunction, read.hasStructuralChangeFunction);
    }
  }
}
