import type { Position } from './addresses.ts';
import { type Fault, NOT_UNDERSTOOD } from './errors.ts';
import { toCanonical } from './formula-text.ts';
import type { Committed } from './quantities/index.ts';
import type { Workbook } from './workbook.ts';

/** A formula as it would be stored, canonical and with units written to bare numbers, or why it can't be. */
export function commit(workbook: Workbook, at: Position, typed: string): Exclude<Committed, { refused: string }> | Fault {
  const canonical = toCanonical(typed, workbook.currency);
  if (!canonical.ok) return { word: NOT_UNDERSTOOD, message: canonical.message };
  const fault = workbook.objection(canonical.content, at);
  if (fault) return fault;
  const committed = workbook.quantities.commitCanonical(canonical.content, at);
  return 'refused' in committed ? { word: NOT_UNDERSTOOD, message: committed.refused } : committed;
}
