/** A formula that is still being written, held against the cell in which it would stand. */
import type { Position } from './addresses.ts';
import { commit } from './commit-formula.ts';
import { CIRCLE } from './errors.ts';
import { everyPart } from './objections.ts';
import { recordOf } from './register.ts';
import { leadsBack } from './relations.ts';
import type { Value } from './types.ts';
import type { Workbook } from './workbook.ts';

export function preview(book: Workbook, at: Position, formula: string): Value {
  const committed = commit(book, at, formula);
  if (!('content' in committed)) return { kind: 'error', ...committed };
  const parts = [...everyPart(book.hyper.parse(committed.content, at).ast)];
  const spans = parts.map((part) => book.span(part, at)).filter((span) => span !== undefined);
  if (leadsBack(book, at, spans))
    return { kind: 'error', word: CIRCLE, message: 'This would read its own cell, itself or by way of others: a circle has no answer.' };
  const kind = book.quantities.kindIn(committed.content, at);
  const slow = parts.some((part) => part.type === 'FUNCTION_CALL' && recordOf(part.procedureName)?.slow);
  if (slow && kind.is !== 'fail') return { kind: 'blank' };
  const value = book.once(committed.content, kind, at);
  return book.resultOutOfRange(at, value) ?? value;
}
