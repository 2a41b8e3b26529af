/** What the scenario bars read: one quantity of every scenario. */
import { fromBase, unit } from '../../functions/units.ts';
import type { Book } from '../book/book.ts';
import type { Value, Values } from '../engine/types.ts';
import { lineOf } from '../shown.ts';
import { cellsOf, missTexts, type PictureBlock } from './cells.ts';

export interface Bar {
  readonly letter: string;
  readonly columnId: string;
  /** In the unit of the axis. */
  readonly amount: number;
  /** As the table shows it. */
  readonly text: string;
}

export interface Bars {
  readonly bars: readonly Bar[];
  readonly missing: readonly string[];
  readonly base: string;
  /** What the row is called. */
  readonly name: string;
  readonly unit: string;
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly target: number | undefined;
}

export function readBars(block: PictureBlock, book: Book, values: Values): Bars {
  const cells = cellsOf(block, book, values, 'value');
  const numbers = cells.columns.map((column) => ({ column, value: cells.value('value', column) }));
  // All are drawn on one axis, in the unit in which the first of them is shown.
  const first = numbers.find(({ value }) => value?.kind === 'number')?.value;
  const shown = first?.kind === 'number' ? unit(first.unit) : undefined;
  const inUnit = (base: number): number => (shown ? fromBase(base, shown) : base);
  const alike = (value: Value | undefined): value is Value & { kind: 'number' } => value?.kind === 'number' && unit(value.unit)?.dimension === shown?.dimension;
  const line = (key: string): number | undefined => {
    const value = cells.value(key, cells.columns[0] ?? 0);
    return alike(value) ? inUnit(value.base) : undefined;
  };
  const misses: { readonly letter: string; readonly why: string }[] = [];
  const bars: Bar[] = [];
  for (const { column, value } of numbers) {
    const letter = cells.letter(column);
    if (alike(value)) bars.push({ letter, columnId: cells.columnId(column), amount: inUnit(value.base), text: lineOf(value) });
    else misses.push({ letter, why: value?.kind === 'number' ? 'it is another quantity than the others' : cells.miss('value', column) });
  }
  const unfit = (['low', 'high', 'target'] as const).filter((key) => cells.says(key) && line(key) === undefined && bars.length > 0);
  return {
    bars,
    missing: [
      ...missTexts(misses),
      ...unfit.map((key) =>
        cells.value(key, cells.columns[0] ?? 0)?.kind === 'number'
          ? `the line for the ${key === 'target' ? 'value aimed at' : key === 'low' ? 'least wanted' : 'most wanted'} is another quantity`
          : cells.miss(key, cells.columns[0] ?? 0),
      ),
    ],
    base: cells.base,
    name: cells.name('value'),
    unit: shown?.symbol ?? '',
    low: line('low'),
    high: line('high'),
    target: line('target'),
  };
}
