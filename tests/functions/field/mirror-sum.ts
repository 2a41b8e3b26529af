/**
 * A sum over the mirror images of a bench between four reflecting sides, to a bound that is proved and not guessed. Image (i, j) stands i
 * benches along and j across, with ρ^(|i|+|j|) of the light. It is summed ring by ring, |i| + |j| = n, until the rest cannot matter:
 *
 * No element of an image of ring n is nearer to a point of the bench than d(n) = (n − 2)·LW/√(L² + W²): it lies at least (|i| − 1)L away along and
 * (|j| − 1)W across, and of all such pairs with |i| + |j| = n that one is nearest. Ring s has 4s images, and a face gives no more than its
 * whole output from its nearest element would. So the rest beyond ring n is at most
 *
 *   most(d(n+1)) · Σ_{s>n} 4s ρ^s  =  most(d(n+1)) · 4ρ^(n+1) ((n+1) − nρ)/(1 − ρ)²
 */
const LEFT = 1e-9;

/** `from(i, j)`: what image (i, j) of all the faces gives, undimmed. `most(d)`: the most that they can give with every element at least d away horizontally. */
export function mirrorSum(
  bench: { readonly length: number; readonly width: number },
  sides: number,
  from: (i: number, j: number) => number,
  most: (distance: number) => number,
): number {
  const { length, width } = bench;
  let sum = from(0, 0);
  for (let n = 1; ; n++) {
    const nearest = (Math.max(0, n - 2) * length * width) / Math.hypot(length, width);
    const rest = (most(nearest) * 4 * sides ** n * (n - (n - 1) * sides)) / (1 - sides) ** 2;
    if (rest <= LEFT * sum) return sum;
    let ring = 0;
    for (let i = -n; i <= n; i++) {
      const j = n - Math.abs(i);
      ring += from(i, j) + (j === 0 ? 0 : from(i, -j));
    }
    sum += sides ** n * ring;
  }
}

/** Where the image that stands i benches from the first has what is at x. */
export const imageAt = (x: number, i: number, size: number): number => i * size + (i % 2 === 0 ? x : size - x);
