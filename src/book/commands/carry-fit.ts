/** Carries the light that a fit of readings found into the given that the scenarios reckon with. */
import type { Book } from '../book.ts';
import { said } from '../label.ts';
import { addressOf, placeOf } from '../look-up.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { setCell } from './set-cell.ts';

/** What the cell is called in a book that has one. */
const CARRIED = 'light_carried';

export interface CarryFit {
  /** Of the planned light; 1 is as planned. */
  readonly share: number;
  /** Which readings: "18 November 2026, by the client". */
  readonly readings: string;
}

/** A meter tells no more than that. */
const DIGITS = 4;

export function carryFit(book: Book, { share, readings }: CarryFit): Answer {
  const at = placeOf(book, CARRIED);
  if (!at) return refused(`This book has no cell named ${CARRIED}, into which what was found could be carried.`);
  const content = `${Number((share * 100).toPrecision(DIGITS))} %`;
  const answer = setCell(book, { address: addressOf(at), content, source: `measured: fitted to the readings of ${readings}` });
  if (isRefused(answer)) return answer;
  if (answer.edits.length === 0) return refused(`The scenarios use ${content} of the planned light already.`);
  return { label: `Result of the readings used in the scenarios: ${said(book, at, at.cell)} → ${content} of the planned light`, edits: answer.edits };
}
