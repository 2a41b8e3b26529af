/** Round steps for scales: 1, 2, 2.5 or 5 times a power of ten. */
export function niceStep(range: number, most: number): number {
  const rough = range / most;
  const power = 10 ** Math.floor(Math.log10(rough > 0 ? rough : 1));
  const step = [1, 2, 2.5, 5, 10].find((m) => m * power >= rough * (1 - 1e-9)) ?? 10;
  return step * power;
}

/** Multiples of a round step from below `from` to above `to`. */
export function ticks(from: number, to: number, most: number): readonly number[] {
  const step = niceStep(to - from, most);
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

export interface LightScale {
  /** Lower edges of the steps, and the upper edge of the last. */
  readonly edges: readonly number[];
  readonly colours: readonly string[];
}

const MOST_STEPS = 9;

/** One scale for all scenarios: steps a grower reads, dark to bright. */
export function lightScale(low: number, high: number): LightScale {
  let step = niceStep(Math.max(high - low, high * 0.02, 1e-9), MOST_STEPS);
  let first = Math.floor(low / step + 1e-9);
  let last = Math.ceil(high / step - 1e-9);
  while (last - first > MOST_STEPS) {
    step = niceStep(step * MOST_STEPS * 1.01, MOST_STEPS);
    first = Math.floor(low / step + 1e-9);
    last = Math.ceil(high / step - 1e-9);
  }
  const n = Math.max(1, last - first);
  const edges = Array.from({ length: n + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
  const colours = Array.from({ length: n }, (_, i) => `var(--map-${n === 1 ? 5 : Math.round((i * 8) / (n - 1))})`);
  return { edges, colours };
}
