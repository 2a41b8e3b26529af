/** Numbers that are written out in a formula. */
import type { Ast } from '../hyper.ts';

/** The value of a written number, or of a fraction of two. */
export function constant(ast: Ast): number | undefined {
  if (ast.type === 'NUMBER') return ast.value;
  if (ast.type === 'PARENTHESES') return constant(ast.expression);
  if (ast.type === 'PLUS_UNARY_OP') return constant(ast.value);
  if (ast.type === 'MINUS_UNARY_OP') {
    const value = constant(ast.value);
    return value === undefined ? undefined : -value;
  }
  if (ast.type === 'DIV_OP') {
    const [a, b] = [constant(ast.left), constant(ast.right)];
    return a === undefined || b === undefined ? undefined : a / b;
  }
  return undefined;
}

/** A number written out, with a sign or in brackets perhaps, or a list of such. */
export function isWritten(ast: Ast): boolean {
  if (ast.type === 'NUMBER') return true;
  if (ast.type === 'PARENTHESES') return isWritten(ast.expression);
  if (ast.type === 'MINUS_UNARY_OP' || ast.type === 'PLUS_UNARY_OP') return ast.value.type !== 'ARRAY' && isWritten(ast.value);
  return ast.type === 'ARRAY' && ast.args.flat().every(isWritten);
}
