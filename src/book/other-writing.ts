/**
 * Places and formulas as other writings have them, turned into ours where they come in: typed, from the command line, in CSV, in texts. Nothing behind
 * this file meets another writing than that of address.ts.
 *
 * - `Scenarios!B7`, as places were written before version 4 of the book.
 * - `[Scenarios.B7]`, `[.B7]`, `[$T.$A$1:.$B$2]`: OpenFormula (OASIS, Open Document Format for Office Applications, version 1.3, part 4: Recalculated
 *   Formula (OpenFormula) Format, 2021, 5.8; the section from memory). A `$` before the table says nothing here, and goes.
 * - `;` between arguments, as OpenFormula has it, but only in a formula without a comma: `MAX(0,5;1)` may be meant with a decimal comma.
 */
import { CORNER, END, PLAIN, QUOTED, referenceOf, referenceText, tablePrefix } from './address.ts';
import { LOST, OTHER, overChips } from './references.ts';

/** Before a `!` a table's name may begin with a digit without quotes. */
const LOOSE = '[A-Za-z0-9_\\u00C0-\\u02AF]+';
const BANG = new RegExp(`\\$?(?:${QUOTED}|(${LOOSE}))!${CORNER}(?::(?:\\$?(?:${QUOTED}|(${LOOSE}))!)?${CORNER})?${END}`, 'uy');
/** With a `$` before the table, or a point before the second corner, as addresses outside of formulas have it: `$T.A1:.B2`. */
const POINT = new RegExp(`\\$?(?:${QUOTED}|(${PLAIN}))\\.${CORNER}(?::(?:(?:\\$?(?:${QUOTED}|(${PLAIN})))?\\.)?${CORNER})?${END}`, 'uy');
const TABLE = `\\$?(?:${QUOTED}|([^\\s.'"!:$()[\\]{}]+))`;
const BRACKETS = new RegExp(`\\[(?:${TABLE})?\\.${CORNER}(?::(?:${TABLE})?\\.${CORNER})?\\]`, 'uy');
/** A cell that is gone: OpenFormula says it within the brackets. */
const GONE = /\[[^[\]"]*#REF![^[\]"]*\]|#REF!/uy;
/** What says a table before something that is no cell: it is refused, in words that know it by our mark. */
const BEFORE = new RegExp(`(?:${QUOTED}|(${LOOSE}))!(?=\\$?[A-Za-z0-9])`, 'uy');

interface Piece {
  readonly text: string;
  readonly length: number;
}

/** What `referenceOf` reads, of a reference to a table, or in brackets, that stands in any writing at this place of a text. */
export function otherReference(text: string, at: number, writings: readonly RegExp[] = [BRACKETS, BANG, POINT]): RegExpExecArray | undefined {
  for (const writing of writings) {
    writing.lastIndex = at;
    const match = writing.exec(text);
    if (match && referenceOf(match)) return match;
  }
  return undefined;
}

function foundAt(text: string, at: number, writings?: readonly RegExp[]): Piece | undefined {
  const match = otherReference(text, at, writings);
  const reference = match && referenceOf(match);
  return reference && { text: referenceText(reference), length: match[0].length };
}

function whole(text: string, writings?: readonly RegExp[]): string {
  const wanted = text.trim();
  const found = foundAt(wanted, 0, writings);
  return found?.length === wanted.length ? found.text : text;
}

/** A text that is one place in any writing, in ours; any other text, a name perhaps, as it is. */
export const ownAddress = (text: string): string => whole(text);

/** The same for a heading, whose brackets hold a unit. */
export const ownHeading = (title: string): string => whole(title, [BANG, POINT]);

/** A text with what stands in its chips (`{{Scenarios!B7}}`) in our writing. */
export const ownProse = (text: string): string => overChips(text, ownAddress);

/** A content in our writing, where it is a formula. */
export const ownContent = (content: string): string => (content.startsWith('=') ? ownFormula(content) : content);

/** A formula, typed or stored, with its references in our writing and its arguments parted by commas. What can't be read stays as it stands. */
export function ownFormula(formula: string): string {
  const pieces: string[] = [];
  const open: ('call' | 'group' | 'braces')[] = [];
  const semicolons: number[] = [];
  let commas = false;
  let word = false;
  for (let at = 0; at < formula.length; ) {
    const { text, length } = pieceAt(formula, at);
    at += length;
    if (text === '(') open.push(word ? 'call' : 'group');
    else if (text === '{') open.push('braces');
    else if (text === ')' || text === '}') open.pop();
    else if (text === ',') commas ||= !open.includes('braces');
    else if (text === ';' && open.at(-1) === 'call') semicolons.push(pieces.length);
    // A gap between a function and its bracket changes nothing.
    if (text.trim() !== '') word = /^[\p{L}_]/u.test(text);
    pieces.push(text);
  }
  if (!commas) for (const i of semicolons) pieces[i] = ',';
  return pieces.join('');
}

function pieceAt(formula: string, at: number): Piece {
  const found = foundAt(formula, at);
  if (found) return found;
  GONE.lastIndex = at;
  const gone = GONE.exec(formula);
  if (gone) return { text: LOST, length: gone[0].length };
  BEFORE.lastIndex = at;
  const before = BEFORE.exec(formula);
  if (before) return { text: tablePrefix(before[1]?.replaceAll("''", "'") ?? before[2] ?? ''), length: before[0].length };
  OTHER.lastIndex = at;
  const text = OTHER.exec(formula)?.[0] ?? formula.slice(at);
  return { text, length: text.length };
}
