/** Light over a bench seen from above: filled contours in steps, the target band outlined, fixtures to scale, lowest and highest points named. */
import { contours } from 'd3-contour';
import { nothing, svg, type TemplateResult } from 'lit/html.js';
import type { Book } from '../book/book.ts';
import type { PictureField } from '../engine/types.ts';
import { lengthTicks } from './length-ticks.ts';
import type { LightScale } from './scale.ts';

export interface MapInput {
  readonly field: PictureField;
  /** The field is multiplied by it. */
  readonly scale: number;
  readonly low: number | undefined;
  readonly high: number | undefined;
}

export interface Extremes {
  readonly low: number;
  readonly high: number;
}

export function extremes({ field, scale }: MapInput): Extremes {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of field.values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low: low * scale, high: high * scale };
}

/** Width to height at which the bench fills a picture without making it taller than it is wide. */
const TALLEST = 0.9;

export function contourMap(
  input: MapInput,
  steps: LightScale,
  width: number,
  options: { readonly id: string; readonly small: boolean; readonly name: string; readonly measures: Book['measures'] },
): TemplateResult {
  const { field, scale } = input;
  const { small, id } = options;
  const margin = small ? { left: 1, right: 1, top: 1, bottom: 1 } : { left: 34, right: 26, top: 8, bottom: 24 };
  const room = width - margin.left - margin.right;
  const perMetre = Math.min(room / field.length, (room * TALLEST) / field.width);
  const [w, h] = [field.length * perMetre, field.width * perMetre];
  const regions = regionsOf(field, scale);
  const path = (level: number): string => regions(level, w, h);
  const frame = `M0,0H${round(w)}V${round(h)}H0Z`;
  const [x, y] = [(m: number) => m * perMetre, (m: number) => h - m * perMetre];
  return svg`<svg viewBox="0 0 ${round(width)} ${round(h + margin.top + margin.bottom)}" role="img" aria-label=${options.name}>
    <defs>
      <clipPath id="${id}-bench"><rect width=${round(w)} height=${round(h)} /></clipPath>
      ${input.low === undefined ? nothing : svg`<clipPath id="${id}-below"><path d=${frame + path(input.low)} clip-rule="evenodd" /></clipPath>`}
      ${input.high === undefined ? nothing : svg`<clipPath id="${id}-above"><path d=${path(input.high)} /></clipPath>`}
    </defs>
    <g transform="translate(${margin.left},${margin.top})">
      <g clip-path="url(#${id}-bench)">
        <rect width=${round(w)} height=${round(h)} fill=${steps.colours[0] ?? ''} />
        ${steps.edges.slice(1, -1).map((edge, i) => svg`<path d=${path(edge)} fill=${steps.colours[i + 1] ?? ''} />`)}
        ${input.low === undefined ? nothing : svg`<g clip-path="url(#${id}-below)">${hatched(w, h)}</g>`}
        ${input.high === undefined ? nothing : svg`<g clip-path="url(#${id}-above)">${dotted(w, h)}</g>`}
        ${input.low === undefined ? nothing : limit(path(input.low), false, small)}
        ${input.high === undefined ? nothing : limit(path(input.high), true, small)}
        ${field.fixtures.map((f) => svg`<rect class="fixture" x=${round(x(f.x - f.length / 2) - 0.5)} y=${round(y(f.y + f.width / 2) - 0.5)} width=${round(Math.max(2, x(f.length)) + 1)} height=${round(Math.max(2, x(f.width)) + 1)} fill="#fff8ec" fill-opacity=".14" stroke="#1f2430" stroke-width=${small ? 0.8 : 1.2} />`)}
      </g>
      <rect width=${round(w)} height=${round(h)} fill="none" stroke="var(--ink)" stroke-width="1.2" />
      ${small ? nothing : axes(field, w, h, x, y, options.measures)}
      ${small ? nothing : points(input, w, x, y)}
    </g>
  </svg>`;
}

/**
 * Slanting lines and rows of dots over all of the picture, to be cut to a region. Strokes, not fill patterns: a printed file keeps strokes as
 * lines and turns patterns into dots of its own.
 */
