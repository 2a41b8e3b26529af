/** From the calculator's error codes to words for the cell and sentences for the person at the bench. */
import type { Mend } from './types.ts';

/** What is wrong with a cell, before it is known where it began. */
export interface Fault {
  readonly word: string;
  readonly message: string;
  readonly mend?: Mend;
}

const BREAK = '\u001f';

/** A fault of ours travels through the calculator inside an error's message. */
export const pack = (fault: Fault): string => `${fault.word}${BREAK}${fault.message}`;

export function unpack(message: string | undefined): Fault | undefined {
  const at = message?.indexOf(BREAK) ?? -1;
  return message && at >= 0 ? { word: message.slice(0, at), message: message.slice(at + 1) } : undefined;
}

export const NOT_ANSWERED = 'not answered yet';
export const OUT_OF_RANGE = 'out of range';
export const REFUSED = 'refused';
export const NO_SUCH_NAME = 'no such name';
export const CIRCLE = 'goes in a circle';
export const NOT_UNDERSTOOD = 'not understood';
export const TOO_LARGE = 'too large';
export const UNIT_ERROR = 'unit error';

const SENTENCES: Readonly<Record<string, Fault>> = {
  DIV_BY_ZERO: { word: 'divides by zero', message: 'This divides by zero, or by a cell that is blank.' },
  VALUE: { word: 'wrong kind', message: 'A number was needed here and something else was found: look for text or a range where one number belongs.' },
  NUM: { word: 'no number', message: 'There is no number that answers this: an argument lies outside what the function can take, or the result is too large.' },
  NA: { word: 'not found', message: 'The look-up found nothing that matches.' },
  REF: { word: 'no such cell', message: 'This reads a cell or a table that is not there.' },
  SPILL: { word: 'more than one value', message: 'This gives several values, and a cell holds one: put it inside SUM, INDEX or the like.' },
  NAME: { word: NO_SUCH_NAME, message: 'A name in this formula is not known.' },
  ERROR: { word: NOT_UNDERSTOOD, message: 'This can not be read as a formula.' },
  CYCLE: { word: CIRCLE, message: 'This cell depends on itself.' },
};

/** Detail that the calculator adds to its codes, where a more exact sentence can be made of it. */
const DETAILS: readonly (readonly [RegExp, string])[] = [
  [/Wrong number of arguments/i, 'The function was given too many arguments or too few.'],
  [/Value too large/i, 'An argument is larger than the function can take.'],
  [/Value too small/i, 'An argument is smaller than the function can take.'],
  [/Cell range expected/i, 'A range of cells such as A1:A9 is needed where one value was given.'],
  [/Wrong type of argument/i, 'An argument is of the wrong kind: a number, a text or a range is where another is needed.'],
  [/Value not found/i, 'The look-up found nothing that matches.'],
  [/Index out of bounds|out of range|Index too large/i, 'This looks beyond the edge of the range it was given.'],
  [/Needs to be an integer|Integer expected|Value needs to be an integer/i, 'A whole number is needed.'],
  [/Array dimensions|same size|Wrong size|equal length/i, 'The ranges given here must have the same number of rows and columns.'],
];

/** The words for an error of the calculator's own. */
export function explain(type: string, message: string | undefined): Fault {
  const ours = unpack(message);
  if (ours) return ours;
  const plain = SENTENCES[type] ?? { word: 'error', message: 'This can not be worked out.' };
  const detail = DETAILS.find(([pattern]) => pattern.test(message ?? ''))?.[1];
  return detail ? { word: plain.word, message: detail } : plain;
}
