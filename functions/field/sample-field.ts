/** The field of a layout text at a height on a sample grid: reckoned once, shared by all the functions that ask for it. */
import { say } from '../check-args.ts';
import { isRefusal, type Refusal, refuse } from '../define.ts';
import { benchField } from './kernel.ts';
import { defaultGrid, type Layout } from './layout.ts';
import { parseLayout } from './layout-text.ts';
import { LIMITS } from './limits.ts';

export interface SampleField {
  readonly text: string;
  readonly layout: Layout;
  readonly height: number;
  readonly nx: number;
  readonly ny: number;
  /** µmol/m²/s, row by row from the origin, x fastest. */
  readonly field: Float64Array;
  readonly mean: number;
  /** Where the dimmest and the brightest point stand in the field. */
  readonly lowAt: number;
  readonly highAt: number;
}

const known = new Map<string, SampleField>();
/** A book of five scenarios with its pictures uses a few dozen; 200 of the largest grids are 16 MB. */
const KEPT = 200;

export function sampleField(text: string, height: number, nx?: number, ny?: number): SampleField | Refusal {
  const layout = parseLayout(text);
  if (isRefusal(layout)) return layout;
  const [defaultX, defaultY] = defaultGrid(layout);
  const [columns, rows] = [nx ?? defaultX, ny ?? defaultY];
  if (columns * rows > LIMITS.gridMost) {
    return refuse(`The sample grid of ${say(columns)} × ${say(rows)} cells has ${say(columns * rows)}; the most is ${say(LIMITS.gridMost)}.`);
  }
  const key = `${height} ${columns} ${rows} ${text}`;
  const kept = known.get(key);
  if (kept) return kept;
  const field = benchField(layout, height, columns, rows);
  const found = extremes(field);
  // Narrow beams low over a coarse grid: every point lies outside all of them.
  if (!(found.mean > 0)) return refuse('No light worth the name reaches the sample points; take a finer grid or hang the layout higher.');
  const made = { text, layout, height, nx: columns, ny: rows, field, ...found };
  if (known.size >= KEPT) known.delete(known.keys().next().value as string);
  known.set(key, made);
  return made;
}

function extremes(field: Float64Array): Pick<SampleField, 'mean' | 'lowAt' | 'highAt'> {
  let [sum, lowAt, highAt] = [0, 0, 0];
  for (let i = 0; i < field.length; i++) {
    const e = field[i] as number;
    sum += e;
    if (e < (field[lowAt] as number)) lowAt = i;
    if (e > (field[highAt] as number)) highAt = i;
  }
  return { mean: sum / field.length, lowAt, highAt };
}

export const lowOf = (s: SampleField): number => s.field[s.lowAt] as number;
export const highOf = (s: SampleField): number => s.field[s.highAt] as number;

/** The centre of the i-th cell, m. */
export function pointOf({ layout, nx, ny }: Pick<SampleField, 'layout' | 'nx' | 'ny'>, i: number): [number, number] {
  return [(((i % nx) + 0.5) * layout.bench.length) / nx, ((Math.floor(i / nx) + 0.5) * layout.bench.width) / ny];
}
