/**
 * What goes out when cells are copied: their values as text with tabs, as an HTML table for other programs, and, in an attribute of that table, the
 * cells themselves with formulas, units and notes, for putting them down here again.
 */
import { plainText } from '../../../functions/number-text.ts';
import { type Area, carriedCell, placesOf } from '../../book/area.ts';
import type { Book, Cell } from '../../book/book.ts';
import { addressOf } from '../../book/look-up.ts';
import type { Value, Values } from '../../engine/types.ts';
import { escaped } from '../../escaped.ts';
import { guard } from '../../files/guard.ts';
import { textOfValue, valueAt } from '../cells/index.ts';

/** The attribute of the table; what is in it is read back by paste-cells.ts, as anybody's who can write HTML. */
export const OWN = 'data-overbench-cells';

export interface Carried {
  readonly book: string;
  readonly table: string;
  readonly row: number;
  readonly column: number;
  /** They leave their places where they are put down. */
  readonly cut?: true;
  readonly cells: readonly (readonly (Cell | null)[])[];
}

/** What went out last from here, and whether it was given up to move it. */
let last: Carried | undefined;
let givenUp = false;
/** What came of asking last: tables ask at every turn, and of a large block every cell is gone through. */
let known: { readonly book: Book; readonly from: Carried; readonly area: Area | undefined } | undefined;

/** What was cut last stays where it is, and pasted it is only a copy. False where nothing waits to be moved. */
export function giveUpCut(book: Book): boolean {
  const waits = cutFrom(book) !== undefined;
  givenUp ||= waits;
  return waits;
}

/** Where cells were cut that are moved when they are pasted: they still hold what they held. What was moved or written over since is only copied. */
export function cutFrom(book: Book, from = last): Area | undefined {
  if (!from?.cut || from.book !== book.id || givenUp) return undefined;
  if (known?.book === book && known.from === from) return known.area;
  const { table, row, column, cells } = from;
  const area = { table, row, column, rows: cells.length, columns: Math.max(...cells.map((line) => line.length)) };
  const lines = placesOf(book, area)?.lines;
  const same = lines?.every((line, r) => line.every((at, c) => (at.cell?.content ?? '') === (cells[r]?.[c]?.content ?? '')));
  known = { book, from, area: same ? area : undefined };
  return known.area;
}

export function copyOut(out: DataTransfer, book: Book, values: Values, area: Area, cut = false): void {
  const found = placesOf(book, area);
  if (!found) return;
  const texts = found.lines.map((line) => line.map((at) => textOut(valueAt(values, addressOf(at)))));
  const carried: Carried = {
    book: book.id,
    table: area.table,
    row: area.row,
    column: area.column,
    ...(cut && { cut }),
    cells: found.lines.map((line) => line.map(carriedCell)),
  };
  [last, givenUp] = [carried, false];
  out.setData('text/plain', texts.map((line) => line.map(quoted).join('\t')).join('\n'));
  const rows = texts.map((line) => `<tr>${line.map((text) => `<td>${escaped(text)}</td>`).join('')}</tr>`).join('');
  out.setData('text/html', `<table ${OWN}="${escaped(JSON.stringify(carried))}">${rows}</table>`);
}

/** In full, not as rounded on the page, and with its unit; a text that another program might run as a formula is guarded. */
function textOut(value: Value): string {
  if (value.kind === 'number') return `${plainText(value.base, value.unit)} ${value.unit === '1' ? '' : value.unit}`.trim();
  return guard(textOfValue(value));
}

const quoted = (text: string): string => (/[\t\r\n]|^"/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
