/** A cell found by words of what it is called: the field, and the lists that it picks from. Fetched with what asks for a cell. */
import './cell-finder.ts';

export type { ObCellFinder } from './cell-finder.ts';
export { type Choice, cellChoices, cellsIn, rowChoices, runChoices } from './cell-list.ts';
