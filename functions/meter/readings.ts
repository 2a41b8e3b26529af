/** A grid of meter readings: columns along x, rows along y, the first row nearest the origin. A blank is a point not read, never a zero. */
import { say } from '../check-args.ts';
import { type Cells, type Refusal, refuse } from '../define.ts';
import { LIMITS } from '../field/index.ts';

/** With more of the points missing, the mean and the low say more of what was left out. */
const MOST_BLANK = 0.2;

export interface Readings {
  readonly nx: number;
  readonly ny: number;
  /** Row by row; null where nothing was read. */
  readonly all: readonly (number | null)[];
  readonly values: readonly number[];
  readonly mean: number;
}

export function readingsOf(name: string, cells: Cells): Readings | Refusal {
  const ny = cells.length;
  const nx = Math.max(...cells.map((row) => row.length));
  if (nx * ny > LIMITS.gridMost) return refuse(`${name}: readings has ${nx * ny} cells; at most ${LIMITS.gridMost} are taken.`);
  const all: (number | null)[] = [];
  for (const [r, row] of cells.entries()) {
    for (let c = 0; c < nx; c++) {
      const cell = row[c] ?? null;
      if (cell !== null && typeof cell !== 'number') {
        return refuse(
          `${name}: readings in row ${r + 1}, column ${c + 1} is “${String(cell).slice(0, 40)}”; numbers are needed, blank where nothing was read.`,
        );
      }
      if (cell !== null && !(cell >= 0 && cell < 1e12))
        return refuse(`${name}: readings in row ${r + 1}, column ${c + 1} is ${say(cell)}; it must be 0 or more.`);
      all.push(cell);
    }
  }
  const values = all.filter((x) => x !== null);
  const blank = all.length - values.length;
  if (blank > MOST_BLANK * all.length) {
    return refuse(
      `${name}: ${blank} of ${all.length} points ${blank === 1 ? 'is' : 'are'} blank; at most one in five may be. Where lights off are read too, a point needs both; 0 where it was dark.`,
    );
  }
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return { nx, ny, all, values, mean };
}

/** Evenness has no meaning where it is dark throughout. */
export const darkFault = (name: string, { mean }: Readings): Refusal | undefined =>
  mean > 0 ? undefined : refuse(`${name}: all the readings are 0; there is no light to judge.`);

export const READINGS = {
  name: 'readings',
  quantity: 'grid of readings',
  unit: 'any',
  shape: 'range',
  meaning: 'columns along the bench, rows across it, first row nearest the corner that x and y count from; 0 or more, blank where not read',
} as const;

/** A point of the grid as a working names it. */
export const pointLabel = (i: number, nx: number): string => `row ${Math.floor(i / nx) + 1}, column ${(i % nx) + 1}`;
