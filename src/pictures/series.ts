/**
 * What a picture block reads, scenario by scenario.
 *
 * A block names its picture and gives it references by key. A reference to a cell of a scenarios table stands for that whole row: each scenario
 * is drawn with its own cell, and a scenario added later is drawn too. References to other tables are shared by all scenarios.
 *
 * All pictures need `layout` (the layout text) and `height` (face to canopy), and take `dim` and `maintenance` (plain factors that the light
 * is multiplied by; left out: 1) and `low` and `high` (the ends of the target band, as PPFD of that same light). The height curve takes
 * `target` (the line aimed at), `lowest` and `highest` (the heights drawn) as well.
 */
import { type At, placeIn, readReference, tableNamed } from '../book/address.ts';
import type { Block, Book } from '../book/book.ts';
import { addressOf, baseColumn, columnHeading } from '../book/look-up.ts';
import type { Value, Values } from '../engine/types.ts';
import { lineOf, valueAt } from '../shown.ts';

export type PictureBlock = Extract<Block, { kind: 'picture' }>;

export interface Series {
  /** The scenario's heading, `A`; empty where there are no scenarios. */
  readonly letter: string;
  readonly columnId: string;
  readonly layout: string;
  /** m, face to canopy. */
  readonly height: number;
  readonly heightText: string;
  /** The light is multiplied by it. */
  readonly scale: number;
  /** µmol/m²/s of that light; undefined where the block names none or it has no value. */
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly target: number | undefined;
  /** Fixtures and their output, as the layout says them. */
  readonly count: string;
  /** m */
  readonly length: number;
  readonly width: number;
}

export interface Reads {
  readonly series: readonly Series[];
  /** Scenarios that cannot be drawn, and why. */
  readonly missing: readonly string[];
  readonly base: string;
  readonly lowest: number | undefined;
  readonly highest: number | undefined;
}

const LAYOUT = /^(\d+)(?:.*?)\bover ([\d.]+)×([\d.]+) m/u;

export function readPicture(block: PictureBlock, book: Book, values: Values): Reads {
  const places = new Map<string, At>();
  for (const [key, text] of Object.entries(block.reads)) {
    const reference = readReference(text);
    const table = reference?.table === undefined ? undefined : tableNamed(book, reference.table);
    const at = reference && table && placeIn(table, reference.from.column, reference.from.row);
    if (at) places.set(key, at);
  }
  const layoutAt = places.get('layout');
  const table = layoutAt?.table;
  const comparing = table?.form === 'scenarios';
  const columns = comparing ? table.columns.map((_, i) => i) : [layoutAt?.columnIndex ?? 0];
  const value = (key: string, column: number): Value | undefined => {
    const at = places.get(key);
    if (!at) return undefined;
    const own = at.table.form === 'scenarios' ? placeIn(at.table, column, at.rowIndex) : at;
    return own && valueAt(values, addressOf(own));
  };
  const number = (key: string, column: number): number | undefined => {
    const found = value(key, column);
    return found?.kind === 'number' ? found.base : undefined;
  };
  const series: Series[] = [];
  const missing: string[] = [];
  for (const column of columns) {
    const at = layoutAt && placeIn(layoutAt.table, column, layoutAt.rowIndex);
    const letter = at && comparing ? columnHeading(at) : '';
    const layout = value('layout', column);
    const height = value('height', column);
    const size = layout?.kind === 'text' ? LAYOUT.exec(layout.text) : null;
    const factors = ['dim', 'maintenance'].map((key) => (places.has(key) ? number(key, column) : 1));
    if (layout?.kind !== 'text' || height?.kind !== 'number' || !size || factors.some((f) => f === undefined)) {
      const why = [layout, height].find((v) => v?.kind === 'error');
      missing.push(`${letter ? `${letter}: ` : ''}${why ? lineOf(why) : 'not everything it needs has a value yet'}`);
      continue;
    }
    const micro = (key: string): number | undefined => {
      const found = number(key, column);
      return found === undefined ? undefined : found * 1e6;
    };
    series.push({
      letter,
      columnId: at?.column.id ?? '',
      layout: layout.text,
      height: height.base,
      heightText: lineOf(height),
      scale: factors.reduce<number>((product, f) => product * (f ?? 1), 1),
      low: micro('low'),
      high: micro('high'),
      target: micro('target'),
      count: size[1] ?? '',
      length: Number(size[2]),
      width: Number(size[3]),
    });
  }
  return {
    series,
    missing,
    base: comparing && table ? (table.columns[baseColumn(table)]?.id ?? '') : '',
    lowest: number('lowest', columns[0] ?? 0),
    highest: number('highest', columns[0] ?? 0),
  };
}

/** The sample grid: cells no larger than 10 cm and no fewer than 8 a side, at most 10⁴ in all. */
export function gridOf(length: number, width: number): { readonly nx: number; readonly ny: number } {
  const cells = (side: number): number => Math.max(8, Math.ceil(Number((side / 0.1).toFixed(9))));
  const [nx, ny] = [cells(length), cells(width)];
  if (nx * ny <= 10_000) return { nx, ny };
  const shrink = Math.sqrt(10_000 / (nx * ny));
  return { nx: Math.max(8, Math.floor(nx * shrink)), ny: Math.max(8, Math.floor(ny * shrink)) };
}
