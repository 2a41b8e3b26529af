/** Puts down what was copied, from a chosen cell on: all of it or nothing. What reads otherwise than it looks is shown before it lands. */

import * as v from 'valibot';
import { counted } from '../../../functions/number-text.ts';
import { readContent } from '../../../functions/quantity-text.ts';
import { type At, cellAt, placeIn } from '../../book/address.ts';
import { apply } from '../../book/apply.ts';
import type { Area } from '../../book/area.ts';
import type { Book, Cell } from '../../book/book.ts';
import { BOUNDS } from '../../book/bounds.ts';
import type { Change } from '../../book/change.ts';
import { insertLines } from '../../book/commands/insert-lines.ts';
import { moveCells } from '../../book/commands/move-cells.ts';
import { putCells } from '../../book/commands/put-cells.ts';
import { setGrid } from '../../book/commands/set-grid.ts';
import { isFormula } from '../../book/content.ts';
import { lockedProblem } from '../../book/locked.ts';
import { addressOf, titleOf, unitOf } from '../../book/look-up.ts';
import { meterGrid } from '../../book/meter-grid.ts';
import { ownContent } from '../../book/other-writing.ts';
import { readPlain, unitInBook } from '../../book/read-plain.ts';
import { type Answer, isRefused, refused } from '../../book/refused.ts';
import { cellSchema } from '../../book/schema.ts';
import { squash } from '../../book/squash.ts';
import type { Session } from '../../session.ts';
import { type Carried, cutFrom, OWN } from './clipboard.ts';
import { type DecimalMark, decimalMarkOf, gridOf, withoutThousands } from './pasted-text.ts';

const MOST_LETTERS = 20_000_000;

const place = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(BOUNDS.rows));
const carried = v.strictObject({
  book: v.pipe(v.string(), v.maxLength(BOUNDS.title)),
  table: v.pipe(v.string(), v.maxLength(BOUNDS.title)),
  row: place,
  column: place,
  cut: v.optional(v.literal(true)),
  cells: v.pipe(v.array(v.pipe(v.array(v.nullable(cellSchema)), v.maxLength(BOUNDS.columns))), v.minLength(1), v.maxLength(BOUNDS.rows)),
});

/** The cells that a copy made here carries with it. It comes through the clipboard, so from anyone: what is not just so is none. */
export function readCarried(text: string): Carried | undefined {
  if (text.length > MOST_LETTERS) return undefined;
  try {
    const read = v.safeParse(carried, JSON.parse(text));
    if (!read.success) return undefined;
    const own = read.output as Carried;
    // Another tab may still be of a version that wrote places otherwise.
    return { ...own, cells: own.cells.map((line) => line.map((cell) => cell && { ...cell, content: ownContent(cell.content) })) };
  } catch {
    return undefined;
  }
}

export type Pasted =
  /** A single value, to be typed into the chosen cell. */
  | { readonly typed: string }
  | { readonly answer: Answer }
  /** To be looked at first: texts that read otherwise than they look, or a block that goes beyond the edge. */
  | { readonly ask: Ask };

export interface Ask {
  readonly target: Target;
  readonly grid?: readonly (readonly string[])[];
  readonly own?: Carried;
  /** It has another size than the places at which a meter reads. */
  readonly places?: Places;
}

/** Puts it down where the meter reads at as many places as it has, or at more. */
interface Places {
  /** With the places there. */
  readonly target: Target;
  readonly change: Change;
  /** `5 × 3` */
  readonly size: string;
  /** It has room as it is, too. */
  readonly fits: boolean;
}

/** What comes of a paste: done, refused, or to be looked at first. Changes nothing itself. */
export async function pasteInto(ask: Session['ask'], chosen: Target, { text, html }: { readonly text: string; readonly html: string }): Promise<Pasted> {
  const { own, grid } = takenApart(text, html);
  if (!own && (grid.length === 0 || grid.every((line) => line.every((each) => each === '')))) return { answer: refused('There is nothing in that to paste.') };
  const cells: readonly (readonly unknown[])[] = own?.cells ?? grid;
  const target = pastNames(chosen, own?.cells.map((line) => line.map((cell) => cell?.content ?? '')) ?? grid);
  const edge = beyond(target, cells);
  const places = placesFor(target, cells);
  if (edge.rows > 0 || edge.columns > 0 || places) return { ask: { target, grid, ...(own ? { own } : {}), ...(places ? { places } : {}) } };
  if (own) return { answer: putDown(target, own.cells, own, false) };
  const single = grid.length === 1 && grid[0]?.length === 1;
  if (single && !(target.area && target.area.rows * target.area.columns > 1)) return { typed: grid[0]?.[0] ?? '' };
  const read = await readGrid(ask, target, grid, decimalMarkOf(grid) ?? '.');
  if (read.flat().some((each) => each.said !== undefined || each.shown !== undefined || each.problem !== undefined)) return { ask: { target, grid } };
  return {
    answer: putDown(
      target,
      read.map((line) => line.map((each) => each.cell ?? null)),
      undefined,
      false,
    ),
  };
}

