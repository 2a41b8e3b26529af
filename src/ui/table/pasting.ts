/** All that pasting takes: fetched when something is pasted. */
export { beyond, pasteInto, putDown, putDownAnew, readGrid, wordsOf } from './paste-cells.ts';
export { decimalMarkOf } from './pasted-text.ts';
