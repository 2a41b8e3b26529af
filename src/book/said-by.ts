/**
 * Who said so, and what is left to ask.
 *
 * The source of a given begins with one of four words: the client, a measurement, a default, or us; what follows is how or where. The brief's
 * rows say whom to ask; once somebody has said something, the cell says it itself.
 */
import { type At, placeIn } from './address.ts';
import type { Book, Page, Table } from './book.ts';
import { sourceOf, standingOf, tableOfBlock } from './look-up.ts';

export const TELLERS = ['client', 'measured', 'default', 'ours'] as const;
export type Teller = (typeof TELLERS)[number];

export interface Said {
  readonly teller: Teller;
  /** A default that somebody has agreed to. */
  readonly agreed: boolean;
  /** How or where: "by telephone". */
  readonly how: string;
}

const SOURCE = /^(client|measured|default|ours)\b(, agreed\b)?[,:]?\s*(.*)$/isu;

/** Undefined where the source is something else, such as a book or a data sheet. */
export function saidBy(source: string | undefined): Said | undefined {
  const found = SOURCE.exec(source?.trim() ?? '');
  const teller = TELLERS.find((word) => word === found?.[1]?.toLowerCase());
  return teller && { teller, agreed: found?.[2] !== undefined, how: found?.[3] ?? '' };
}

/** The source that says it: `client, by telephone`; a default is said by somebody only when it is agreed to. */
export function sourceText(teller: Teller, how: string): string {
  const start = teller === 'default' ? 'default, agreed' : teller;
  return how.trim() === '' ? start : `${start}, ${how.trim()}`;
}

/**
 * What is asked on a page that has a brief: what only the client can say; what stands on other pages and says that the client is to be asked, such as the
 * breaker; the brief's other givens, and those of the plain tables beside it. On other pages nothing is asked.
 */
export function questionsOn(book: Book, page: Page): readonly At[] {
  const tables = tablesOn(book, page);
  if (!tables.some((table) => table.form === 'brief')) return [];
  const here = tables.filter((table) => table.form === 'brief' || table.form === 'plain');
  const asked = here.flatMap(givensOf);
  const ofClient = ({ table, row }: At): boolean => table.form === 'brief' && saidBy(row.source)?.teller === 'client';
  const elsewhere = book.tables
    .filter((table) => table.form === 'plain' && !here.includes(table) && table.rows.some(({ source }) => saysAsk(source)))
    .flatMap((table) => givensOf(table).filter(({ row }) => saysAsk(row.source)));
  return [...asked.filter(ofClient), ...elsewhere, ...asked.filter((at) => !ofClient(at))];
}

/** By its row, which stays the same when somebody has answered. */
const saysAsk = (source: string | undefined): boolean => saidBy(source)?.teller === 'default' && /\bask the client\b/u.test(source ?? '');

const tablesOn = (book: Book, page: Page): readonly Table[] =>
  page.blocks.flatMap((block) => (block.kind === 'table' ? (tableOfBlock(book, block.table) ?? []) : []));

/** Givens, also those that are answered with a formula. */
const givensOf = (table: Table): At[] => table.rows.flatMap((_, row) => givensIn(table, row));

const givensIn = (table: Table, row: number): At[] =>
  table.columns.flatMap((_, column) => {
    const at = placeIn(table, column, row);
    const asked = at && (['given', 'as'].includes(standingOf(at)) || (at.cell?.kind ?? at.row.kind ?? at.column.kind) === 'given');
    return at && asked && !at.row.head ? [at] : [];
  });

const isBlank = (at: At): boolean => (at.cell?.content ?? '') === '';

/** A question is left while it has no answer, or stands at a default that nobody has agreed to: somebody else's habit is no answer. */
export function isLeft(at: At): boolean {
  const said = saidBy(sourceOf(at));
  return isBlank(at) || (said?.teller === 'default' && !said.agreed);
}

/** What a question that is left is, in words. */
export const LEFT = 'no answer yet, or a default that nobody has agreed to';

/** Stands beside what the template puts forward in place of a client's answer. */
export const TO_ASK = 'default: to begin with, ask the client';

/** What only the client can say, and has not said: a default that can be agreed to is none of it. */
export const lackingIn = (book: Book): readonly At[] => book.pages.flatMap((page) => questionsOn(book, page)).filter(isLacking);

const isLacking = (at: At): boolean => at.table.form === 'brief' && (mustBeAsked(at) || (isBlank(at) && saidBy(at.row.source)?.teller === 'client'));

/** Nobody's answer stands there yet, and it can't be agreed to: the client must be asked. In older books it is said to be the example's. */
export const mustBeAsked = (at: At): boolean => /^(to begin with|as in the example|ask the client)/.test(saidBy(sourceOf(at))?.how ?? '');

interface Count {
  all: number;
  left: number;
}

interface Counted extends Count {
  readonly columns: Table['columns'];
  readonly lines: (Table['cells'][string] | undefined)[];
  readonly counts: Count[];
}

/**
 * By a table's rows, which stay the same while cells are written: a change makes new cells of the rows that it touches only, and only those are
 * counted again.
 */
const counted = new WeakMap<Table['rows'], Counted>();

function countTable(table: Table): Count {
  const known = counted.get(table.rows);
  const made: Counted = known?.columns === table.columns ? known : { all: 0, left: 0, columns: table.columns, lines: [], counts: [] };
  counted.set(table.rows, made);
  for (let r = 0; r < table.rows.length; r++) {
    const line = table.cells[table.rows[r]?.id ?? ''];
    const before = made.counts[r];
    if (before && made.lines[r] === line) continue;
    const givens = givensIn(table, r);
    const now = { all: givens.length, left: givens.filter(isBlank).length };
    made.all += now.all - (before?.all ?? 0);
    made.left += now.left - (before?.left ?? 0);
    made.lines[r] = line;
    made.counts[r] = now;
  }
  return made;
}

/** How many givens of a page there are and how many are left. Where nothing is asked, only those without an answer are. */
export function countLeft(book: Book, page: Page): { readonly all: number; readonly left: number } {
  const asked = questionsOn(book, page);
  if (asked.length > 0) return { all: asked.length, left: asked.filter(isLeft).length };
  let [all, left] = [0, 0];
  for (const table of tablesOn(book, page)) {
    const found = countTable(table);
    all += found.all;
    left += found.left;
  }
  return { all, left };
}

/**
 * Who is taken to have said what is typed into a given: the client, where until now it stood at a default of the brief, at one that says to ask the
 * client, or at another client's answer; the dates of the plan are ours. Whoever writes the very value that stands there has answered too.
 */
export const tellerOfTyped = (at: At, content: string): string | undefined => (content === '' ? undefined : tellerOver(at));

/** Of an answer that is given anew, be it the same. */
export function tellerOver(at: At): string | undefined {
  const source = sourceOf(at);
  const asked = saidBy(source)?.teller === 'default' && (at.table.form === 'brief' || mustBeAsked(at) || saysAsk(source));
  if (!asked) return undefined;
  return source === OLD_DATE ? 'ours' : 'client';
}

/** Of a date of the plan, in books that were begun with the template's. */
const OLD_DATE = 'default: as in the example, set it anew';
