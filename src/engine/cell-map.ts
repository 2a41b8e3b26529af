/**
 * What is held of cells, by position: a list for each row. A map by number takes several times as long to fill for a large table, and leaves more to be
 * collected.
 */
import type { Position } from './addresses.ts';

export class CellMap<T extends object | string> {
  #sheets: (T | undefined)[][][] = [];
  #size = 0;

  get size(): number {
    return this.#size;
  }

  get(at: Position): T | undefined {
    return this.#sheets[at.sheet]?.[at.row]?.[at.col];
  }

  has(at: Position): boolean {
    return this.get(at) !== undefined;
  }

  set(at: Position, held: T): void {
    this.#sheets[at.sheet] ??= [];
    const rows = this.#sheets[at.sheet] as (T | undefined)[][];
    rows[at.row] ??= [];
    const line = rows[at.row] as (T | undefined)[];
    if (line[at.col] === undefined) this.#size++;
    line[at.col] = held;
  }

  delete(at: Position): void {
    const line = this.#sheets[at.sheet]?.[at.row];
    if (line?.[at.col] === undefined) return;
    line[at.col] = undefined;
    this.#size--;
  }

  clear(): void {
    this.#sheets = [];
    this.#size = 0;
  }

  /** In the order of tables, rows and columns. */
  *[Symbol.iterator](): Generator<readonly [Position, T]> {
    for (const [sheet, rows] of this.#sheets.entries()) {
      if (!rows) continue;
      for (const [row, line] of rows.entries()) {
        if (!line) continue;
        for (const [col, held] of line.entries()) if (held !== undefined) yield [{ sheet, row, col }, held];
      }
    }
  }
}
