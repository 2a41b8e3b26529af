/** Units as they stand in a formula, right after their number: `6 in`, `200 µmol/m²/s`, `0.05 /h`. */
import { unitIn } from './quantity-text.ts';
import { unit } from './units.ts';

/** What may stand in a unit: letters, raised digits, signs, and the marks that join factors. */
const UNIT_TEXT = /^(?: per | (?=\p{L}+⁻)|[^\s\d"'(){},;:!&=<>*+^%[\]\\|~?#@×÷−≤≥≠–.-]|(?<=\p{L})\^?\d)+/u;
const WORD_CHARACTER = /[\w.(!$\p{L}]/u;

/** `foreign`: it is an amount in another currency than the book's. */
export type UnitThere = { readonly symbol: string; readonly length: number } | { readonly foreign: string };

/** The longest unit that `text` begins with, in the book's currency, and how many characters it takes. */
export function unitAt(text: string, currency: string): UnitThere | undefined {
  let candidate = UNIT_TEXT.exec(text)?.[0] ?? '';
  for (; candidate !== ''; candidate = candidate.slice(0, -1)) {
    const next = text[candidate.length];
    if (next !== undefined && WORD_CHARACTER.test(next)) continue;
    if (/[/·\s]$/.test(candidate)) continue;
    const found = unitIn(candidate, currency);
    if (found && found.symbol !== '') return { symbol: found.symbol, length: candidate.length };
    if (!found && unit(candidate)) return { foreign: candidate };
  }
  return undefined;
}

/** The unit of a number, in what follows its digits; `length` counts the gap before it. */
export function unitAfter(after: string, currency: string): UnitThere | undefined {
  const gap = /^[ \u00a0\u2009\u202f]*/.exec(after)?.[0].length ?? 0;
  const rest = after.slice(gap);
  // A unit that begins with a stroke needs a space before it and none after, or `5/h` would not divide.
  if (rest.startsWith('/') && (gap === 0 || /^\/[ A-Z$]/.test(rest) || /^\/\w*\d/.test(rest))) return undefined;
  const found = unitAt(rest, currency);
  return found && 'length' in found ? { ...found, length: gap + found.length } : found;
}
