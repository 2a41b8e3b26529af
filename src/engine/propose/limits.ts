/** The givens that set the limits of checks: what could be changed so that more holds. */

import { readContent } from '../../../functions/quantity-text.ts';
import { fromBase, toBase, unit } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import { choicesOf } from '../../book/allowed.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, decimalsOf, rangeOf, standingOf, unitOf } from '../../book/look-up.ts';
import { feeds, reads } from '../relations.ts';
import type { Address } from '../types.ts';
import type { Workbook } from '../workbook.ts';

/** What a check of the arrangement is held against, whatever the arrangement: the givens behind it. None that the layout itself comes of. */
export class Limits {
  readonly #workbook: Workbook;
  /** All cells that follow from the arrangement. */
  readonly #varying: ReadonlySet<Address>;
  readonly #layout: Address | undefined;

  constructor(workbook: Workbook, parts: readonly Address[], layout: Address | undefined) {
    this.#workbook = workbook;
    this.#layout = layout;
    this.#varying = new Set(parts.flatMap((part) => [part, ...feeds(workbook, workbook.at(part)).all]));
  }

  of(check: Address): readonly At[] {
    const { sheets } = this.#workbook;
    const seen = new Set<Address>();
    const found: At[] = [];
    const queue = [this.#workbook.at(check)];
    for (let next = queue.pop(); next; next = queue.pop()) {
      for (const { start, end } of reads(this.#workbook, next)) {
        const table = sheets.inBook(start)?.table;
        if (!table || table.form === 'list') continue;
        for (let row = start.row; row <= end.row; row++) {
          for (let col = start.col; col <= end.col; col++) {
            const position = { sheet: start.sheet, row, col };
            const at = sheets.inBook(position);
            if (!at || seen.has(addressOf(at)) || this.#varying.has(addressOf(at))) continue;
            seen.add(addressOf(at));
            if (standingOf(at) === 'given') found.push(at);
            else queue.push(position);
          }
        }
      }
    }
    return found.filter((at) => this.#layout === undefined || !feeds(this.#workbook, this.#workbook.at(addressOf(at))).all.includes(this.#layout));
  }
}

/** Contents that a given may have, from the nearest to what it says on: up, or down. Undefined where it is no amount and has no list. */
export interface Ladder {
  readonly length: number;
  at(n: number): string;
}

/** How far an amount is from what a given says now, or from nothing where it says none; of what is no amount, the same for all. */
export function distance(at: At, content: string): number {
  const [now, then] = [readContent(at.cell?.content ?? ''), readContent(content)];
  if (then.kind !== 'number') return Number.MAX_VALUE;
  return Math.abs(then.base - (now.kind === 'number' ? now.base : 0));
}

/** The steps of a given in both directions, each rung farther from what it says now; of a list, its amounts from the nearest on, and its words as they stand. */
export function laddersOf(book: Book, at: At): readonly Ladder[] {
  const range = rangeOf(at);
  const now = at.cell?.content ?? '';
  // What is picked from a list of the book's own, such as the crop, is no limit.
  if (range?.from !== undefined) return [];
  const choices = range && choicesOf(book, at, range);
  if (choices) {
    const others = choices.filter((choice) => choice !== now).sort((a, b) => distance(at, a) - distance(at, b) || 0);
    return others.map((choice) => ({ length: 1, at: () => choice }));
  }
  if (range?.low === undefined || range.high === undefined) return [];
  const shown = unit(unitOf(at) ?? '');
  const limit = unit(range.unit ?? unitOf(at) ?? '');
  const read = readContent(now, book.currency);
  if (!shown || !limit || shown.dimension !== limit.dimension) return [];
  const step = 10 ** -(decimalsOf(at) ?? 2);
  const [low, high] = [range.low, range.high].map((one) => fromBase(toBase(one, limit), shown)) as [number, number];
  const from = read.kind === 'number' ? fromBase(read.base, shown) : low - step;
  const content = (number: number): string => `${Number(number.toPrecision(10))} ${shown.symbol}`.trim();
  const up = Math.floor((high - from) / step + 1e-6);
  const down = read.kind === 'number' ? Math.floor((from - low) / step + 1e-6) : 0;
  return [
    { length: up, at: (n: number) => content(from + n * step) },
    { length: down, at: (n: number) => content(from - n * step) },
  ].filter(({ length }) => length > 0);
}
