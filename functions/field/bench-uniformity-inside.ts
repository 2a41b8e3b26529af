import { calc, define, isRefusal, type Refusal, refuse } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT, NX, NY } from './field-params.ts';
import { showGrid, showPoint } from './field-steps.ts';
import { named } from './named.ts';
import { pointOf, type SampleField, sampleField } from './sample-field.ts';

/** Which of so many cell centres along one side lie at least so far from its ends, the first and the last: a point's distance from the edges is that along x or along y. */
function centresInside(cells: number, size: number, least: number): readonly number[] {
  const kept: number[] = [];
  for (let i = 0; i < cells; i++) {
    const x = ((i + 0.5) * size) / cells;
    if (x >= least && size - x >= least) kept.push(i);
  }
  return kept;
}

/** The sample points at least `margin` from every edge, in the order of the field. A point on the line counts, whatever its last digit. */
function inside(s: SampleField, margin: number): number[] | Refusal {
  const { length, width } = s.layout.bench;
  const least = margin - 1e-9;
  const columns = centresInside(s.nx, length, least);
  const kept: number[] = [];
  for (const j of centresInside(s.ny, width, least)) for (const i of columns) kept.push(j * s.nx + i);
  if (kept.length > 0) return kept;
  const most = Math.max(...Array.from(s.field, (_, i) => pointOf(s, i)).map(([x, y]) => Math.min(x, length - x, y, width - y)));
  // Rounded down, so that what is offered is taken.
  const works = Math.floor(most * 1000 + 1e-6) / 1000;
  return refuse(
    `no sample point lies ${Number(margin.toPrecision(4))} m from every edge of this bench; the farthest in is ${Number(most.toPrecision(4))} m from one. How far in the points must lie is the second length in the formula, the one after the mount height (left out, it is the mount height itself): write a length there of ${works} m or less.`,
  );
}

/** Lowest over mean of the sample points away from the edges. */
export const BENCH_UNIFORMITY_INSIDE = define({
  name: 'BENCH.UNIFORMITY.INSIDE',
  family: 'The field over a bench',
  summary: 'Evenness away from the edges: dimmest over mean of the sample points at least a margin from every edge.',
  use: 'Beside BENCH.UNIFORMITY: edges are dim over any bench, so this says whether the rows themselves are spaced well. It depends on the sample grid.',
  formula: 'least E / mean E, over the points at least the margin from every edge',
  params: [
    LAYOUT_TEXT,
    HEIGHT,
    {
      name: 'margin',
      quantity: 'distance from the edges',
      unit: 'm',
      meaning: 'points nearer to an edge are left out; left out itself: the mount height',
      optional: true,
      atLeast: 0,
      atMost: 100,
    },
    NX,
    NY,
  ],
  returns: { quantity: 'evenness away from the edges, low to mean', unit: '1' },
  source:
    'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program; a margin of one mount height, common practice, no published source',
  examples: [{ formula: 'BENCH.UNIFORMITY.INSIDE(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,0,24,12)', gives: 0.48, within: 1e-2 }],
  work: ([layout, height, margin, nx, ny], show) => {
    const s = sampleField(layout, height, nx, ny);
    if (isRefusal(s)) return named('BENCH.UNIFORMITY.INSIDE', s);
    const kept = inside(s, margin ?? height);
    if (isRefusal(kept)) return named('BENCH.UNIFORMITY.INSIDE', kept);
    const at = (i: number): number => s.field[i] as number;
    let [sum, lowAt] = [0, kept[0] as number];
    for (const i of kept) {
      sum += at(i);
      if (at(i) < at(lowAt)) lowAt = i;
    }
    const mean = sum / kept.length;
    const value = at(lowAt) / mean;
    if (show) {
      showGrid(show, s);
      const [x, y] = pointOf(s, lowAt);
      showPoint(show, s.layout, s.height, x, y, at(lowAt), 'dimmest point inside');
      const terms = () =>
        kept.map((i) => ({
          label: `point ${pointOf(s, i)
            .map((v) => Number(v.toPrecision(6)))
            .join(', ')} m`,
          value: at(i),
        }));
      show.sum(`mean of the ${kept.length} points inside`, terms, 1 / kept.length, mean, 'µmol/m²/s');
      show.expression('low over mean', calc`${at(lowAt)} / ${mean}`, value, '1');
    }
    return value;
  },
});
