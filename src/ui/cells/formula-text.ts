/** A formula as a person reads it: headings for addresses, tied by letters to where they are told in the margin. */
import { type At, type Corner, cellAt, cellText, textOf } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, columnHeading, named, rowHeading } from '../../book/look-up.ts';
import type { Address } from '../../engine/types.ts';
import { wordsOf } from './words.ts';

export type Piece = { readonly text: string } | { readonly label: string; readonly address: Address; readonly letter?: string };

/** Each letter has its own kind of line under the reference and round the cell; after four they begin again. */
export const lineAt = (letter: string): string => `line-${'abcd'[(letter.charCodeAt(letter.length - 1) - 97) % 4]}`;

/** "Mount height" from within its own scenario; "Mount height, A" from another; "Area, Brief" from another table. */
export function headingFrom(at: At, home: At | undefined): string {
  const row = rowHeading(at);
  if (home && at.table.id === home.table.id) return at.column.id === home.column.id || at.table.columns.length === 1 ? row : `${row}, ${columnHeading(at)}`;
  return at.table.columns.length > 1 && at.table.form !== 'brief' ? `${row}, ${columnHeading(at) || at.table.name}` : row;
}

export function piecesOf(formula: string, book: Book, home: At, letters: ReadonlyMap<Address, string>): readonly Piece[] {
  const pieces: Piece[] = [];
  let plain = '';
  const put = (piece: Piece): void => {
    if (plain !== '') pieces.push({ text: plain });
    plain = '';
    pieces.push(piece);
  };
  const cell = (at: At): void => {
    const letter = letters.get(addressOf(at));
    put({ label: headingFrom(at, home), address: addressOf(at), ...(letter === undefined ? {} : { letter }) });
  };
  let before = '';
  for (const { kind, text, reference } of wordsOf(formula)) {
    if (reference) {
      const table = reference.table ?? home.table.name;
      const first = cellAt(book, textOf(table, reference.from.column, reference.from.row));
      if (!first) put({ text });
      else if (reference.range) put({ label: `${table} ${corner(reference.from)} to ${corner(reference.to)}`, address: addressOf(first) });
      else cell(first);
    } else if (kind === 'name') {
      const target = named(book, text);
      const at = target === undefined ? undefined : cellAt(book, target);
      if (at) cell(at);
      else plain += text;
    } else if (kind !== 'space' || !SPACED.has(before)) plain += SPACED.get(text) ?? text;
    before = text;
  }
  if (plain !== '') pieces.push({ text: plain });
  return pieces;
}

/** Signs with room round them, whether or not it was typed. */
const SPACED: ReadonlyMap<string, string> = new Map([
  ['*', ' × '],
  ['/', ' ÷ '],
  [',', ', '],
]);

const corner = ({ column, row }: Corner): string => cellText(column, row);
