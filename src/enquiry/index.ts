/**
 * Reads an enquiry: what a client wrote, in English, as answers to the givens of a template. `hear` needs no book, so that a template can be chosen and fetched;
 * `answers` then says what of it the template takes. Pure: no network, no clock; the same text is read the same on any day.
 */
export { type Answers, answers, type Finding, type Unused } from './answers.ts';
export { hear } from './hear.ts';
export { begunWith, bookFrom, type Kept, keptAnswers } from './into-book.ts';
export { MOST_READ } from './plain.ts';
export { choose } from './templates.ts';
export type { Rows } from './things.ts';
