/** What could stand where the caret is: cells by their headings and names, functions, tables, units. */
import { type At, cellText, placeIn, tableNamed, tablePrefix } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { baseColumn, placeOf } from '../../book/look-up.ts';
import type { FunctionCard } from '../../engine/types.ts';
import { standingAt, type Word, wordsAt } from '../cells/index.ts';
import { headingOf } from './letters.ts';

export interface Candidate {
  readonly label: string;
  /** What is put in its place. */
  readonly insert: string;
  /** What it is, at the right of the list: an address, what a function gives, a kind of quantity. */
  readonly detail: string;
}

export interface Completing {
  /** What is replaced. */
  readonly from: number;
  readonly to: number;
  readonly list: readonly Candidate[];
}

/** What there is to complete with. */
export interface Stock {
  readonly book: Book;
  readonly home: At;
  /** Of our own functions, what their records say. */
  readonly cards: ReadonlyMap<string, FunctionCard>;
  /** Every function's arguments, as a signature says them. */
  readonly signatures: ReadonlyMap<string, string>;
  /** Units by symbol, with the kind of quantity that each is for. */
  readonly units: readonly (readonly [symbol: string, quantity: string])[];
}

const MOST = 12;
/** Rows that are looked through for a heading. */
const MOST_ROWS = 20_000;
/** Functions whose second argument is a unit in quotes. */
const TAKES_UNIT = /^(?:UNIT|NUMBER\.IN|SHOW|CONVERT)$/;

const BEFORE_VALUE: ReadonlySet<Word['kind']> = new Set(['open', 'comma', 'sign']);

/** `asked`: the list was called for, and need not wait for a first letter. */
export function completing(formula: string, words: readonly Word[], caret: number, stock: Stock, asked = false): Completing | undefined {
  const { word, before } = wordsAt(words, caret);
  if (word && word.to > caret && word.kind !== 'text' && word.kind !== 'open text') return undefined;
  const found =
    word?.kind === 'text' || word?.kind === 'open text' ? inText(words, word, caret, stock) : elsewhere(formula, words, word, before, caret, stock, asked);
  if (!found || found.list.length === 0) return undefined;
  // What stands there already needs no list.
  const [only] = found.list;
  return found.list.length === 1 && only?.insert === formula.slice(found.from, found.to) ? undefined : found;
}

/** In the quotes of `UNIT(6,"…")`: a unit. */
function inText(words: readonly Word[], word: Word, caret: number, stock: Stock): Completing | undefined {
  const standing = standingAt(words, word.from + 1);
  if (!standing || standing.argument === 0 || !TAKES_UNIT.test(standing.name)) return undefined;
  const isClosed = word.kind === 'text';
  if (isClosed && caret === word.to) return undefined;
  const typed = word.text.slice(1, caret - word.from);
  const list = unitsFor(typed, stock).map((unit) => ({ ...unit, insert: `${unit.insert}"` }));
  return { from: word.from + 1, to: word.to, list };
}

