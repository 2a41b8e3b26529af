/** What the picture of readings beside the plan reads: two blocks of cells of the same shape, and how far each point is off the pattern. */
import { placeIn, readReference, tableNamed } from '../book/address.ts';
import type { Block, Book } from '../book/book.ts';
import { addressOf, named } from '../book/look-up.ts';
import type { Value, Values } from '../engine/types.ts';
import { lineOf, valueAt } from '../shown.ts';

type PictureBlock = Extract<Block, { kind: 'picture' }>;

/** One point, row by row; the first row is nearest the bench's corner. µmol/m²/s; undefined where it was not read. */
export interface Point {
  readonly planned: number | undefined;
  readonly measured: number | undefined;
  /** Share by which it is off the plan's pattern, where that deserves a look. */
  readonly off: number | undefined;
}

export interface Readings {
  readonly nx: number;
  readonly ny: number;
  readonly points: readonly Point[];
  /** Length to width of the bench; undefined where the block does not say it. */
  readonly shape: number | undefined;
  /** From which share on a point deserves a look. */
  readonly limit: number | undefined;
}

/** Undefined where there is nothing to draw; then, and where something lacks, the reasons. */
export function readReadings(
  block: PictureBlock,
  book: Book,
  values: Values,
): { readonly readings: Readings | undefined; readonly missing: readonly string[] } {
  const planned = gridOf(block.reads.planned, book, values);
  const measured = gridOf(block.reads.measured, book, values);
  const off = gridOf(block.reads.off, book, values);
  if (!planned || !measured) return { readings: undefined, missing: [`there are no cells for what is ${planned ? 'measured' : 'planned'}`] };
  const [ny, nx] = [planned.length, planned[0]?.length ?? 0];
  if (measured.length !== ny || measured[0]?.length !== nx)
    return { readings: undefined, missing: [`${ny} × ${nx} points are planned and ${measured.length} × ${measured[0]?.length ?? 0} measured`] };
  const limit = numberOf(gridOf(block.reads.limit, book, values)?.[0]?.[0]);
  const [length, width] = [block.reads.length, block.reads.width].map((text) => numberOf(gridOf(text, book, values)?.[0]?.[0]));
  const points = planned.flatMap((row, r) =>
    row.map((value, c): Point => {
      const away = numberOf(off?.[r]?.[c]);
      return {
        planned: micro(value),
        measured: micro(measured[r]?.[c]),
        off: away !== undefined && limit !== undefined && Math.abs(away) >= limit ? away : undefined,
      };
    }),
  );
  const wrong = [...planned.flat(), ...measured.flat()].find((value) => value.kind === 'error');
  const none = points.every((point) => point.planned === undefined && point.measured === undefined);
  const missing = wrong ? [`some points: ${lineOf(wrong)}`] : none ? ['no point was read yet'] : [];
  const shape = length !== undefined && width !== undefined && width > 0 ? length / width : undefined;
  return { readings: none ? undefined : { nx, ny, points, shape, limit }, missing };
}

function gridOf(text: string | undefined, book: Book, values: Values): readonly (readonly Value[])[] | undefined {
  const reference = text === undefined ? undefined : readReference(named(book, text) ?? text);
  const table = reference?.table === undefined ? undefined : tableNamed(book, reference.table);
  if (!reference || !table) return undefined;
  const rows: Value[][] = [];
  for (let r = reference.from.row; r <= reference.to.row; r++) {
    const row: Value[] = [];
    for (let c = reference.from.column; c <= reference.to.column; c++) {
      const at = placeIn(table, c, r);
      if (at) row.push(valueAt(values, addressOf(at)));
    }
    if (row.length > 0) rows.push(row);
  }
  return rows.length > 0 ? rows : undefined;
}

const numberOf = (value: Value | undefined): number | undefined => (value?.kind === 'number' ? value.base : undefined);

const micro = (value: Value | undefined): number | undefined => {
  const base = numberOf(value);
  return base === undefined ? undefined : base * 1e6;
};
