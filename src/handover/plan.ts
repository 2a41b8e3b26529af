/** The bench from above, to scale, each light in its place and numbered, with the dimensions by which it is hung. */
import { html, nothing, svg, type TemplateResult } from 'lit/html.js';
import type { PictureField } from '../engine/types.ts';
import {
  cellDimension,
  type Dimension,
  dimensionAlong,
  dimensionUp,
  drawnIn,
  lengthsIn,
  lengthText,
  paper,
  round,
  scaleBar,
  scaleFor,
  scaleText,
} from './drawing.ts';
import { section, sideways } from './pieces.ts';
import type { Reader } from './reader.ts';

/** mm that the bench may take on paper, dimensions apart. */
const ROOM = { along: 152, across: 74 };
const MARGIN = { left: 9, right: 18, top: 13, bottom: 14 };
/** More lights than this are drawn without numbers. */
const NUMBERED = 60;

export function plan(reader: Reader, field: PictureField): TemplateResult | typeof nothing {
  const length = reader.named('bench_length');
  const width = reader.named('bench_width');
  const layout = reader.row('layout');
  if (!length || !width || !layout) return nothing;
  const { fixtures } = field;
  const edges = {
    left: Math.min(0, ...fixtures.map((f) => f.x - f.length / 2)),
    right: Math.max(field.length, ...fixtures.map((f) => f.x + f.length / 2)),
    near: Math.min(0, ...fixtures.map((f) => f.y - f.width / 2)),
    far: Math.max(field.width, ...fixtures.map((f) => f.y + f.width / 2)),
  };
  const unit = drawnIn(length);
  const scale = scaleFor(edges.right - edges.left, edges.far - edges.near, ROOM.along, ROOM.across, unit);
  const mm = (metres: number): number => (metres * 1000) / scale;
  const x = (metres: number): number => mm(metres - edges.left);
  const y = (metres: number): number => mm(edges.far - metres);
  const [right, bottom] = [x(edges.right), y(edges.near)];
  const derived = (metres: number): Dimension => ({ text: lengthText(metres, unit), from: layout.address });
  const [long, wide] = [cellDimension(length, unit), cellDimension(width, unit)];
  const columns = places(fixtures.map((f) => f.x));
  const rows = places(fixtures.map((f) => f.y));
  const lights = fixtures.map(
    (f) =>
      svg`<rect class="light" x=${round(x(f.x - f.length / 2))} y=${round(y(f.y + f.width / 2))} width=${round(Math.max(0.8, mm(f.length)))} height=${round(Math.max(0.8, mm(f.width)))} />`,
  );
  const numbers = fixtures.map((f, i) => svg`<text class="number" x=${round(x(f.x))} y=${round(y(f.y) + 0.95)} text-anchor="middle">${i + 1}</text>`);
  const drawing = paper(
    -MARGIN.left,
    -MARGIN.top,
    right + MARGIN.left + MARGIN.right,
    bottom + MARGIN.top + MARGIN.bottom,
    `Plan, ${scaleText(scale, unit)}: ${fixtures.length} lights over a bench of ${long.text} by ${wide.text}`,
    svg`<rect class="bench" x=${round(x(0))} y=${round(y(field.width))} width=${round(mm(field.length))} height=${round(mm(field.width))} />
      ${lights}${fixtures.length <= NUMBERED ? numbers : nothing}
      ${spacing(columns).map(([from, to], i) => dimensionAlong(x(from), x(to), i === 0 ? -5 : -9.5, derived(to - from)))}
      ${spacing(rows).map(([from, to]) => dimensionUp(right + 5, y(to), y(from), derived(to - from)))}
      ${dimensionAlong(x(0), x(field.length), bottom + 5, long)}
      ${dimensionUp(-6, y(field.width), y(0), wide)}
      ${scaleBar(x(0), bottom + 11, scale, unit)}`,
  );
  const each = reader.first(['shelves', 'tiers']);
  const one = each ? `; one of ${each.text}, all alike` : '';
  return section(
    'plan',
    'Plan',
    sideways('Plan, to scale', drawing),
    html`${scaleText(scale, unit)}, seen from above, lengths in ${lengthsIn(unit)}${one}; to the middle of the first light, and on to the next`,
  );
}

/** Where lights stand along one side, each place once. */
function places(all: readonly number[]): readonly number[] {
  const sorted = [...all].sort((a, b) => a - b);
  return sorted.filter((place, i) => i === 0 || place - (sorted[i - 1] ?? 0) > 1e-6);
}

/** From the bench's edge to the first place, and from there to the second: in a regular layout the others follow. */
function spacing([first, second]: readonly number[]): readonly (readonly [number, number])[] {
  if (first === undefined || first <= 0) return second === undefined || first === undefined ? [] : [[first, second]];
  return second === undefined
    ? [[0, first]]
    : [
        [0, first],
        [first, second],
      ];
}
