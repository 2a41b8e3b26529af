/** Where nothing holds: the arrangements that come nearest, by how few checks stand in their way. */
import type { Miss } from './probe.ts';
import type { Searcher } from './searcher.ts';
import { arrangementAt, type Height, type Space } from './space.ts';

/** Arrangements that fail in no more checks than that are looked at, or in as few as any does. */
const MOST = 2;
/** So many layouts are looked at, or a few of each arrangement: of a space with more of them some heights, from the lowest to the highest. */
const LOOKED_AT = 12_000;
const LEAST_HEIGHTS = 4;

/** The heights at which arrangements are looked at. */
export function heightsLookedAt({ heights, arrangements }: Space): readonly Height[] {
  const most = Math.max(LEAST_HEIGHTS, Math.floor(LOOKED_AT / arrangements));
  if (heights.length <= most) return heights;
  return Array.from({ length: most }, (_, i) => heights[Math.round((i * (heights.length - 1)) / (most - 1))] as Height);
}

export function missesOf(searcher: Searcher, beat: () => void): readonly Miss[] {
  const { probe, space, classes, feeds } = searcher;
  const [lowest] = space.heights as readonly [Height];
  const heights = heightsLookedAt(space);
  const found: Miss[] = [];
  let fewest = Number.POSITIVE_INFINITY;
  const failing = (places: readonly number[]): readonly number[] => places.filter((i) => !probe.stands(i));
  const tooMany = (fails: readonly number[]): boolean => fails.length > Math.max(fewest, MOST);
  for (let place = 0; place < space.arrangements; place++) {
    beat();
    const arrangement = arrangementAt(space, place);
    searcher.begin(arrangement);
    if (!probe.isBuilt()) continue;
    const early = failing([...classes.constant, ...classes.fixture, ...classes.layout]);
    if (tooMany(early)) continue;
    const options = feeds.misses(arrangement, lowest).map(({ fed, fails }) => ({ fed, fails: [...early, ...fails] }));
    const [first] = options;
    if (!first || tooMany(first.fails)) continue;
    for (const height of heights) {
      probe.put(arrangement, height, probe.dims.high, first.fed);
      const hung = failing(classes.height);
      if (tooMany([...first.fails, ...hung])) continue;
      const dim = searcher.dim(arrangement, height, first.fed);
      const high = [...hung, ...failing(classes.dim)];
      for (const { fed, fails } of options) {
        if (classes.late.length > 0) probe.put(arrangement, height, dim, fed);
        const all = [...fails, ...high, ...failing(classes.late)];
        if (all.length === 0 || tooMany(all)) continue;
        fewest = Math.min(fewest, all.length);
        found.push({ arrangement, height, dim, fed, fails: all });
      }
    }
  }
  return found.filter(({ fails }) => !tooMany(fails));
}
