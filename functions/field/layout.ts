/**
 * What hangs over one bench. Metres; the bench is 0 ≤ x ≤ length, 0 ≤ y ≤ width; every face is a flat horizontal rectangle that
 * looks straight down, all of them at one height.
 */

export interface Fixture {
  /** Initial output, undimmed, 400–700 nm, µmol/s. */
  readonly ppf: number;
  /** The emitting face, m. One of them zero is a line, both a point. */
  readonly length: number;
  readonly width: number;
  /** Full angle between the directions of half the peak intensity, degrees. */
  readonly beam: number;
}

export interface Bench {
  readonly length: number;
  readonly width: number;
}

/** A grid of like fixtures, centred on the bench. Spread 1 shares the bench evenly. */
export interface RegularGroup {
  readonly kind: 'regular';
  readonly fixture: Fixture;
  readonly along: number;
  readonly across: number;
  /** Turned: the face's length lies along y. */
  readonly turned: boolean;
  readonly spreadAlong: number;
  readonly spreadAcross: number;
}

export interface FixtureAt {
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

/** Like fixtures, each where it was put. */
export interface FreeGroup {
  readonly kind: 'free';
  readonly fixture: Fixture;
  readonly places: readonly FixtureAt[];
}

export type Group = RegularGroup | FreeGroup;

/** Benches alike in a row across this one, lights and all: how many lie below y = 0 and beyond y = width. */
export interface Beside {
  /** From centre to centre, m. */
  readonly apart: number;
  readonly before: number;
  readonly after: number;
}

export interface Layout {
  readonly bench: Bench;
  /** Those whose light counts here too; counts and output are of this bench alone. */
  readonly beside?: Beside | undefined;
  /** Share of the light that the sides of the bench send back, as ideal mirrors: 0 to 0.95. */
  readonly sides: number;
  readonly groups: readonly Group[];
}

/** An emitting face as it hangs: centre, extent along x (length) and along y (width). */
export interface Face {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/** Centres of `count` fixtures along one side of the bench: size/2 + spread·((i+½)/count − ½)·size. */
export function centres(count: number, size: number, spread: number): number[] {
  const at: number[] = [];
  for (let i = 0; i < count; i++) at.push(size / 2 + spread * ((i + 0.5) / count - 0.5) * size);
  return at;
}

export const countOf = (group: Group): number => (group.kind === 'regular' ? group.along * group.across : group.places.length);

export const layoutCount = (layout: Layout): number => layout.groups.reduce((sum, group) => sum + countOf(group), 0);

/** All output together, µmol/s. */
export const layoutPpf = (layout: Layout): number => layout.groups.reduce((sum, group) => sum + countOf(group) * group.fixture.ppf, 0);

/** Centres across this bench, and across those beside it, bench by bench: the first is the least and the last the greatest. */
export function withBeside(ys: number[], beside: Beside | undefined): number[] {
  if (!beside) return ys;
  const all: number[] = [];
  for (let k = -beside.before; k <= beside.after; k++) for (const y of ys) all.push(y + k * beside.apart);
  return all;
}

/** Every face, those of the benches beside this one too, group by group; a regular group row by row from the least y. */
export function faces(layout: Layout): Face[] {
  return layout.groups.flatMap((group) => groupFaces(group, layout));
}

function groupFaces(group: Group, { bench, beside }: Layout): Face[] {
  const { length, width } = group.fixture;
  const face = (x: number, y: number, turned: boolean): Face => ({ x, y, length: turned ? width : length, width: turned ? length : width });
  if (group.kind === 'free') return group.places.flatMap(({ x, y, turned }) => withBeside([y], beside).map((at) => face(x, at, turned)));
  const xs = centres(group.along, bench.length, group.spreadAlong);
  return withBeside(centres(group.across, bench.width, group.spreadAcross), beside).flatMap((y) => xs.map((x) => face(x, y, group.turned)));
}

/** Cells no larger than this, and no fewer than MIN_CELLS a side, unless that makes more than MAX_CELLS in all. */
const CELL = 0.1;
const MIN_CELLS = 8;
const MAX_CELLS = 10_000;

/** The sample grid that a function takes when none is asked for: [columns along x, rows along y]. */
export function defaultGrid({ bench }: Layout): [number, number] {
  // A size that is a whole number of cells but for rounding takes that number.
  const cells = (size: number): number => Math.max(MIN_CELLS, Math.ceil(size / CELL - 1e-9));
  const [nx, ny] = [cells(bench.length), cells(bench.width)];
  const shrink = Math.sqrt(MAX_CELLS / (nx * ny));
  if (shrink >= 1) return [nx, ny];
  // The shorter side keeps its least number of cells; the longer one gives way.
  const fewer = (n: number, other: number): number => Math.max(MIN_CELLS, Math.floor(Math.min(n, Math.max(n * shrink, MAX_CELLS / other))));
  const across = fewer(ny, nx);
  return [Math.min(nx, Math.floor(MAX_CELLS / across)), across];
}
