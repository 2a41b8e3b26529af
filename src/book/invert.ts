/** Turns a change round: what it did is undone by the result. */
import type { Change, Edit } from './change.ts';

export function invert(change: Change): Change {
  return { label: change.label, edits: change.edits.map(invertEdit).reverse() };
}

const invertEdit = (edit: Edit): Edit => ({ ...edit, before: edit.after, after: edit.before }) as Edit;
