/** Metric or US customary: in which units quantities are shown. Nothing that was given changes. */
import { unit } from '../../../functions/units.ts';
import type { Book } from '../book.ts';
import { mapCells } from '../map-cells.ts';
import type { Answer } from '../refused.ts';

export interface SetMeasures {
  readonly measures: Book['measures'];
}

/** The first pair with a unit is the way back too. Wire areas stay in mm², as the functions for wires have them. */
const PAIRS: readonly (readonly [metric: string, customary: string])[] = [
  ['m', 'ft'],
  ['cm', 'in'],
  ['mm', 'in'],
  ['m²', 'ft²'],
  ['kg', 'lb'],
  ['N', 'lbf'],
  ['°C', '°F'],
  ['lx', 'fc'],
  ['m³/h', 'cfm'],
  ['Ω/km', 'Ω/kft'],
];

export function setMeasures(book: Book, { measures }: SetMeasures): Answer {
  const label = `Measures: ${book.measures} → ${measures}`;
  if (measures === book.measures) return { label, edits: [] };
  const swap = (text: string): string => {
    const symbol = unit(text)?.symbol;
    const pair = PAIRS.find(([metric, customary]) => symbol === (measures === 'metric' ? customary : metric));
    return pair ? (measures === 'metric' ? pair[0] : pair[1]) : text;
  };
  const edits = mapCells(book, swap, (content) => content, true);
  return { label, edits: [...edits, { at: 'book', before: { measures: book.measures }, after: { measures } }] };
}
