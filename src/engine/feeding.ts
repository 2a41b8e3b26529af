/** What the calculator is given for each cell of a book, and what is not given to it, with the reason. */
import { type Content, readContent } from '../../functions/quantity-text.ts';
import type { At } from '../book/address.ts';
import { type Limits, notAllowed, resultLimits } from '../book/allowed.ts';
import type { Book, Cell, Column, Row } from '../book/book.ts';
import type { Edit } from '../book/change.ts';
import { rangeOf } from '../book/look-up.ts';
import { keyOf, type Position } from './addresses.ts';
import { CellMap } from './cell-map.ts';
import { type Fault, OUT_OF_RANGE, TOO_LARGE } from './errors.ts';
import { FORMULA_BOUNDS } from './formula-bounds.ts';
import type { Fed } from './hyper-fill.ts';
import { tooMuchText } from './objections.ts';
import { STATE } from './register.ts';
import type { Sheets } from './sheets.ts';

const BLANK: Content = { kind: 'blank' };

/** A cell that the calculator has no room for. */
export const beyond = (at: Position): boolean => at.row >= FORMULA_BOUNDS.rows || at.col >= FORMULA_BOUNDS.columns;

/** What feeding asks of the workbook. */
interface Held {
  readonly sheets: Sheets;
  readonly currency: string;
  readonly life: { readonly beat?: () => void };
  /** Why a formula can't stand in a cell. */
  objection(formula: string, at: Position): Fault | undefined;
}

export class Feeding {
  readonly #book: Held;
  readonly #contents = new CellMap<Content>();
  readonly #faults = new Map<number, Fault>();
  /** Givens whose allowed values stand in cells: looked at again after every change. */
  readonly #listed = new Map<number, Position>();
  /** Givens that a formula answers, with the limits of what it may give. */
  readonly #limited = new Map<number, { readonly place: At; readonly limits: Limits }>();
  #formulas = 0;

  constructor(book: Held) {
    this.#book = book;
  }

  forget(): void {
    this.#contents.clear();
    this.#faults.clear();
    this.#listed.clear();
    this.#limited.clear();
    this.#formulas = 0;
  }

  /** Notes what a cell holds and gives what the calculator is to hold for it. */
  take(at: Position, cell: Cell | undefined): Fed {
    const { sheets, currency, life } = this.#book;
    life.beat?.();
    const key = keyOf(at);
    this.#faults.delete(key);
    this.#listed.delete(key);
    this.#limited.delete(key);
    if (this.#contents.get(at)?.kind === 'formula') this.#formulas--;
    this.#contents.delete(at);
    if (!cell) return null;
    const content = beyond(at) ? BLANK : readContent(cell.content, currency);
    this.#contents.set(at, content);
    if (content.kind === 'formula') this.#formulas++;
    const place = sheets.inBook(at);
    if (place && content.kind !== 'formula' && rangeOf(place)?.from) this.#listed.set(key, at);
    const limits = place && content.kind === 'formula' && sheets.book ? resultLimits(sheets.book, place) : undefined;
    if (place && limits) this.#limited.set(key, { place, limits });
    const fault = this.#noRoom(at) ?? this.#objectionTo(content, at) ?? this.outOfRange(at, cell.content);
    if (fault) this.#faults.set(key, fault);
    if (fault || content.kind === 'blank') return `=${STATE}()`;
    if (content.kind === 'number') return content.base;
    if (content.kind === 'yes or no') return content.yes;
    // An apostrophe keeps the calculator from reading a number, a date or a formula into a text.
    return content.kind === 'text' ? `'${content.text}` : content.formula;
  }

  #noRoom(at: Position): Fault | undefined {
    const say = (what: string): Fault => ({ word: TOO_LARGE, message: `${what} What is beyond is kept in the book but not worked out.` });
    const count = (n: number): string => n.toLocaleString('en-GB');
    if (beyond(at)) return say(`A table has at most ${count(FORMULA_BOUNDS.rows)} rows and ${FORMULA_BOUNDS.columns} columns.`);
    if (this.#contents.size > FORMULA_BOUNDS.filledCells) return say(`A book has at most ${count(FORMULA_BOUNDS.filledCells)} filled cells.`);
    return this.#formulas > FORMULA_BOUNDS.formulas ? say(`A book has at most ${count(FORMULA_BOUNDS.formulas)} formulas.`) : undefined;
  }

  #objectionTo(content: Content, at: Position): Fault | undefined {
    if (content.kind === 'text') return tooMuchText(content.text);
    return content.kind === 'formula' ? this.#book.objection(content.formula, at) : undefined;
  }

