/**
 * A book of which many variants are asked: a workbook of its own, so that the one on which somebody works is never touched. It is built from the book alone,
 * in any thread, and is good for that book and no later one.
 */
import { cellAt } from '../../book/address.ts';
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import { cellEdit } from '../../book/commands/set-cell.ts';
import type { Address, Value, Values } from '../types.ts';
import { type Life, Workbook } from '../workbook.ts';
import { Cone } from './cone.ts';
import type { Put } from './given.ts';

/** Cones that are kept: compiling one takes as long as some ten to a hundred rows. */
const KEPT = 8;

export class Sweeper {
  readonly book: Book;
  /** Of every cell that is not blank, as the book itself has it. */
  readonly values: Values;
  readonly workbook: Workbook;
  readonly #cones = new Map<string, Cone>();
  /** The book as the workbook has it, and the givens that are not as they were. */
  #now: Book;
  #moved: ReadonlyMap<Address, string> = new Map();
  #owner: object | undefined;

  constructor(book: Book, life: Life = {}) {
    this.book = book;
    this.#now = book;
    this.workbook = new Workbook(life);
    this.values = this.workbook.load(book);
  }

  /** The results of each row of values for the givens. Throws a RangeError for a cell that is not there. */
  sweep(givens: readonly Address[], rows: readonly (readonly Put[])[], results: readonly Address[]): Value[][] {
    const cone = this.cone(givens, results);
    return rows.map((row) => {
      cone.put(row);
      return results.map((_, i) => cone.value(i));
    });
  }

  /** What answers for these givens and results row by row, and of a row only what is asked. */
  cone(givens: readonly Address[], results: readonly Address[]): Cone {
    const key = JSON.stringify([givens, results]);
    const known = this.#cones.get(key) ?? new Cone(this, givens, results);
    // What was asked for last goes last.
    this.#cones.delete(key);
    this.#cones.set(key, known);
    for (const oldest of this.#cones.keys()) if (this.#cones.size > KEPT) this.#cones.delete(oldest);
    return known;
  }

  claim(by: object): void {
    if (this.#owner === by) return;
    this.#owner = by;
    this.move(new Map());
  }

  move(wanted: ReadonlyMap<Address, string>): void {
    if (wanted === this.#moved) return;
    const edits = [...new Set([...this.#moved.keys(), ...wanted.keys()])].flatMap((address) => {
      const [own, now, content] = [cellAt(this.book, address), cellAt(this.#now, address), wanted.get(address)];
      if (!own || !now) return [];
      const { typed: _, ...kept } = own.cell ?? { content: '' };
      return cellEdit(now, content === undefined ? (own.cell ?? null) : { ...kept, content });
    });
    this.#moved = wanted;
    if (edits.length === 0) return;
    const change = { label: '', edits };
    this.#now = apply(this.#now, change);
    this.workbook.apply([change], this.#now);
  }

  close(): void {
    this.workbook.hyper.dispose();
  }
}
