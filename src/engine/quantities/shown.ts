/** The unit in which the result of a formula is shown: that of its first operand of the same kind, else what its function declares. */
import { declaredIn } from '../../../functions/measures.ts';
import { unitIn } from '../../../functions/quantity-text.ts';
import { withCurrency } from '../../../functions/units.ts';
import type { Position, Span } from '../addresses.ts';
import type { Ast } from '../hyper.ts';
import type { FormulaParts } from './formula-parts.ts';
import { type Kind, type NumberKind, samePosition } from './kind.ts';
import { recordNamed } from './ours.ts';
import { type Call, foundIn } from './standard-kinds.ts';

/** Functions whose result is one of their arguments, or of the same kind as they: which arguments lend it their unit. */
const LENDING: ReadonlyMap<string, (args: readonly Ast[]) => readonly Ast[]> = new Map([
  ...'SUM MIN MAX AVERAGE MEDIAN MODE GEOMEAN HARMEAN LARGE SMALL PERCENTILE QUARTILE STDEV STDEVP STDEVA STDEVPA AVEDEV ABS MOD IFERROR PV FV PMT NPV XNPV SLN SYD DDB DB PRODUCT SUMPRODUCT'
    .split(' ')
    .map((name) => [name, (args: readonly Ast[]) => args] as const),
  ...['IF', 'CHOOSE', 'FORECAST'].map((name) => [name, (args: readonly Ast[]) => args.slice(1)] as const),
  ...['SUMIF', 'AVERAGEIF'].map((name) => [name, (args: readonly Ast[]) => args.slice(2).concat(args.slice(0, 1))] as const),
  ...['SUMIFS', 'INTERCEPT', 'STEYX'].map((name) => [name, (args: readonly Ast[]) => args.slice(0, 1)] as const),
]);

/** A unit, or the cell whose unit it is. */
export type Hint = string | Position;

/** Where a part of a formula takes its shown unit from; undefined where nothing says. */
export function hint(inference: FormulaParts, ast: Ast, kind: NumberKind): Hint | undefined {
  switch (ast.type) {
    case 'CELL_REFERENCE':
    case 'CELL_RANGE':
    case 'NAMED_EXPRESSION':
      return firstOf(inference, inference.span(ast), kind);
    case 'PARENTHESES':
      return hint(inference, ast.expression, kind);
    case 'PLUS_UNARY_OP':
    case 'MINUS_UNARY_OP':
      return hint(inference, ast.value, kind);
    case 'PERCENT_OP':
      return '%';
    case 'PLUS_OP':
    case 'MINUS_OP':
      // 1 − a share is shown as the share is: a written number says nothing of how it is shown.
      return firstHint(inference, [ast.left, ast.right], kind);
    case 'TIMES_OP':
      return lends(inference, ast.left, kind)
        ? hint(inference, ast.left, kind)
        : lends(inference, ast.right, kind)
          ? hint(inference, ast.right, kind)
          : undefined;
    case 'DIV_OP':
      return lends(inference, ast.left, kind) ? hint(inference, ast.left, kind) : undefined;
    case 'ARRAY':
      return firstHint(inference, ast.args.flat(), kind);
    case 'FUNCTION_CALL':
      return ofCall(inference, ast, kind);
    default:
      return undefined;
  }
}

const lends = (inference: FormulaParts, ast: Ast, kind: Kind): boolean => inference.infer(ast) === kind;

function firstHint(inference: FormulaParts, parts: readonly Ast[], kind: NumberKind): Hint | undefined {
  for (const part of parts) {
    const own = inference.infer(part);
    if (own !== kind && own.is !== 'mixed') continue;
    const found = hint(inference, part, kind);
    if (found !== undefined) return found;
  }
  return undefined;
}

function firstOf(inference: FormulaParts, span: Span | undefined, kind: NumberKind): Position | undefined {
  if (!span) return undefined;
  if (samePosition(span.start, span.end)) return inference.cells.kindOf(span.start) === kind ? span.start : undefined;
  for (let row = span.start.row; row <= span.end.row; row++) {
    for (let col = span.start.col; col <= span.end.col; col++) {
      const at = { sheet: span.start.sheet, row, col };
      if (inference.cells.kindOf(at) === kind) return at;
    }
  }
  return undefined;
}

function ofCall(inference: FormulaParts, call: Call, kind: NumberKind): Hint | undefined {
  const name = call.procedureName;
  if (name === 'UNIT') {
    const [, written] = call.args;
    return written?.type === 'STRING' ? unitIn(written.value, inference.host.currency)?.symbol : undefined;
  }
  const record = recordNamed(name);
  if (record) {
    const declared = record.returns.unit;
    if (declared === '1') return undefined;
    const operand = firstHint(inference, call.args, kind);
    return (
      operand ??
      (declared === 'any'
        ? undefined
        : unitIn(declaredIn(withCurrency(declared, inference.host.currency), inference.host.measures), inference.host.currency)?.symbol)
    );
  }
  const span = foundIn(inference, call);
  if (span) return firstOf(inference, span, kind);
  if (name === 'INDEX') return firstHint(inference, call.args.slice(0, 1), kind);
  const lending = LENDING.get(name);
  return lending && firstHint(inference, lending(call.args), kind);
}

/** The shown unit of a part, with references followed to the cells' own. */
export function shownUnit(inference: FormulaParts, ast: Ast, kind: NumberKind): string | undefined {
  const found = hint(inference, ast, kind);
  if (found === undefined || typeof found === 'string') return found;
  return inference.cells.shownUnitOf(found);
}