  /** Whether a stored content may stand in a given: a sentence where it may not. */
  outOfRange(at: Position, content: string): Fault | undefined {
    const { sheets } = this.#book;
    const place = sheets.inBook(at);
    const message = sheets.book && place && notAllowed(sheets.book, place, content);
    return message === undefined ? undefined : { word: OUT_OF_RANGE, message };
  }

  content(at: Position): Content {
    return this.#contents.get(at) ?? BLANK;
  }

  has(at: Position): boolean {
    return this.#contents.has(at);
  }

  fault(at: Position): Fault | undefined {
    return this.#faults.get(keyOf(at));
  }

  limits(at: Position): { readonly place: At; readonly limits: Limits } | undefined {
    return this.#limited.get(keyOf(at));
  }

  /** Givens that must be one of what stands in cells. */
  listed(): Iterable<Position> {
    return this.#listed.values();
  }

  /** Every cell that holds something or waits for an answer. */
  all(): Iterable<readonly [Position, Content]> {
    return this.#contents;
  }

  /** The cells that edits touch by themselves, in a book that has them. */
  touchedBy(edits: readonly Edit[]): Map<number, Position> {
    const { sheets } = this.#book;
    const touched = new Map<number, Position>();
    for (const edit of edits) for (const at of ownOf(sheets, edit)) touched.set(keyOf(at), at);
    for (const [key, at] of this.#listed)
      if (this.#faults.get(key)?.message !== this.outOfRange(at, sheets.cell(at)?.content ?? '')?.message) touched.set(key, at);
    return touched;
  }
}

function ownOf(sheets: Sheets, edit: Edit): readonly Position[] {
  if (edit.at === 'cell') {
    const at = sheets.position(edit.table, edit.row, edit.column);
    return at ? [at, ...wantedBeside(sheets, at, edit)] : [];
  }
  if ((edit.at !== 'row' && edit.at !== 'column') || !matters(edit.before, edit.after)) return [];
  const sheet = sheets.tables.findIndex((table) => table.id === edit.table);
  const table = sheets.tables[sheet];
  const length = (edit.at === 'row' ? table?.columns.length : table?.rows.length) ?? 0;
  // Blank cells too: what is blank still has the unit of its row.
  return Array.from({ length }, (_, i) => (edit.at === 'row' ? { sheet, row: edit.index, col: i } : { sheet, row: i, col: edit.index }));
}

/** A row of a list that begins to be filled, or is emptied, wants its needed cells or no longer does. */
function wantedBeside(sheets: Sheets, at: Position, { before, after }: Edit & { at: 'cell' }): readonly Position[] {
  const table = sheets.tables[at.sheet];
  if (at.col !== 0 || table?.form !== 'list' || ((before?.content ?? '') === '') === ((after?.content ?? '') === '')) return [];
  return table.columns.flatMap((column, col) => (column.needed ? [{ ...at, col }] : []));
}

const needed = (line: Row | Column | null): boolean => line !== null && 'needed' in line && line.needed === true;

/** Whether a row or column says something else of its cells than before: their unit, their kind, their heading, what they may hold. */
function matters(before: Row | Column | null, after: Row | Column | null): boolean {
  if (before?.kind !== after?.kind || needed(before) !== needed(after)) return true;
  return before?.unit !== after?.unit || before?.label !== after?.label || JSON.stringify(before?.range) !== JSON.stringify(after?.range);
}

/** Every cell of a book as the rows that the calculator takes in, a table each. */
export function fedTables(feeding: Feeding, sheets: Sheets, book: Book): Fed[][][] {
  const tables: Fed[][][] = book.tables.map(() => []);
  for (const [at, cell] of sheets.filled()) {
    const fed = feeding.take(at, cell);
    const table = tables[at.sheet];
    if (!table || beyond(at)) continue;
    while (table.length <= at.row) table.push([]);
    const line = table[at.row];
    if (!line) continue;
    while (line.length <= at.col) line.push(null);
    line[at.col] = fed;
  }
  return tables;
}
