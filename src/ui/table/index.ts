/** Tables: their rows, what is chosen in them, writing in their cells, copying and pasting. What a table is drawn with is fetched with the first book. */
export type { Clip } from './clip.ts';
export type { Spot } from './grid-moves.ts';
export type { Ask, Patch, Read } from './paste-cells.ts';
export type { DecimalMark } from './pasted-text.ts';
export type { Refusal } from './refusal.ts';
export { areaOf, placeAt, whole } from './selection.ts';
export { cellAt, chosenTable, isWriting, writesIn } from './tables.ts';

export const fetchTable = () => import('./table.ts');
export const fetchClip = () => import('./clip.ts');
export const fetchPasting = () => import('./pasting.ts');
