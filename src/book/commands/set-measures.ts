/** Metric or US customary: in which units quantities are shown. Nothing that was given changes. */
import { inMeasures } from '../../../functions/measures.ts';
import type { Book } from '../book.ts';
import { mapCells } from '../map-cells.ts';
import type { Answer } from '../refused.ts';

export interface SetMeasures {
  readonly measures: Book['measures'];
}

export function setMeasures(book: Book, { measures }: SetMeasures): Answer {
  const label = `Measures: ${book.measures} → ${measures}`;
  if (measures === book.measures) return { label, edits: [] };
  const edits = mapCells(
    book,
    (unit) => inMeasures(unit, measures),
    (content) => content,
    true,
  );
  return { label, edits: [...edits, { at: 'book', before: { measures: book.measures }, after: { measures } }] };
}
