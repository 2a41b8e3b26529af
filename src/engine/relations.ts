/** Which cells read which, in both directions. */
import { keyOf, type Position, positionOf, type Span } from './addresses.ts';
import type { Content } from './formula-text.ts';
import type { Hyper } from './hyper.ts';
import type { Sheets } from './sheets.ts';
import type { Address } from './types.ts';

/** What is asked of a workbook to find which cells read which. */
export interface Related {
  readonly hyper: Pick<Hyper, 'hf'>;
  readonly sheets: Pick<Sheets, 'address'>;
  content(at: Position): Content;
}

/** The cells and ranges that a cell reads directly, in no order; names are followed to what they stand for. */
export function reads(book: Related, at: Position): readonly Span[] {
  const { hf } = book.hyper;
  const found: Span[] = [];
  for (const each of hf.getCellPrecedents(at)) {
    if ('start' in each) found.push({ start: each.start, end: each.end });
    else if (each.sheet >= 0) found.push({ start: each, end: each });
    // A name is a formula of its own in the calculator, on a sheet before the first.
    else for (const named of hf.getCellPrecedents(each)) found.push('start' in named ? { start: named.start, end: named.end } : { start: named, end: named });
  }
  return found;
}

/** The cells that read this one directly, also through ranges and names. */
export function readers(book: Related, at: Position): readonly Position[] {
  const found = new Map<number, Position>();
  const seen = new Set<string>();
  const follow = (each: Position | Span): void => {
    const key = JSON.stringify(each);
    if (seen.has(key)) return;
    seen.add(key);
    for (const next of book.hyper.hf.getCellDependents(each)) {
      if ('start' in next || next.sheet < 0) follow(next);
      else found.set(keyOf(next), next);
    }
  };
  follow(at);
  return [...found.values()];
}

/** The cells that read this one directly, and all that follow from them. */
export function feeds(book: Related, at: Position): { readonly directly: readonly Address[]; readonly all: readonly Address[] } {
  const directly = readers(book, at);
  const all = new Map<number, Position>();
  const queue = [...directly];
  for (let next = queue.pop(); next; next = queue.pop()) {
    if (all.has(keyOf(next))) continue;
    all.set(keyOf(next), next);
    queue.push(...readers(book, next));
  }
  const inOrder = (positions: Iterable<Position>): readonly Address[] =>
    [...positions].sort((a, b) => keyOf(a) - keyOf(b)).map((position) => book.sheets.address(position));
  return { directly: inOrder(directly), all: inOrder(all.values()) };
}

/** The cells with formulas that a cell reads directly. */
function formulasRead(book: Related, at: Position): readonly Position[] {
  const found: Position[] = [];
  for (const { start, end } of reads(book, at)) {
    for (let row = start.row; row <= end.row; row++) {
      for (let col = start.col; col <= end.col; col++) {
        const position = { sheet: start.sheet, row, col };
        if (book.content(position).kind === 'formula') found.push(position);
      }
    }
  }
  return found;
}

/** Whether a formula in `home` that reads these cells would read itself. Of what follows from `home` only so much is looked at. */
export function leadsBack(book: Related, home: Position, spans: readonly Span[]): boolean {
  const among = (at: Position): boolean =>
    spans.some(({ start, end }) => at.sheet === start.sheet && at.row >= start.row && at.row <= end.row && at.col >= start.col && at.col <= end.col);
  const seen = new Set<number>();
  const queue = [home];
  for (let at = queue.shift(); at && seen.size < LOOKED_AT; at = queue.shift()) {
    if (seen.has(keyOf(at))) continue;
    if (among(at)) return true;
    seen.add(keyOf(at));
    queue.push(...readers(book, at));
  }
  return false;
}

/** Cells looked at before the way round is given up: long circles are told by their first cell alone. */
const LOOKED_AT = 2_000;

/** A shortest way round the circle that a cell is on, breadth first, back to itself; the cell alone where the way is very long. */
export function circle(book: Related, start: Position): readonly Position[] {
  const home = keyOf(start);
  const cameFrom = new Map<number, number>();
  const queue = [start];
  for (let at = queue.shift(); at && cameFrom.size < LOOKED_AT; at = queue.shift()) {
    for (const next of formulasRead(book, at)) {
      const key = keyOf(next);
      if (key === home) return wayBack(at, home, cameFrom);
      if (cameFrom.has(key)) continue;
      cameFrom.set(key, keyOf(at));
      queue.push(next);
    }
  }
  return [start];
}

function wayBack(last: Position, home: number, cameFrom: ReadonlyMap<number, number>): readonly Position[] {
  const round = [last];
  for (let at = keyOf(last); at !== home; ) {
    at = cameFrom.get(at) ?? home;
    round.unshift(positionOf(at));
  }
  return round;
}
