/**
 * Worked cells are locked: they take another formula, but no plain value, and are not cleared, until they are unlocked. Unlocking says of a cell
 * that it is a given, which for now is answered with a formula; locking, that it is worked out.
 */
import type { At } from './address.ts';
import { isFormula } from './content.ts';
import { standingOf, titleOf } from './look-up.ts';

export function isLocked(at: At): boolean {
  if (!isFormula(at.cell?.content ?? '')) return false;
  const standing = standingOf(at);
  const kind = at.cell?.kind ?? at.row.kind ?? at.column.kind;
  return standing === 'check' || (standing === 'worked' && kind !== 'given');
}

/** Why a locked cell does not take this; undefined where it does, or is not locked. */
export function lockedProblem(at: At, content: string): string | undefined {
  if (isFormula(content) || !isLocked(at)) return undefined;
  return `${titleOf(at)} is ${standingOf(at) === 'check' ? 'a check' : 'worked out'} and locked: it takes another formula, but is neither cleared nor written over until you unlock it.`;
}
