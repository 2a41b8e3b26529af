/** A formula as a person reads it: headings for addresses, tied by letters to where they are told in the margin. */
import { type At, cellAt, REFERENCE, referenceOf, referenceText, tableNamed, textOf } from '../book/address.ts';
import type { Book } from '../book/book.ts';
import { addressOf, columnHeading, named, rowHeading } from '../book/look-up.ts';
import type { Address } from '../engine/types.ts';

export type Piece = { readonly text: string } | { readonly label: string; readonly address: Address; readonly letter?: string };

export const letterAt = (i: number): string =>
  i < 26 ? String.fromCharCode(97 + i) : `${String.fromCharCode(96 + Math.floor(i / 26))}${String.fromCharCode(97 + (i % 26))}`;

/** Each letter has its own kind of line under the reference and round the cell; after four they begin again. */
export const lineAt = (letter: string): string => `line-${'abcd'[(letter.charCodeAt(letter.length - 1) - 97) % 4]}`;

/** "Mount height" from within its own scenario; "Mount height, A" from another; "Area, Brief" from another table. */
export function headingFrom(at: At, home: At | undefined): string {
  const row = rowHeading(at);
  if (home && at.table.id === home.table.id) return at.column.id === home.column.id || at.table.columns.length === 1 ? row : `${row}, ${columnHeading(at)}`;
  return at.table.columns.length > 1 && at.table.form !== 'brief' ? `${row}, ${columnHeading(at) || at.table.name}` : row;
}

const NAME = /[A-Za-z_\u00C0-\u02AF][\w.\u00C0-\u02AF]*/uy;
const STRING = /"(?:[^"]|"")*"/y;

export function piecesOf(formula: string, book: Book, home: At, letters: ReadonlyMap<Address, string>): readonly Piece[] {
  const pieces: Piece[] = [];
  let plain = '';
  const flush = () => {
    if (plain !== '') pieces.push({ text: plain });
    plain = '';
  };
  const take = (pattern: RegExp, at: number): RegExpExecArray | null => {
    pattern.lastIndex = at;
    return pattern.exec(formula);
  };
  const cell = (at: At) => {
    flush();
    const letter = letters.get(addressOf(at));
    pieces.push({ label: headingFrom(at, home), address: addressOf(at), ...(letter === undefined ? {} : { letter }) });
  };
  for (let i = 0; i < formula.length; ) {
    const string = take(STRING, i);
    const match = string ? null : take(REFERENCE, i);
    const reference = match && referenceOf(match);
    const name = string || reference ? null : take(NAME, i);
    if (string) plain += string[0];
    else if (match && reference) {
      const table = reference.table ?? home.table.name;
      const at = reference.range ? undefined : cellAt(book, textOf(table, reference.from.column, reference.from.row));
      if (at) cell(at);
      else {
        const first = tableNamed(book, table) && cellAt(book, textOf(table, reference.from.column, reference.from.row));
        flush();
        pieces.push(first ? { label: `${table} ${columnSpan(referenceText(reference))}`, address: addressOf(first) } : { text: match[0] });
      }
    } else if (name) {
      const target = named(book, name[0]);
      const at = target === undefined ? undefined : cellAt(book, target);
      if (at) cell(at);
      else plain += name[0];
    } else {
      const sign = formula[i] ?? '';
      plain += sign === '*' ? ' × ' : sign === '/' ? ' ÷ ' : sign === ',' ? ', ' : sign;
      i++;
      if (sign === ',' || sign === '*' || sign === '/') while (formula[i] === ' ') i++;
      continue;
    }
    i += (string ?? match ?? name)?.[0].length ?? 1;
  }
  flush();
  return pieces;
}

const columnSpan = (text: string): string => text.replace(/^.*!/, '').replaceAll('$', '').replace(':', ' to ');
