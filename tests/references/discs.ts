/** A round face as a formula of ours: no function takes one, but it is a sum of bars, or, under its centre, of points. */

/** Nodes and weights of Gauss and Legendre on 0 to 1, by Newton's method on the Legendre polynomial (NIST DLMF, §3.5(v)). */
export function legendre(n: number): { at: number; weight: number }[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 20; round++) {
      let [before, value] = [0, 1];
      for (let k = 0; k < n; k++) [before, value] = [value, ((2 * k + 1) * x * value - k * before) / (k + 1)];
      slope = (n * (x * value - before)) / (x * x - 1);
      x -= value / slope;
    }
    return { at: (1 + x) / 2, weight: 1 / ((1 - x * x) * slope * slope) };
  });
}

const digits = (x: number): string => String(Number(x.toPrecision(15)));

/** Under the centre: rings of points, at the nodes of the radius, each with its share 2ρ dρ of the area. */
export const underDisc = (ppf: number, radius: number, beam: number, height: number, rings: number): string =>
  `(${legendre(rings)
    .map(({ at, weight }) => `POINT.PPFD(${digits(ppf * 2 * at * weight)},${beam},${height},${digits(radius * at)})`)
    .join('+')})`;

/** Beside it: chords across the way to the point, at the nodes of Gauss and Chebyshev of the second kind, whose weight is a chord's length. */
export function besideDisc(ppf: number, radius: number, beam: number, height: number, offset: number, chords: number): string {
  const bars = Array.from({ length: chords }, (_, i) => {
    const angle = ((i + 1) * Math.PI) / (chords + 1);
    const share = (2 / (chords + 1)) * Math.sin(angle) ** 2;
    return `BAR.PPFD(${digits(ppf * share)},${digits(2 * radius * Math.sin(angle))},0,${beam},${height},0,${digits(offset - radius * Math.cos(angle))})`;
  });
  return `(${bars.join('+')})`;
}

/** The share of a point source's photons inside a circle under it: PPFD over the circle, rings again. */
export const shareInCircle = (beam: number, height: number, radius: number, rings: number): string =>
  `${underDisc(1, radius, beam, height, rings)}*UNIT(${digits(Math.PI * radius * radius)},"m2")/UNIT(1,"µmol/s")`;
