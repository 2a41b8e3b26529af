/** Readings held against the field that a layout gives at the same cell centres. */
import { type Cells, isRefusal, type Refusal, refuse } from '../define.ts';
import { benchField, type Layout, named, parseLayout } from '../field/index.ts';
import { darkFault, READINGS, type Readings, readingsOf } from './readings.ts';

export const PPFD_READINGS = { ...READINGS, unit: 'µmol/m²/s', atLeast: 0, atMost: 1e6 } as const;

export interface Measured {
  readonly readings: Readings;
  readonly layout: Layout;
}

export function measured(name: string, cells: Cells, text: string): Measured | Refusal {
  const readings = readingsOf(name, cells);
  if (isRefusal(readings)) return readings;
  const dark = darkFault(name, readings);
  if (dark) return dark;
  const layout = parseLayout(text);
  return isRefusal(layout) ? named(name, layout) : { readings, layout };
}

export interface Fit {
  readonly model: Float64Array;
  /** Σ m·r, Σ m² and their ratio over the points that were read. */
  readonly mr: number;
  readonly mm: number;
  readonly factor: number;
}

export function fitAt({ readings, layout }: Measured, height: number): Fit {
  const model = benchField(layout, height, readings.nx, readings.ny);
  let [mr, mm] = [0, 0];
  for (const [i, r] of readings.all.entries()) {
    if (r === null) continue;
    const m = model[i] as number;
    mr += m * r;
    mm += m * m;
  }
  return { model, mr, mm, factor: mr / mm };
}

export const noModel = (name: string): Refusal => refuse(`${name}: the layout gives no light worth the name at the points that were read.`);
