/** Puts a block of text, tabs between columns and line breaks between rows, into cells from a chosen one on: all of it or nothing. */
import { type At, placeIn } from '../book/address.ts';
import { apply } from '../book/apply.ts';
import type { Book } from '../book/book.ts';
import type { Change } from '../book/change.ts';
import { setCell } from '../book/commands/set-cell.ts';
import { isFormula } from '../book/content.ts';
import { addressOf, standingOf, titleOf } from '../book/look-up.ts';
import { type Answer, isRefused, type Refused, refused } from '../book/refused.ts';
import { squash } from '../book/squash.ts';
import type { Reading } from '../engine/types.ts';
import type { Session } from '../session.ts';

interface Piece {
  readonly at: At;
  readonly typed: string;
}

export async function pasteCells(session: Session, from: At, text: string): Promise<Answer> {
  const { book } = session;
  const pieces = placed(from, text);
  if (isRefused(pieces)) return pieces;
  const readings = await session.ask(async (engine) => {
    const read: Reading[] = [];
    for (const { at, typed } of pieces) read.push(await engine.read(addressOf(at), typed));
    return read;
  });
  if (session.book !== book) return refused('The book changed while that was read. Paste it again.');
  return session.run(() => pasted(book, pieces, readings));
}

/** Each text with its cell. What is left empty in the block leaves its cell alone. */
function placed(from: At, text: string): readonly Piece[] | Refused {
  const lines = text
    .replace(/\r\n?/g, '\n')
    .replace(/\n+$/, '')
    .split('\n')
    .map((line) => line.split('\t'));
  const wide = Math.max(...lines.map((line) => line.length));
  const { rows, columns } = from.table;
  if (from.rowIndex + lines.length > rows.length || from.columnIndex + wide > columns.length)
    return refused(
      `${lines.length} × ${wide} cells do not fit into ${from.table.name} from ${titleOf(from)} on: ${rows.length - from.rowIndex} × ${columns.length - from.columnIndex} are left there.`,
    );
  const pieces: Piece[] = [];
  for (const [r, line] of lines.entries()) {
    for (const [c, written] of line.entries()) {
      const at = placeIn(from.table, from.columnIndex + c, from.rowIndex + r);
      const typed = written.trim();
      if (!at || typed === '') continue;
      // One formula may be written over on purpose; a block that covers some does so by mistake.
      if (isFormula(at.cell?.content ?? '') && standingOf(at) !== 'as') return refused(`${titleOf(at)} is worked out: a block is not pasted over it.`);
      pieces.push({ at, typed });
    }
  }
  return pieces.length > 0 ? pieces : refused('There is nothing in that to paste.');
}

function pasted(book: Book, pieces: readonly Piece[], readings: readonly Reading[]): Answer {
  const [first] = pieces;
  const label = `${pieces.length} cells pasted${first ? ` from ${titleOf(first.at)} on` : ''}`;
  let change: Change = { label, edits: [] };
  let now = book;
  for (const [i, { at }] of pieces.entries()) {
    const read = readings[i];
    if (!read?.ok) return refused(`${titleOf(at)}: ${read?.message ?? 'not read.'} Nothing was pasted.`);
    const { content, typed, unit } = read;
    const one = setCell(now, { address: addressOf(at), content, ...(typed === undefined ? {} : { typed }), ...(unit === undefined ? {} : { unit }) });
    if (isRefused(one)) return refused(`${one.message} Nothing was pasted.`);
    now = apply(now, one);
    change = squash(change, one, label);
  }
  return change;
}
