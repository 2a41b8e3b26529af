/** The bench from its end, to scale: what hangs how high over what. */
import { nothing, svg, type TemplateResult } from 'lit/html.js';
import type { PictureField } from '../engine/types.ts';
import { cellDimension, type Dimension, dimensionUp, drawnIn, label, lengthsIn, paper, round, said, scaleFor, scaleText, widthOf } from './drawing.ts';
import { section } from './pieces.ts';
import type { Found, Reader } from './reader.ts';

const ROOM = { along: 64, across: 72 };
/** Thickness of a light where the book does not say it, m. */
const THIN = 0.03;

/** A level across the drawing, m over the lowest thing drawn. */
interface Level {
  readonly at: number;
  readonly name: string;
  readonly solid?: boolean;
  /** Its height over the ground, as a cell says it. */
  readonly says?: Found;
}

interface Heights {
  readonly levels: readonly Level[];
  readonly leaves: number;
  readonly faces: number;
  readonly top: number;
}

export function side(reader: Reader, field: PictureField): TemplateResult | typeof nothing {
  const height = reader.row('height') ?? reader.named('height');
  const width = reader.named('bench_width');
  if (height?.value.kind !== 'number' || !width) return nothing;
  const { levels, leaves, faces, top } = heightsOf(reader, height.value.base);
  const ends = {
    left: Math.min(0, ...field.fixtures.map((f) => f.y - f.width / 2)),
    right: Math.max(field.width, ...field.fixtures.map((f) => f.y + f.width / 2)),
  };
  const unit = drawnIn(height);
  const scale = scaleFor(ends.right - ends.left, top, ROOM.along, ROOM.across, unit);
  const mm = (metres: number): number => (metres * 1000) / scale;
  const x = (metres: number): number => mm(metres - ends.left);
  const y = (metres: number): number => mm(top - metres);
  const wide = x(ends.right);
  const thick = reader.number('depth') ?? THIN;
  const rows = [...new Set(field.fixtures.map((f) => Number(f.y.toFixed(6))))];
  const deep = field.fixtures[0]?.width ?? 0;
  const texts = apart(levels.map((level) => y(level.at)));
  const dimension = wide + 8;
  const labels = dimension + 6 + (Math.abs(y(faces) - y(leaves)) > widthOf(height.text) + 3 ? 0 : widthOf(height.text));
  const wording = levels.map(({ name, says }) => (says ? `${name} ` : name));
  const sizes = levels.map(({ says }): Dimension => (says ? cellDimension(says, unit) : { text: '' }));
  const room = Math.max(...sizes.map(({ text }, i) => widthOf(`${wording[i]}${text}`)));
  const drawing = paper(
    -2,
    -5,
    labels + room + 4,
    mm(top) + 13,
    `Side view, ${scaleText(scale, unit)}: faces of the lights ${height.text} over the leaf tops`,
    svg`${levels.map(
      (level, i) => svg`<path class=${level.solid ? 'ground' : 'level'} d="M-2,${round(y(level.at))}H${round(wide + 4)}" />
        <path class="lead" d="M${round(wide + 4)},${round(y(level.at))}L${round(labels - 2)},${round(texts[i] ?? 0)}h1" />
        <text x=${round(labels)} y=${round((texts[i] ?? 0) + 1)}>${wording[i]}${said(sizes[i] ?? { text: '' })}</text>`,
    )}
      ${rows.map(
        (row) => svg`<path class="cord" d="M${round(x(row))},${round(y(faces + thick))}V${round(y(top))}" />
        <rect class="light" x=${round(x(row - deep / 2))} y=${round(y(faces + thick))} width=${round(Math.max(0.8, mm(deep)))} height=${round(mm(thick))} />`,
      )}
      ${leavesAt(x(0), x(field.width), y(leaves))}
      ${dimensionUp(dimension, y(faces), y(leaves), cellDimension(height, unit))}
      ${label(0, mm(top) + 7, 'seen from its end')}`,
  );
  return section('side', 'Side', drawing, `${scaleText(scale, unit)}, lengths in ${lengthsIn(unit)}; from the light’s face to the leaf tops`);
}

/** What is drawn, from the ground up: a shelf and the one above it, a bed with growing plants, or just leaf tops and lights. */
function heightsOf(reader: Reader, height: number): Heights {
  const [tray, plants, gap] = ['tray_height', 'plant_height', 'tier_gap'].map((name) => reader.named(name));
  const amount = (found: Found | undefined): number => (found?.value.kind === 'number' ? found.value.base : 0);
  if (tray && plants && gap) {
    const leaves = amount(tray) + amount(plants);
    return {
      levels: [
        { at: 0, name: 'shelf', solid: true },
        { at: amount(tray), name: 'tray', says: tray },
        { at: leaves, name: 'leaf tops, plants', says: plants },
        { at: amount(gap), name: 'shelf above, room', solid: true, says: gap },
      ],
      leaves,
      faces: leaves + height,
      top: amount(gap),
    };
  }
  const hung = reader.row('mount_1');
  const [low, high, tall] = ['lift_low', 'lift_top', 'final_height'].map((name) => reader.named(name));
  if (hung && low && high && tall) {
    const faces = amount(hung);
    return {
      levels: [
        { at: 0, name: 'soil', solid: true },
        { at: faces - height, name: 'leaf tops on the day' },
        { at: faces, name: 'lights, week 1', says: hung },
        { at: amount(low), name: 'lowest', says: low },
        { at: amount(tall), name: 'plants at the end', says: tall },
        { at: amount(high), name: 'highest', says: high },
      ],
      leaves: faces - height,
      faces,
      top: Math.max(amount(high), faces + THIN),
    };
  }
  const [lowest, highest] = ['lowest_mount', 'highest_mount'].map((name) => reader.named(name));
  const top = Math.max(amount(highest), height * 1.25);
  return {
    levels: [
      { at: 0, name: 'leaf tops', solid: true },
      ...(lowest && amount(lowest) > 0 ? [{ at: amount(lowest), name: 'lowest', says: lowest }] : []),
      ...(highest && amount(highest) > 0 ? [{ at: amount(highest), name: 'highest', says: highest }] : []),
    ],
    leaves: 0,
    faces: height,
    top,
  };
}

function leavesAt(from: number, to: number, y: number): TemplateResult {
  const count = Math.max(1, Math.floor((to - from) / 4));
  const step = (to - from) / count;
  const leaf = (x: number): string => `M${round(x)},${round(y + 3.2)}c-1,-1.3 -.4,-2.3 0,-3c.6,1 1.2,1.8 0,2.8`;
  return svg`<path class="leaf" d=${Array.from({ length: count }, (_, i) => leaf(from + (i + 0.5) * step)).join('')} />`;
}

/** Texts beside levels keep their distance. */
function apart(ys: readonly number[]): readonly number[] {
  const placed: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (const { y, i } of ys.map((y, i) => ({ y, i })).sort((a, b) => a.y - b.y)) {
    last = Math.max(y, last + 3.8);
    placed[i] = last;
  }
  return placed;
}
