/**
 * Begins a client's book from a template. A template is a worked example: what its invented client said, wrote down or read off a meter, where it hangs,
 * and the dates are nobody's word for the new client. What the brief asks stands at the template's numbers until it is answered, so that there is something
 * to reckon with; the rest is left blank.
 */
import { type At, placeIn } from './address.ts';
import { apply } from './apply.ts';
import type { Book, Cell } from './book.ts';
import { type SetHabits, setHabits } from './commands/set-habits.ts';
import { sourceOf } from './look-up.ts';
import { isRefused, type Refused } from './refused.ts';
import { withRoundLengths } from './round-lengths.ts';
import { mustBeAsked, saidBy, TO_ASK } from './said-by.ts';

export interface Begin {
  readonly title?: string;
  readonly client: string;
  /** Year, month, day. Left out, the dates of the plan are left to be set. */
  readonly date?: string;
  readonly habits?: SetHabits;
}

/** Refused where a habit is. */
export function begin(template: Book, { title, client, date, habits }: Begin): Book | Refused {
  const tables = template.tables.map((table) => {
    const cells: Record<string, Record<string, Cell>> = { ...table.cells };
    for (const at of table.rows.flatMap((_, r) => table.columns.flatMap((__, c) => placeIn(table, c, r) ?? []))) {
      const cell = at.cell ?? { content: '' };
      const begun = table.form === 'list' ? inList(at, cell) : asGiven(at, cell, date);
      if (begun !== cell) cells[at.row.id] = { ...cells[at.row.id], [at.column.id]: begun };
    }
    return { ...table, cells };
  });
  const book: Book = { ...template, tables, client, title: title ?? template.title };
  const change = setHabits(book, habits ?? {});
  if (isRefused(change)) return change;
  const begun = apply(book, change);
  return begun.measures === 'US customary' ? withRoundLengths(begun) : begun;
}

function asGiven(at: At, cell: Cell, date: string | undefined): Cell {
  const source = sourceOf(at);
  const said = saidBy(source);
  if (said?.teller === 'client' || said?.teller === 'measured') return { ...(at.row.holds === 'text' ? blank(cell) : cell), source: TO_ASK };
  if (said?.teller === 'default' && (said.how === 'ask the client' || (at.row.holds === 'text' && mustBeAsked(at)))) return blank(cell);
  if (said?.teller !== 'ours' || !DATE.test(cell.content)) return cell;
  const { typed: _, ...rest } = cell;
  return { ...rest, content: date === undefined ? '' : at.row.id === 'plan_until' ? monthsLater(date, MONTHS_HELD) : date };
}

function blank({ typed: _, ...cell }: Cell): Cell {
  return { ...cell, content: '' };
}

const DATE = /^\d{4}-\d\d-\d\d$/u;

/** A habit of ours: it is to be agreed. */
const MONTHS_HELD = 3;

/** The same day so many months on, or the last of that month where it has no such day. */
export function monthsLater(date: string, months: number): string {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  const [y, m] = [year + Math.floor((month - 1 + months) / 12), ((month - 1 + months) % 12) + 1];
  const last = new Date(Date.UTC(y, m, 0)).getUTCDate();
  return [String(y).padStart(4, '0'), ...[m, Math.min(day, last)].map((n) => String(n).padStart(2, '0'))].join('-');
}

/** A list says who said so in a column of its own: what another client read or wrote down there is gone, and its line is to be filled anew. */
function inList(at: At, cell: Cell): Cell {
  const { table, row, column } = at;
  const head = table.rows[0];
  const line = table.cells[row.id] ?? {};
  const source = head?.head === true && row !== head ? table.columns.find(({ id }) => table.cells[head.id]?.[id]?.content === 'Source') : undefined;
  if (!source || !['client', 'measured'].includes(saidBy(line[source.id]?.content)?.teller ?? '')) return cell;
  if (column === source) return { ...cell, content: TO_ASK };
  return column === table.columns[0] || cell.content === '' ? cell : blank(cell);
}
