/** What a picture of the light over a bench reads, scenario by scenario. */
import type { Book } from '../book/book.ts';
import type { PictureField, Values } from '../engine/types.ts';
import { lineOf } from '../shown.ts';
import { cellsOf, missTexts } from './cells.ts';
import type { Fields, PictureBlock, PictureRead, Wanted } from './picture.ts';

export const PPFD = 'µmol/m²/s';
export const LIGHT: readonly PictureRead[] = [
  { key: 'layout', name: 'layout', meaning: 'how the lights are arranged, as LAYOUT says it', takes: 'layout', needed: true, called: /^layout/i },
  {
    key: 'height',
    name: 'mount height',
    meaning: 'from the light’s face down to the leaf tops',
    takes: 'm',
    needed: true,
    called: /^(?:mount height|hung over)/i,
  },
  { key: 'dim', name: 'dimming', meaning: 'the share of full light; left empty: undimmed', takes: '1', called: /^dimmed/i },
  {
    key: 'maintenance',
    name: 'light that is left',
    meaning: 'the share that ageing and dirt leave; left empty: new and clean',
    takes: '1',
    called: /^(?:light left after|maintained as a share|kept for each full)/i,
  },
  { key: 'low', name: 'least light wanted', meaning: 'the low end of the band', takes: PPFD, called: /^ppfd wanted.*at least/i },
  { key: 'high', name: 'most light wanted', meaning: 'the high end of the band', takes: PPFD, called: /^ppfd wanted.*at most/i },
];

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
  readonly measures: Book['measures'];
  readonly lowest: number | undefined;
  readonly highest: number | undefined;
}

/** What LAYOUT gives: how many, and over what. */
export const LAYOUT = /^(\d+)(?:.*?)\bover ([\d.]+)×([\d.]+) m/u;

/** What of the rows beside it counts in this light, to stand after other words: they are not drawn. */
export function rowsCounted({ layout }: Series): string {
  const rows = /, beside (\d+ and \d+) at /u.exec(layout)?.[1];
  return rows ? `, light of ${rows} rows beside it counted` : '';
}

export function readPicture(block: PictureBlock, book: Book, values: Values): Reads {
  const cells = cellsOf(block, LIGHT, book, values, 'layout');
  const series: Series[] = [];
  const misses: { readonly letter: string; readonly why: string }[] = [];
  for (const column of cells.columns) {
    const letter = cells.letter(column);
    const layout = cells.value('layout', column);
    const height = cells.value('height', column);
    const size = layout?.kind === 'text' ? LAYOUT.exec(layout.text) : null;
    const factors = (['dim', 'maintenance'] as const).map((key) => [key, cells.says(key) ? cells.number(key, column) : 1] as const);
    const lacks = [
      ...(size ? [] : ['layout']),
      ...(height?.kind === 'number' ? [] : ['height']),
      ...factors.flatMap(([key, f]) => (f === undefined ? [key] : [])),
    ];
    if (layout?.kind !== 'text' || height?.kind !== 'number' || !size || lacks.length > 0) {
      misses.push({ letter, why: [...new Set(lacks.map((key) => cells.miss(key, column)))].join(', ') });
      continue;
    }
    const micro = (key: string): number | undefined => {
      const found = cells.number(key, column);
      return found === undefined ? undefined : found * 1e6;
    };
    series.push({
      letter,
      columnId: cells.columnId(column),
      layout: layout.text,
      height: height.base,
      heightText: lineOf(height),
      scale: factors.reduce<number>((product, [, f]) => product * (f ?? 1), 1),
      low: micro('low'),
      high: micro('high'),
      target: micro('target'),
      count: size[1] ?? '',
      length: Number(size[2]),
      width: Number(size[3]),
    });
  }
  const first = cells.columns[0] ?? 0;
  return {
    series,
    missing: missTexts(misses),
    base: cells.base,
    measures: book.measures,
    lowest: cells.number('lowest', first),
    highest: cells.number('highest', first),
  };
}

/** How many points a field is reckoned at: squares no larger than 10 cm and no fewer than 8 a side, at most 10⁴ in all. */
export function pointsOver(length: number, width: number): { readonly nx: number; readonly ny: number } {
  const cells = (side: number): number => Math.max(8, Math.ceil(Number((side / 0.1).toFixed(9))));
  const [nx, ny] = [cells(length), cells(width)];
  if (nx * ny <= 10_000) return { nx, ny };
  const shrink = Math.sqrt(10_000 / (nx * ny));
  return { nx: Math.max(8, Math.floor(nx * shrink)), ny: Math.max(8, Math.floor(ny * shrink)) };
}

/** The scenario that is drawn large or in front: the chosen one, else the base, else the first. */
export const front = ({ series, base }: Reads, chosen: string): Series | undefined =>
  series.find((s) => s.columnId === chosen) ?? series.find((s) => s.columnId === base) ?? series[0];

export const wholeBench = (s: Series): Wanted => ({ layout: s.layout, height: s.height, ...pointsOver(s.length, s.width) });

/** One that was given; none where the engine refused it. */
export function fieldOf(fields: Fields, wanted: Wanted): PictureField | undefined {
  const field = fields.get(wanted);
  return field && 'values' in field ? field : undefined;
}

/** Of a kind that draws the light of all scenarios. */
export function readLight(...of: Parameters<typeof readPicture>): { readonly found: Reads | undefined; readonly missing: readonly string[] } {
  const found = readPicture(...of);
  return { found: found.series.length > 0 ? found : undefined, missing: found.missing };
}
