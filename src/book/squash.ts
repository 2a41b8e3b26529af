/** Makes one change of two that follow one another, for gestures that come in several parts. */
import type { Change, Edit } from './change.ts';

/** Applying the result is applying `a`, then `b`. Two edits of one cell, or of one name, become one; an edit that comes to nothing goes. */
export function squash(a: Change, b: Change, label: string = a.label === b.label ? a.label : `${a.label}; ${b.label}`): Change {
  const edits: (Edit | null)[] = [];
  let last = new Map<string, number>();
  for (const edit of [...a.edits, ...b.edits]) {
    // A whole table that comes or goes must not be passed over by the edits of its cells.
    if (edit.at === 'table') last = new Map();
    const key = mergeKey(edit);
    const at = key === undefined ? undefined : last.get(key);
    const earlier = at === undefined ? undefined : edits[at];
    if (key === undefined || at === undefined || !earlier) {
      if (key !== undefined) last.set(key, edits.length);
      edits.push(edit);
      continue;
    }
    const merged = { ...earlier, after: edit.after } as Edit;
    const idle = JSON.stringify(merged.before) === JSON.stringify(merged.after);
    edits[at] = idle ? null : merged;
    if (idle) last.delete(key);
  }
  return { label, edits: edits.filter((edit) => edit !== null) };
}

function mergeKey(edit: Edit): string | undefined {
  if (edit.at === 'cell') return JSON.stringify([edit.table, edit.row, edit.column]);
  if (edit.at === 'name') return JSON.stringify([edit.name]);
  return undefined;
}
