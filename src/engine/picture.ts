/** The field over a bench for a picture. */
import { isRefusal } from '../../functions/define.ts';
import { benchField, faces, LIMITS, parseLayout } from '../../functions/field/index.ts';
import type { PictureField } from './types.ts';

/** Points of one picture at most. */
const POINTS = 100_000;

/** `height` in m; the values are PPFD in µmol/m²/s times `scale`. */
export function pictureField(layoutText: string, height: number, nx: number, ny: number, scale: number): PictureField | { readonly refused: string } {
  const layout = parseLayout(layoutText);
  if (isRefusal(layout)) return { refused: layout.message };
  if (!(height >= LIMITS.heightLeast && height <= LIMITS.heightMost)) {
    return { refused: `The picture needs a mount height from ${LIMITS.heightLeast} m to ${LIMITS.heightMost} m.` };
  }
  if (!(Number.isInteger(nx) && Number.isInteger(ny) && nx > 0 && ny > 0 && nx * ny <= POINTS)) return { refused: `A picture has at most ${POINTS} points.` };
  const values = benchField(layout, height, nx, ny);
  if (scale !== 1) for (const [i, value] of values.entries()) values[i] = value * scale;
  return { nx, ny, length: layout.bench.length, width: layout.bench.width, values, fixtures: faces({ ...layout, beside: undefined }) };
}
