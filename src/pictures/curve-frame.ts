/** A frame with axes for curves: light up, a length across. */
import { nothing, svg, type TemplateResult } from 'lit/html.js';
import type { Book } from '../book/book.ts';
import { lengthAxis, lengthTicks } from './length-ticks.ts';
import { niceStep, ticks } from './scale.ts';

export interface Curve {
  readonly letter: string;
  /** Along the frame's own axis, and the light there. */
  readonly points: readonly (readonly [number, number])[];
  readonly on: boolean;
}

export interface FrameInput {
  readonly curves: readonly Curve[];
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly target?: number | undefined;
  /** Said under the axis, after the unit: " along, through the middle". */
  readonly across: string;
  readonly measures: Book['measures'];
  /** Where each scenario stands now. */
  readonly marks?: readonly { readonly letter: string; readonly at: readonly [number, number]; readonly on: boolean }[];
  readonly name: string;
}

/** Scenarios are told apart by letter and stroke, not by colour. */
const STROKES: readonly string[] = ['none', '7 3', '2 3', '9 3 2 3', '12 4'];

export function curveFrame(input: FrameInput, width: number, height: number): TemplateResult {
  const margin = { left: 40, right: 26, top: 14, bottom: 36 };
  const [w, h] = [width - margin.left - margin.right, height - margin.top - margin.bottom];
  const x = (v: number): number => ((v - input.from) / (input.to - input.from)) * w;
  const y = (v: number): number => h - (v / input.top) * h;
  const { low, high, target } = input;
  const ends = spread(
    input.curves.map((curve, i) => ({ i, y: y(curve.points.at(-1)?.[1] ?? 0) })),
    13,
  );
  return svg`<svg viewBox="0 0 ${round(width)} ${height}" role="img" aria-label=${input.name}>
    <g transform="translate(${margin.left},${margin.top})">
      ${low !== undefined && high !== undefined ? svg`<rect class="band" x="0" y=${round(y(Math.min(high, input.top)))} width=${round(w)} height=${round(Math.max(0, y(low) - y(Math.min(high, input.top))))} />` : nothing}
      ${low !== undefined && low <= input.top ? svg`<path d="M0,${round(y(low))}H${round(w)}" stroke="var(--ink)" stroke-width="1" />` : nothing}
      ${high !== undefined && high <= input.top ? svg`<path d="M0,${round(y(high))}H${round(w)}" stroke="var(--ink)" stroke-width="1" stroke-dasharray="5 3" />` : nothing}
      ${target !== undefined && target <= input.top ? svg`<path d="M0,${round(y(target))}H${round(w)}" stroke="var(--accent)" stroke-width="1.2" stroke-dasharray="1 3" /><text class="tick" x=${round(w - 2)} y=${round(y(target) - 4)} font-size="11" text-anchor="end">aim ${Math.round(target)}</text>` : nothing}
      <path class="axis" d="M0,0V${round(h)}H${round(w)}" fill="none" />
      ${ticks(0, input.top, Math.max(2, Math.floor(h / 36))).map((v) => svg`<path class="axis" d="M0,${round(y(v))}h-4" /><text class="tick" x="-7" y=${round(y(v) + 4)} font-size="11" text-anchor="end">${v}</text>`)}
      ${lengthTicks(input.from, input.to, Math.max(2, Math.floor(w / 60)), input.measures).map(({ at, text }) => svg`<path class="axis" d="M${round(x(at))},${round(h)}v4" /><text class="tick" x=${round(x(at))} y=${round(h + 16)} font-size="11" text-anchor="middle">${text}</text>`)}
      <text class="tick" x=${round(w)} y=${round(h + 31)} font-size="11" text-anchor="end">${lengthAxis(input.across, input.measures)}</text>
      <text class="tick" x="5" y="-3" font-size="11">µmol/m²/s</text>
      ${input.curves.map(
        (
          curve,
          i,
        ) => svg`<path class="series ${curve.on ? 'on' : ''}" d=${line(curve.points, x, y)} stroke-width=${curve.on ? 2.4 : 1.5} stroke-dasharray=${STROKES[i % STROKES.length] ?? 'none'} />
          <text x=${round(w + 8)} y=${round((ends[i] ?? 0) + 4)} font-size="13" font-weight="660">${curve.letter}</text>`,
      )}
      ${
        // At the end of a curve its letter stands already.
        (input.marks ?? []).map(
          ({ letter, at, on }) =>
            svg`<circle cx=${round(x(at[0]))} cy=${round(y(at[1]))} r=${on ? 5 : 4} fill=${on ? 'var(--accent)' : 'var(--sheet)'} stroke="var(--ink)" stroke-width="1.5" />${x(at[0]) > w - 24 ? nothing : svg`<text x=${round(x(at[0]) + 7)} y=${round(y(at[1]) - 7)} font-size="12" font-weight="660">${letter}</text>`}`,
        )
      }
    </g>
  </svg>`;
}

const line = (points: Curve['points'], x: (v: number) => number, y: (v: number) => number): string =>
  points.map(([a, b], i) => `${i === 0 ? 'M' : 'L'}${round(x(a))},${round(y(b))}`).join('');

/** Letters at the ends of curves keep their distance. */
function spread(ends: readonly { readonly i: number; readonly y: number }[], gap: number): readonly number[] {
  const placed: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (const end of [...ends].sort((a, b) => a.y - b.y)) {
    last = Math.max(end.y, last + gap);
    placed[end.i] = last;
  }
  return placed;
}

const round = (x: number): number => Math.round(x * 10) / 10;

/** Each curve's least and most, in words. */
export const ranges = (curves: readonly { readonly letter: string; readonly points: readonly (readonly [number, number])[] }[]): string =>
  curves
    .map(({ letter, points }) => {
      const values = points.map(([, v]) => v);
      return `${letter} ${Math.round(Math.min(...values))} to ${Math.round(Math.max(...values))}`;
    })
    .join(', ');

/** The top of an axis that holds all of it. */
export const roundUp = (x: number): number => {
  const step = niceStep(Math.max(x, 1e-9), 6);
  return Math.ceil(x / step - 1e-9) * step;
};
