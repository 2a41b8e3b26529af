/** What the picture of light by month reads: the sun of each month, and the lamps that fill what it leaves open. */
import type { Book } from '../book/book.ts';
import type { Value, Values } from '../engine/types.ts';
import { textOfValue } from '../shown.ts';
import { type Cells, cellsOf, missTexts, type PictureBlock } from './cells.ts';

/** mol/m²/d throughout. */
export interface Month {
  readonly name: string;
  /** What is left of it under the fixtures. */
  readonly sun: number;
  readonly lamps: number;
}

export interface Year {
  readonly letter: string;
  readonly columnId: string;
  readonly months: readonly Month[];
  readonly target: number | undefined;
}

export interface Years {
  readonly years: readonly Year[];
  readonly missing: readonly string[];
  readonly base: string;
  /** The block says what the lamps give. */
  readonly lamps: boolean;
}

const numberOf = (value: Value | undefined): number | undefined => (value?.kind === 'number' ? value.base : undefined);

export function readMonths(block: PictureBlock, book: Book, values: Values): Years {
  // The scenarios are those of whatever the lamps are read from; without lamps there is one year.
  const lead = ['gap', 'most', 'shade'].find((key) => block.reads[key]) ?? 'sun';
  const cells = cellsOf(block, book, values, lead);
  const lamps = cells.says('gap') && cells.says('most');
  const misses: { readonly letter: string; readonly why: string }[] = [];
  const years: Year[] = [];
  for (const column of cells.columns) {
    const letter = cells.letter(column);
    const year = yearOf(cells, column, lamps);
    if (typeof year === 'string') misses.push({ letter, why: year });
    else years.push({ letter, columnId: cells.columnId(column), months: year, target: cells.number('target', column) });
  }
  const half = !lamps && (cells.says('gap') || cells.says('most'));
  return {
    years,
    missing: [...missTexts(misses), ...(half ? [`the lamps, as ${cells.miss(cells.says('gap') ? 'most' : 'gap', 0)}`] : [])],
    base: cells.base,
    lamps,
  };
}

/** Twelve months, or as many as there are; else why not. The lamps fill the gap as far as they can, and rest where there is none. */
function yearOf(cells: Cells, column: number, lamps: boolean): readonly Month[] | string {
  const suns = cells.run('sun', column);
  const names = cells.run('months', column);
  if (suns.length === 0) return cells.miss('sun', column);
  if (names.length !== suns.length)
    return names.length === 0 ? cells.miss('months', column) : `there are ${names.length} names of months for ${suns.length} values of sun`;
  const gaps = lamps ? cells.run('gap', column) : [];
  if (lamps && gaps.length !== suns.length) return gaps.length === 0 ? cells.miss('gap', column) : `there are ${gaps.length} gaps for ${suns.length} months`;
  const titles = names.map((name) => textOfValue(name));
  const places = gapPlaces(titles, lamps ? cells.headings('gap') : []);
  if (typeof places === 'string') return places;
  const shade = cells.says('shade') ? cells.number('shade', column) : 0;
  if (shade === undefined) return cells.miss('shade', column);
  const most = lamps ? cells.number('most', column) : 0;
  if (most === undefined) return cells.miss('most', column);
  const months: Month[] = [];
  for (const [i, value] of suns.entries()) {
    const sun = numberOf(value);
    const gap = lamps ? numberOf(gaps[places[i] ?? i]) : 0;
    const name = titles[i] ?? '';
    if (sun === undefined || gap === undefined) return `${name || `month ${i + 1}`} has no ${sun === undefined ? 'sun' : 'gap'} yet`;
    months.push({ name, sun: sun * (1 - shade), lamps: Math.min(gap, most) });
  }
  return months;
}

/**
 * Where the gap of each month stands: in the row that says the month, as the one table can be put into another order than the other. Rows
 * that say none of the months are taken in order.
 */
function gapPlaces(months: readonly string[], rows: readonly string[]): readonly number[] | string {
  const said = rows.map((row) => months.flatMap((month, i) => (month !== '' && says(row, month) ? [i] : [])));
  if (said.every((of) => of.length === 0)) return months.map((_, i) => i);
  const places = months.map((_, i) => said.findIndex((of) => of.length === 1 && of[0] === i));
  const lacking = places.indexOf(-1);
  return lacking < 0 ? places : `no row of the gaps is called ${months[lacking] || `month ${lacking + 1}`}, where others say their month`;
}

/** Whole words only: a row for "Mayflower" says nothing of May. */
const says = (row: string, month: string): boolean =>
  ` ${row.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, ' ')} `.includes(` ${month.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, ' ')} `);