function hatched(w: number, h: number): TemplateResult {
  const starts = Array.from({ length: Math.ceil((w + h) / 9.9) }, (_, i) => i * 9.9 - h);
  return svg`<path d=${starts.map((x) => `M${round(x)},${round(h)}L${round(x + h)},0`).join('')} fill="none" stroke="#fff8ec" stroke-opacity=".42" stroke-width="1.6" />`;
}

function dotted(w: number, h: number): TemplateResult {
  const rows = Array.from({ length: Math.ceil(h / 9) }, (_, i) => i * 9 + 2.5);
  return svg`<path d=${rows.map((y) => `M2.5,${y}H${round(w)}`).join('')} fill="none" stroke="#1f2430" stroke-opacity=".62" stroke-width="2.2" stroke-linecap="round" stroke-dasharray="0 9" />`;
}

function limit(d: string, dashed: boolean, small: boolean): TemplateResult {
  return svg`<path class="halo" d=${d} fill="none" stroke-width=${small ? 2.6 : 4} stroke-linejoin="round" />
    <path class="target" d=${d} fill="none" stroke-width=${small ? 1 : 1.7} stroke-dasharray=${dashed ? '5 3' : 'none'} />`;
}

function axes(field: PictureField, w: number, h: number, x: (m: number) => number, y: (m: number) => number, measures: Book['measures']): TemplateResult {
  const along = lengthTicks(0, field.length, Math.max(2, Math.floor(w / 70)), measures);
  const across = lengthTicks(0, field.width, Math.max(2, Math.floor(h / 40)), measures);
  const unit = measures === 'metric' ? ' m' : '';
  return svg`${along.map(({ at, text }, i) => svg`<path class="axis" d="M${round(x(at))},${round(h)}v4" /><text class="tick" x=${round(x(at))} y=${round(h + 16)} font-size="11" text-anchor="middle">${text}${i === along.length - 1 ? unit : ''}</text>`)}
    ${across.map(({ at, text }) => svg`<path class="axis" d="M0,${round(y(at))}h-4" /><text class="tick" x="-7" y=${round(y(at) + 4)} font-size="11" text-anchor="end">${text}</text>`)}`;
}

/** The dimmest and the brightest sample point; of several alike the first. */
function points({ field, scale }: MapInput, w: number, x: (m: number) => number, y: (m: number) => number): TemplateResult {
  let [lowAt, highAt] = [0, 0];
  const { values, nx, ny } = field;
  for (let i = 1; i < values.length; i++) {
    if ((values[i] ?? 0) < (values[lowAt] ?? 0) * (1 - 1e-9)) lowAt = i;
    if ((values[i] ?? 0) > (values[highAt] ?? 0) * (1 + 1e-9)) highAt = i;
  }
  return svg`${[
    { at: lowAt, word: 'low' },
    { at: highAt, word: 'high' },
  ].map(({ at, word }) => {
    const px = x((((at % nx) + 0.5) * field.length) / nx);
    const py = y(((Math.floor(at / nx) + 0.5) * field.width) / ny);
    const text = `${word} ${Math.round((values[at] ?? 0) * scale)}`;
    const wide = text.length * 6.6 + 10;
    const left = px + wide + 10 > w ? px - wide - 7 : px + 7;
    return svg`<circle class="pip" cx=${round(px)} cy=${round(py)} r="3.6" stroke="#1f2430" stroke-width="1.6" /><rect class="pip" x=${round(left)} y=${round(py - 9)} width=${round(wide)} height="18" rx="2" /><text class="pip-text" x=${round(left + wide / 2)} y=${round(py + 4)} font-size="11.5" font-weight="640" text-anchor="middle">${text}</text>`;
  })}`;
}

/**
 * The region where the light is at a level or over it, as a path. The samples stand at cell centres; the outermost are repeated once
 * beyond the edge, so that contours run out over it and are cut there.
 */
