import { beamExponent } from '../beam/beam-exponent.ts';
import { type Face, groupFaces, type Layout, layoutPpf } from './layout.ts';

export { defaultGrid, faces } from './layout.ts';

const PIECES = 24;

function onePoint(face: Face, ppf: number, m: number, h: number, x: number, y: number): number {
  const [nx, ny] = [face.length > 0 ? PIECES : 1, face.width > 0 ? PIECES : 1];
  let sum = 0;
  for (let i = 0; i < nx; i++) {
    for (let j = 0; j < ny; j++) {
      const u = x - face.x - ((i + 0.5) / nx - 0.5) * face.length;
      const v = y - face.y - ((j + 0.5) / ny - 0.5) * face.width;
      sum += (h * h + u * u + v * v) ** (-(m + 3) / 2);
    }
  }
  return ((ppf * (m + 1) * h ** (m + 1)) / (2 * Math.PI)) * (sum / (nx * ny));
}

/** PPFD at one point of the bench, µmol/m²/s. */
export function ppfdAt(layout: Layout, height: number, x: number, y: number): number {
  let sum = 0;
  for (const group of layout.groups) {
    const m = beamExponent(group.fixture.beam);
    for (const face of groupFaces(group, layout.bench)) sum += onePoint(face, group.fixture.ppf, m, height, x, y);
  }
  return sum;
}

/** PPFD at the cell centres, µmol/m²/s, row by row from the origin, x fastest. */
export function benchField(layout: Layout, height: number, nx: number, ny: number): Float64Array {
  const { length, width } = layout.bench;
  return Float64Array.from({ length: nx * ny }, (_, i) => ppfdAt(layout, height, (((i % nx) + 0.5) * length) / nx, ((Math.floor(i / nx) + 0.5) * width) / ny));
}

/** Photons that land on the bench over photons emitted. */
export function landingShare(layout: Layout, height: number): number {
  const field = benchField(layout, height, 100, 100);
  const mean = field.reduce((sum, e) => sum + e, 0) / field.length;
  return (mean * layout.bench.length * layout.bench.width) / layoutPpf(layout);
}
