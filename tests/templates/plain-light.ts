/**
 * The light over a bench by brute force, from the convention alone: every element of a face sends out I(θ) = Φ (m + 1) / 2π · cosᵐ θ,
 * and light on a level leaf falls off with cos θ / r². Gauss-Legendre quadrature over each face (Abramowitz & Stegun, Handbook of
 * Mathematical Functions, 1964, eq. 25.4.30). Shares nothing with the product.
 */
export interface Arrangement {
  readonly output: number;
  readonly faceLength: number;
  readonly faceWidth: number;
  readonly beam: number;
  readonly along: number;
  readonly across: number;
  readonly length: number;
  readonly width: number;
  readonly spreadAlong: number;
  readonly spreadAcross: number;
}

interface Node {
  readonly x: number;
  readonly weight: number;
}

const ORDER = 12;

/** Nodes and weights on −1 to 1: roots of the Legendre polynomial by Newton's method. The weights add up to 2. */
const legendre: readonly Node[] = Array.from({ length: ORDER }, (_, i) => {
  let x = Math.cos((Math.PI * (i + 0.75)) / (ORDER + 0.5));
  let slope = 1;
  for (let k = 0; k < 50; k++) {
    let [before, p] = [1, x];
    for (let n = 2; n <= ORDER; n++) [before, p] = [p, ((2 * n - 1) * x * p - (n - 1) * before) / n];
    slope = (ORDER * (x * p - before)) / (x * x - 1);
    x -= p / slope;
  }
  return { x, weight: 2 / ((1 - x * x) * slope * slope) };
});

/** Nodes over a length centred on zero, in panels of a quarter metre or less; weights add up to 1. One node where there is no length. */
function nodes(length: number): Node[] {
  if (length === 0) return [{ x: 0, weight: 1 }];
  const panels = Math.ceil(length / 0.25);
  return Array.from({ length: panels }, (_, i) =>
    legendre.map((n) => ({ x: length * ((i + 0.5 + n.x / 2) / panels - 0.5), weight: n.weight / 2 / panels })),
  ).flat();
}

const centre = (size: number, spread: number, i: number, n: number): number => size / 2 + spread * ((i + 0.5) / n - 0.5) * size;

/** PPFD at a point. */
export function plainLight(a: Arrangement, height: number): (x: number, y: number) => number {
  const m = Math.log(0.5) / Math.log(Math.cos(((a.beam / 2) * Math.PI) / 180));
  const xs = Array.from({ length: a.along }, (_, i) => centre(a.length, a.spreadAlong, i, a.along)).flatMap((c) =>
    nodes(a.faceLength).map((n) => ({ ...n, x: n.x + c })),
  );
  const ys = Array.from({ length: a.across }, (_, i) => centre(a.width, a.spreadAcross, i, a.across)).flatMap((c) =>
    nodes(a.faceWidth).map((n) => ({ ...n, x: n.x + c })),
  );
  const scale = (a.output * (m + 1) * height ** (m + 1)) / (2 * Math.PI);
  return (px, py) => {
    let sum = 0;
    for (const u of xs) for (const v of ys) sum += u.weight * v.weight * ((u.x - px) ** 2 + (v.x - py) ** 2 + height ** 2) ** (-(m + 3) / 2);
    return scale * sum;
  };
}

/** PPFD at each cell centre of an nx by ny grid. */
export function plainField(a: Arrangement, height: number, nx: number, ny: number): number[] {
  const light = plainLight(a, height);
  return Array.from({ length: nx * ny }, (_, k) => light((((k % nx) + 0.5) * a.length) / nx, ((Math.floor(k / nx) + 0.5) * a.width) / ny));
}

/** What the search for the brightest point leaves of it, as a share. */
export const PEAK = 2e-4;

/** PPFD at the brightest point: uphill from the best of the centres of the lights and of the bench, in ever smaller steps. */
export function plainBrightest(light: (x: number, y: number) => number, a: Arrangement): number {
  const within = (x: number, size: number): number => Math.min(size, Math.max(0, x));
  const starts = [...places(a), [a.length / 2, a.width / 2] as const].map(([u, v]) => {
    const [x, y] = [within(u, a.length), within(v, a.width)];
    return { x, y, e: light(x, y) };
  });
  let top = starts.reduce((most, start) => (start.e > most.e ? start : most));
  for (let step = 0.1; step > 1e-4; ) {
    const near = [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ].map(([i = 0, j = 0]) => {
      const [x, y] = [within(top.x + i * step, a.length), within(top.y + j * step, a.width)];
      return { x, y, e: light(x, y) };
    });
    const better = near.reduce((most, one) => (one.e > most.e ? one : most));
    if (better.e > top.e) top = better;
    else step /= 2;
  }
  return top.e;
}

/**
 * PPFD under one rectangular cosine emitter, u along and v across from its centre, in closed form: a horizontal element and a rectangle parallel
 * to it, from four rectangles with one corner over the element (J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, 2010,
 * entry B-3, number from memory), whose factor is 1/2π [a/√(1+a²) atan(b/√(1+a²)) + b/√(1+b²) atan(a/√(1+b²))], sides a and b in heights.
 */
export function underRectangle({ output, faceLength, faceWidth }: Arrangement, height: number, u: number, v: number): number {
  const corner = (a: number, b: number): number => {
    const [p, q] = [Math.hypot(1, a), Math.hypot(1, b)];
    return ((a / p) * Math.atan(b / p) + (b / q) * Math.atan(a / q)) / (2 * Math.PI);
  };
  const [left, right] = [(u - faceLength / 2) / height, (u + faceLength / 2) / height];
  const [front, back] = [(v - faceWidth / 2) / height, (v + faceWidth / 2) / height];
  const factor = corner(right, back) - corner(left, back) - corner(right, front) + corner(left, front);
  return (output / (faceLength * faceWidth)) * factor;
}

/** Centres of the fixtures of an arrangement, [along, across]. */
export const places = (a: Arrangement): (readonly [number, number])[] =>
  Array.from({ length: a.along * a.across }, (_, n) => [
    centre(a.length, a.spreadAlong, n % a.along, a.along),
    centre(a.width, a.spreadAcross, Math.floor(n / a.along), a.across),
  ]);

export const mean = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;

/** Lowest over mean of the points at least a margin from every edge of the bench. */
export function evennessInside({ length, width }: Arrangement, field: readonly number[], nx: number, ny: number, margin: number): number {
  const inside = field.filter((_, i) => {
    const [x, y] = [((i % nx) + 0.5) * (length / nx), (Math.floor(i / nx) + 0.5) * (width / ny)];
    return [x, length - x, y, width - y].every((away) => away >= margin - 1e-9);
  });
  return Math.min(...inside) / mean(inside);
}
