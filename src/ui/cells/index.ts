/** How a cell is seen and said: its view and words, what it may hold, its units, and a formula with its references. */
export { type CellView, lacks, lineOf, spokenName, spokenValue, textOfValue, valueAt, viewBeside, viewOf } from './cell-view.ts';
export { allowedText, choicesOf, numberHints } from './choices.ts';
export { headingFrom, lineAt, piecesOf } from './formula-text.ts';
export { paramText, signature } from './param-words.ts';
export { alikeUnits, PICKS, showIn, shownUnit, unitRefusal } from './shown-unit.ts';
export { valueLine, workedValue } from './value-line.ts';
export { closed, type Standing, standingAt, takesReference, type Word, wordsAt, wordsOf } from './words.ts';