function elsewhere(
  formula: string,
  words: readonly Word[],
  word: Word | undefined,
  before: Word | undefined,
  caret: number,
  stock: Stock,
  asked: boolean,
): Completing | undefined {
  const unit = /(?:^|[^\w.$!\p{L}])(?:\d+\.?\d*|\.\d+) ?([\p{L}°%/][^\s\d"'(){},;&=<>+*^-]*)$/u.exec(formula.slice(0, caret))?.[1];
  if (unit !== undefined && word?.kind !== 'reference') return { from: caret - unit.length, to: caret, list: unitsFor(unit, stock) };
  if (word?.kind === 'table') {
    const table = tableNamed(stock.book, word.text.slice(0, -1).replace(/^'|'$/g, '').replaceAll("''", "'"));
    return table && { from: word.from, to: caret, list: cellsOf(table, '', stock) };
  }
  const ofTable = word?.kind === 'name' ? inTable(word, caret, stock) : undefined;
  if (ofTable) return ofTable;
  const typed = word && (word.kind === 'name' || word.kind === 'call' || (word.kind === 'reference' && word.reference?.table === undefined)) ? word : undefined;
  if (!typed) return asked && word?.kind !== 'number' && word?.kind !== 'unit' ? { from: caret, to: caret, list: named('', stock) } : undefined;
  // A heading may be of several words: the longest that finds something counts.
  const phrase = /[\p{L}_][\p{L}\d_.]*(?: [\p{L}\d_.]+)*$/u.exec(formula.slice(0, caret))?.[0] ?? typed.text;
  for (let rest = phrase; rest.length > typed.text.length; rest = rest.slice(rest.indexOf(' ') + 1)) {
    const list = [...cells(rest, stock), ...tables(rest, stock)];
    if (list.length > 0) return { from: caret - rest.length, to: caret, list };
  }
  // A name right after a value belongs to nothing that could be completed.
  const opening = words.filter((each) => each.to <= typed.from && each.kind !== 'space').at(-1)?.kind;
  if (opening !== undefined && !BEFORE_VALUE.has(opening)) return undefined;
  const bracket = formula[caret] === '(' || before?.kind === 'call' ? '' : '(';
  return { from: typed.from, to: caret, list: named(typed.text, stock, bracket) };
}

/** `Scenarios.` and the first letters of a heading: cells of that table. */
function inTable(word: Word, caret: number, stock: Stock): Completing | undefined {
  const point = word.text.indexOf('.');
  const table = point < 0 ? undefined : tableNamed(stock.book, word.text.slice(0, point));
  const list = table ? cellsOf(table, word.text.slice(point + 1), stock) : [];
  return list.length === 0 ? undefined : { from: word.from, to: caret, list };
}

function named(typed: string, stock: Stock, bracket = '('): readonly Candidate[] {
  return [...inOrder([...names(typed, stock), ...cells(typed, stock)], typed), ...functions(typed, stock, bracket), ...tables(typed, stock)].slice(0, MOST);
}

/** What begins with what was typed comes before what has it further on. */
function inOrder(list: readonly Candidate[], typed: string): readonly Candidate[] {
  const wanted = typed.toLowerCase();
  const begins = ({ label }: Candidate): number => (label.toLowerCase().startsWith(wanted) ? 0 : 1);
  return list.toSorted((a, b) => begins(a) - begins(b));
}

const tables = (typed: string, { book }: Stock): readonly Candidate[] =>
  book.tables
    .filter((table) => typed !== '' && matches(table.name, typed))
    .map((table) => ({ label: table.name, insert: tablePrefix(table.name), detail: 'table' }));

/** From the beginning of the text, or of one of its words. */
function matches(text: string, typed: string): boolean {
  const [inside, wanted] = [text.toLowerCase(), typed.toLowerCase()];
  return inside.startsWith(wanted) || inside.includes(` ${wanted}`) || inside.includes(`.${wanted}`) || inside.includes(`_${wanted}`);
}

function names(typed: string, { book, home }: Stock): readonly Candidate[] {
  return Object.keys(book.names)
    .filter((name) => matches(name, typed))
    .slice(0, MOST)
    .map((name) => {
      const at = placeOf(book, name);
      return { label: name, insert: name, detail: at ? headingOf(at, home) : 'cells' };
    });
}

/** Cells whose heading says it: those of the own column first, then of the column that the others are compared with. */
function cells(typed: string, stock: Stock): readonly Candidate[] {
  const { book, home } = stock;
  if (typed === '') return [];
  const tables = [home.table, ...book.tables.filter((table) => table.id !== home.table.id)];
  return inOrder(
    tables.flatMap((table) => cellsOf(table, typed, stock)),
    typed,
  ).slice(0, MOST);
}

function cellsOf(table: Table, typed: string, { home }: Stock): readonly Candidate[] {
  const found: Candidate[] = [];
  const own = table.id === home.table.id;
  const first = own || table.form === home.table.form ? Math.min(home.columnIndex, table.columns.length - 1) : baseColumn(table);
  const columns = [first, ...table.columns.map((_, column) => column).filter((column) => column !== first)];
  for (const [row, { label, head }] of table.rows.slice(0, MOST_ROWS).entries()) {
    if (found.length >= MOST) break;
    if (head || label === undefined || !matches(label, typed)) continue;
    for (const column of table.form === 'scenarios' ? columns : columns.slice(0, 1)) {
      const at = placeIn(table, column, row);
      if (!at || (own && at.rowIndex === home.rowIndex && at.columnIndex === home.columnIndex)) continue;
      const address = `${own ? '' : tablePrefix(table.name)}${cellText(column, row)}`;
      found.push({ label: headingOf(at, home), insert: address, detail: address });
    }
  }
  return found;
}

function functions(typed: string, { cards, signatures }: Stock, bracket: string): readonly Candidate[] {
  const found = [...signatures].filter(([name]) => typed !== '' && matches(name, typed));
  const starts = (name: string): number => (name.toLowerCase().startsWith(typed.toLowerCase()) ? 0 : 1);
  return found
    .sort(([a], [b]) => starts(a) - starts(b) || a.localeCompare(b))
    .slice(0, MOST)
    .map(([name, takes]) => ({ label: `${name}(${takes})`, insert: `${name}${bracket}`, detail: cards.get(name)?.summary ?? '' }));
}

function unitsFor(typed: string, { units }: Stock): readonly Candidate[] {
  // `u` stands for µ, and plain digits for raised ones, as they do when a formula is read.
  const plain = (text: string): string => text.replaceAll('µ', 'u').replaceAll('²', '2').replaceAll('³', '3');
  const wanted = plain(typed);
  const whole = units.filter(([symbol]) => plain(symbol).startsWith(wanted));
  const small = units.filter(([symbol]) => !plain(symbol).startsWith(wanted) && plain(symbol).toLowerCase().startsWith(wanted.toLowerCase()));
  return [...whole, ...small].slice(0, MOST).map(([symbol, quantity]) => ({ label: symbol, insert: symbol, detail: quantity }));
}
