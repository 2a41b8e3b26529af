/** What was done to a book and what was undone of it: plain data, kept with the book. Undo is inversion; there is no undo code per command. */
import type { Change } from './change.ts';
import { invert } from './invert.ts';

export interface History {
  /** Oldest first. */
  readonly done: readonly Change[];
  /** Last undone last. */
  readonly undone: readonly Change[];
}

export const NO_HISTORY: History = { done: [], undone: [] };

/** How far back one can go. The oldest changes are forgotten first, whichever bound is met. */
const MOST_CHANGES = 1000;
const MOST_EDITS = 200_000;

export function remember(history: History, change: Change): History {
  return { done: bounded([...history.done, change]), undone: [] };
}

/** The change that takes the last one back, and the history after it; undefined where there is nothing to undo. */
export function undo(history: History): { readonly change: Change; readonly history: History } | undefined {
  const last = history.done.at(-1);
  if (!last) return undefined;
  return { change: invert(last), history: { done: history.done.slice(0, -1), undone: [...history.undone, last] } };
}

/** The change that was undone last, and the history after it is done again. */
export function redo(history: History): { readonly change: Change; readonly history: History } | undefined {
  const last = history.undone.at(-1);
  if (!last) return undefined;
  return { change: last, history: { done: [...history.done, last], undone: history.undone.slice(0, -1) } };
}

function bounded(done: readonly Change[]): readonly Change[] {
  let edits = 0;
  let first = done.length;
  while (first > 0 && done.length - first < MOST_CHANGES) {
    edits += done[first - 1]?.edits.length ?? 0;
    // The newest is kept whatever its size: what was just done can always be undone.
    if (edits > MOST_EDITS && first < done.length) break;
    first--;
  }
  return done.slice(first);
}

/** Whether something that was stored has the shape of a history. */
export function isHistory(found: unknown): found is History {
  if (typeof found !== 'object' || found === null) return false;
  const { done, undone } = found as Partial<History>;
  return [done, undone].every((list) => Array.isArray(list) && list.every((change) => typeof change?.label === 'string' && Array.isArray(change.edits)));
}