function regionsOf(field: PictureField, scale: number): (level: number, w: number, h: number) => string {
  const { nx, ny, values } = field;
  const [px, py] = [nx + 2, ny + 2];
  const padded = new Array<number>(px * py);
  const within = (i: number, n: number): number => Math.max(0, Math.min(n - 1, i));
  for (let j = 0; j < py; j++) {
    for (let i = 0; i < px; i++) padded[j * px + i] = (values[within(j - 1, ny) * nx + within(i - 1, nx)] ?? 0) * scale;
  }
  const make = contours().size([px, py]);
  return (level, w, h) => {
    const { coordinates } = make.contour(padded, level);
    let d = '';
    for (const polygon of coordinates) {
      for (const ring of polygon) {
        for (const [i, point] of ring.entries())
          d += `${i === 0 ? 'M' : 'L'}${round((((point[0] ?? 0) - 1) * w) / nx)},${round(h - (((point[1] ?? 0) - 1) * h) / ny)}`;
        d += 'Z';
      }
    }
    return d;
  };
}

/** The key, to scale: steps with their edges, the band bracketed. */
export function mapKey(steps: LightScale, width: number, low: number | undefined, high: number | undefined, id: string): TemplateResult {
  const [from, to] = [steps.edges[0] ?? 0, steps.edges.at(-1) ?? 1];
  const left = 14;
  const room = Math.min(width - left - 90, 480);
  const at = (v: number): number => left + ((Math.max(from, Math.min(to, v)) - from) / (to - from)) * room;
  const inside = (v: number | undefined): v is number => v !== undefined && v > from && v < to;
  const bracket = inside(low) || inside(high);
  const [a, b] = [at(low ?? from), at(high ?? to)];
  const clash = (v: number): boolean => [low, high].some((l) => inside(l) && Math.abs(at(l) - at(v)) < 26);
  return svg`<svg class="map-key" viewBox="0 0 ${round(width)} 52" role="img" aria-label="Scale from ${from} to ${to} µmol/m²/s${low !== undefined && high !== undefined ? `; target band ${Math.round(low)} to ${Math.round(high)}` : ''}">
    <defs>
      ${low === undefined ? nothing : svg`<clipPath id="${id}-below"><rect x=${left} y="20" width=${round(a - left)} height="10" /></clipPath>`}
      ${high === undefined ? nothing : svg`<clipPath id="${id}-above"><rect x=${round(b)} y="20" width=${round(left + room - b)} height="10" /></clipPath>`}
    </defs>
    ${steps.colours.map((colour, i) => svg`<rect x=${round(at(steps.edges[i] ?? 0))} y="20" width=${round(at(steps.edges[i + 1] ?? 0) - at(steps.edges[i] ?? 0) + 0.5)} height="10" fill=${colour} />`)}
    ${low !== undefined && low > from ? svg`<g clip-path="url(#${id}-below)">${hatched(left + room, 30)}</g>` : nothing}
    ${high !== undefined && high < to ? svg`<g clip-path="url(#${id}-above)">${dotted(left + room, 30)}</g>` : nothing}
    ${steps.edges.map((edge) => (clash(edge) ? nothing : svg`<text class="tick" x=${round(at(edge))} y="44" font-size="11" text-anchor="middle">${edge}</text>`))}
    <text class="tick" x=${round(left + room + 22)} y="44" font-size="11">µmol/m²/s</text>
    ${
      bracket
        ? svg`<path d="M${round(a)},31V16H${round(b)}V31" fill="none" stroke="var(--ink)" stroke-width="1.5" />
          <text x=${round(Math.max(left + 34, Math.min(left + room - 34, (a + b) / 2)))} y="11" font-size="11" font-weight="640" text-anchor="middle">target band</text>
          ${[low, high].map((l) => (inside(l) ? svg`<text x=${round(at(l))} y="44" font-size="11" font-weight="640" text-anchor="middle">${Math.round(l)}</text>` : nothing))}
          ${a - left > 110 ? svg`<text class="tick" x=${left} y="11" font-size="11">hatched: below</text>` : nothing}
          ${left + room - b > 110 ? svg`<text class="tick" x=${round(left + room)} y="11" font-size="11" text-anchor="end">dotted: above</text>` : nothing}`
        : nothing
    }
  </svg>`;
}

const round = (x: number): number => Math.round(x * 10) / 10;