/** Numbers put down on the names of rows or on headings are meant for the first place that these name: what names a place is never lost to a number. */
function pastNames(target: Target, texts: readonly (readonly string[])[]): Target {
  const { book, at } = target;
  const { table, columnIndex, rowIndex } = at;
  const numbers = (some: readonly string[]): boolean => some.some((text) => text !== '') && some.every((text) => /^([-+−]?[.,]?\d[\d.,'\s]*)?$/u.test(text));
  if (table.form !== 'list' || texts.flat().length < 2) return target;
  const row = at.row.head && numbers(texts.flat()) ? table.rows.findIndex(({ head }) => !head) : rowIndex;
  const line = table.cells[table.rows[row]?.id ?? ''];
  const names = ({ id }: { readonly id: string }): boolean => readContent(line?.[id]?.content ?? '').kind === 'text';
  const first = columnIndex === 0 && numbers(texts.map(([text = '']) => text)) ? table.columns.findIndex((column) => !names(column)) : columnIndex;
  const to = row === rowIndex && first === columnIndex ? undefined : placeIn(table, first, row);
  return to ? { book, at: to, area: undefined } : target;
}

/** Whoever puts down a whole block of readings from the first place on read at so many places. */
function placesFor({ book, at, area }: Target, cells: readonly (readonly unknown[])[]): Places | undefined {
  const grid = meterGrid(book);
  const part = grid?.parts.find(({ table, reads }) => table === at.table && reads === 0);
  if (!grid || !part) return undefined;
  const [c, r] = [at.columnIndex - part.column, at.rowIndex - part.row];
  if (c < 0 || r < 0 || c >= grid.along || r >= grid.across) return undefined;
  const [wide, high] = [c + Math.max(...cells.map((line) => line.length)), r + cells.length];
  const whole = c + r === 0 && wide > 1 && high > 1;
  const [along, across] = whole ? [wide, high] : [Math.max(grid.along, wide), Math.max(grid.across, high)];
  const change = setGrid(book, { along, across });
  if (isRefused(change) || change.edits.length === 0) return undefined;
  const grown = apply(book, change);
  const to = cellAt(grown, addressOf(at));
  return to && { target: { book: grown, at: to, area }, change, size: `${along} × ${across}`, fits: wide <= grid.along && high <= grid.across };
}

function takenApart(text: string, html: string): { readonly own: Carried | undefined; readonly grid: readonly (readonly string[])[] } {
  // A document that is only parsed runs nothing and fetches nothing.
  const table = html === '' ? null : new DOMParser().parseFromString(html, 'text/html').querySelector('table');
  const own = table?.getAttribute(OWN);
  const carried = own ? readCarried(own) : undefined;
  if (text.trim() !== '' || !table) return { own: carried, grid: text.trim() === '' ? [] : gridOf(text) };
  return { own: carried, grid: [...table.rows].map((row) => [...row.cells].map((cell) => (cell.textContent ?? '').trim())) };
}

/** A block of cells without content of their own, or what is to be put down. */
export type Patch = readonly (readonly (Cell | null)[])[];

export interface Target {
  readonly book: Book;
  readonly at: At;
  /** What is chosen: a single copied cell is put into all of it. */
  readonly area: Area | undefined;
}

/** How many rows and columns more the table would need. */
export function beyond(target: Target, cells: readonly (readonly unknown[])[]): { readonly rows: number; readonly columns: number } {
  const { table, rowIndex, columnIndex } = target.at;
  const wide = Math.max(...cells.map((line) => line.length));
  return { rows: Math.max(0, rowIndex + cells.length - table.rows.length), columns: Math.max(0, columnIndex + wide - table.columns.length) };
}

/** One change: the rows and columns that are missing, where they are asked for, and then the cells. */
export function putDown(target: Target, cells: Patch, from: Carried | undefined, addLines: boolean): Answer {
  const { book, at, area } = target;
  const more = beyond(target, cells);
  if ((more.rows > 0 || more.columns > 0) && !addLines) return refused(`That goes beyond ${at.table.name} by ${wordsOf(more)}.`);
  const cut = from && cutFrom(book, from);
  const one = !cut && cells.length === 1 && cells[0]?.length === 1 && area && area.rows * area.columns > 1;
  const [row, column] = one ? [area.row, area.column] : [at.rowIndex, at.columnIndex];
  // Each cell of a chosen block is the copied one re-based by its own distance.
  if (one && area) return intoEach(book, area, cells[0]?.[0] ?? null, from);
  let now = book;
  let change: Answer = { label: '', edits: [] };
  for (const [axis, count] of [
    ['row', more.rows],
    ['column', more.columns],
  ] as const) {
    if (count === 0) continue;
    const grown = insertLines(now, { table: at.table.id, axis, at: axis === 'row' ? at.table.rows.length : at.table.columns.length, count });
    if (isRefused(grown)) return grown;
    now = apply(now, grown);
    change = squash(change, grown);
  }
  const source = from && from.book === book.id ? { from: { table: from.table, row: from.row, column: from.column } } : {};
  const put = cut ? moveCells(now, { area: cut, table: at.table.id, row, column }) : putCells(now, { table: at.table.id, row, column, cells, ...source });
  if (isRefused(put)) return put;
  return squash(change, put, more.rows + more.columns > 0 ? `${put.label}, with ${wordsOf(more)} more` : put.label);
}

/** The same where the meter reads at other places first, as one change. */
export function putDownAnew({ target, change }: Places, cells: Patch, from: Carried | undefined): Answer {
  const put = putDown(target, cells, from, false);
  return isRefused(put) ? put : squash(change, put, `${put.label}. ${change.label}`);
}

function intoEach(book: Book, area: Area, cell: Cell | null, from: Carried | undefined): Answer {
  const cells = Array.from({ length: area.rows }, () => Array.from({ length: area.columns }, () => cell));
  if (!from || from.book !== book.id || !cell || !isFormula(cell.content)) return putCells(book, { ...area, cells });
  let now = book;
  let change: Answer = { label: '', edits: [] };
  for (let r = 0; r < area.rows; r++) {
    for (let c = 0; c < area.columns; c++) {
      const put = putCells(now, { table: area.table, row: area.row + r, column: area.column + c, cells: [[cell]], from });
      if (isRefused(put)) return put;
      now = apply(now, put);
      change = squash(change, put, `${area.rows * area.columns} cells pasted`);
    }
  }
  return change;
}

export function wordsOf({ rows, columns }: { readonly rows: number; readonly columns: number }): string {
  const parts: string[] = [];
  if (rows > 0) parts.push(counted(rows, 'row'));
  if (columns > 0) parts.push(counted(columns, 'column'));
  return parts.join(' and ');
}

/** How one text of a block is read: into a cell, or not. */
export interface Read {
  readonly where: string;
  readonly text: string;
  readonly cell?: Cell;
  /** How it will read, where that is not plain from the text. */
  readonly said?: string;
  /** It reads as it is written, but its cell will be shown in its unit instead of the one before. */
  readonly shown?: { readonly now: string; readonly before: string };
  readonly problem?: string;
}

/** Reads every text as its cell would take it; beyond the edge as a new row would. Formulas are read by the engine. */
export async function readGrid(
  ask: Session['ask'],
  target: Target,
  grid: readonly (readonly string[])[],
  mark: DecimalMark,
): Promise<readonly (readonly Read[])[]> {
  const { book, at } = target;
  const read: Read[][] = [];
  for (const [r, line] of grid.entries()) {
    const row: Read[] = [];
    for (const [c, text] of line.entries()) {
      const to = placeIn(at.table, at.columnIndex + c, at.rowIndex + r);
      row.push(text === '' ? { where: '', text } : await readOne(ask, book, to ?? beyondPlace(at, c), to !== undefined, text, mark));
    }
    read.push(row);
  }
  return read;
}

/** A row that is not there yet: nothing is said of it but what its column says. */
const beyondPlace = (at: At, column: number): At => ({
  ...at,
  row: { id: '' },
  column: at.table.columns[at.columnIndex + column] ?? { id: '' },
  cell: undefined,
});

async function readOne(ask: Session['ask'], book: Book, to: At, there: boolean, text: string, mark: DecimalMark): Promise<Read> {
  const where = there ? titleOf(to) : 'new row';
  const locked = there ? lockedProblem(to, text) : undefined;
  if (locked !== undefined) return { where, text, problem: locked };
  // A text says nothing of who said so, nor of how it is shown: that stays.
  const { typed: _, unit: own = unitOf(to), ...kept } = to.cell ?? { content: '' };
  if (text.startsWith('=')) {
    const formula = there ? await ask((engine) => engine.read(addressOf(to), text)) : { ok: true as const, content: text };
    return formula.ok ? { where, text, cell: { ...kept, content: formula.content } } : { where, text, problem: formula.message };
  }
  const unit = unitInBook(book, to) ?? '';
  const plain = readPlain(book, to, withoutThousands(text, mark), unit, mark);
  if (!plain.ok) return { where, text, problem: plain.message };
  const { content, unit: shown } = plain;
  const inUnit = shown ?? own;
  const cell: Cell = { ...kept, content, ...(content === text ? {} : { typed: text }), ...(inUnit === undefined ? {} : { unit: inUnit }) };
  // `12` into a cell shown in m is 12 m, as anyone would expect; whatever else differs is shown.
  if (content === `${text} ${unit}`.trim() || content === `'${text}`) return { where, text, cell };
  if (content !== text) return { where, text, cell, said: content };
  return { where, text, cell, ...(shown === undefined || shown === unit ? {} : { shown: { now: shown, before: unit } }) };
}
