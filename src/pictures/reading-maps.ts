/** What was planned beside what a meter read, point by point in one scale of colours. A point off the pattern has a ring and a mark, not a colour. */
import { html, nothing, svg, type TemplateResult } from 'lit/html.js';
import { mapKey } from './light-map.ts';
import type { Point, Readings } from './readings.ts';
import { type LightScale, lightScale } from './scale.ts';

const MARGIN = { left: 34, right: 2, top: 4, bottom: 20 };
/** px: a cell in which a number can be read. */
const [LEAST_WIDE, LEAST_HIGH, MOST_HIGH] = [34, 26, 74];

export function readingMaps(readings: Readings, frame: { readonly id: string; readonly caption: string; readonly width: number }): TemplateResult {
  const all = readings.points.flatMap(({ planned, measured }) => [planned, measured]).filter((v) => v !== undefined);
  const steps = lightScale(Math.min(...all), Math.max(...all));
  const wide = frame.width > 560;
  const width = wide ? Math.floor((frame.width - 20) / 2) : frame.width;
  const suspects = readings.points.filter((point) => point.off !== undefined).length;
  const limit = readings.limit === undefined ? '' : `${percent(readings.limit)} or more off the pattern`;
  return html`<div class="cap"><h3>Planned beside measured</h3><span>${frame.caption}; ${readings.nx} × ${readings.ny} points, the row at the bottom nearest the bench’s corner</span></div>
    <div class="pair ${wide ? 'wide' : ''}" style="--first:${width}px">
      ${(['planned', 'measured'] as const).map(
        (which) =>
          html`<div class="mini"><p><b>${which === 'planned' ? 'Planned' : 'Measured'}</b> ${said(readings, which)}</p>${map(readings, which, steps, width)}</div>`,
      )}
    </div>
    ${mapKey(steps, frame.width, undefined, undefined, `${frame.id}-key`)}
    <p class="keyline">${suspects === 0 ? (limit ? `No point is ${limit}.` : nothing) : html`<span>! ringed: ${limit}</span>`}</p>`;
}

function said(readings: Readings, which: 'planned' | 'measured'): string {
  const values = readings.points.map((point) => point[which]).filter((v) => v !== undefined);
  if (values.length === 0) return 'nothing';
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return `mean ${Math.round(mean)}, from ${Math.round(Math.min(...values))} to ${Math.round(Math.max(...values))} µmol/m²/s`;
}

function map(readings: Readings, which: 'planned' | 'measured', steps: LightScale, width: number): TemplateResult {
  const { nx, ny, points, shape } = readings;
  const w = width - MARGIN.left - MARGIN.right;
  const cell = w / nx;
  const high = Math.max(LEAST_HIGH, Math.min(MOST_HIGH, shape === undefined ? cell : w / shape / ny));
  const h = high * ny;
  const numbers = cell >= LEAST_WIDE;
  const suspects = which === 'measured' ? points.flatMap((point, i) => (point.off === undefined ? [] : [place(readings, i, point)])) : [];
  const unread = points.filter((point) => point[which] === undefined).length;
  const name = [
    `${which === 'planned' ? 'Planned' : 'Measured'}, ${nx} places by ${ny} rows: ${said(readings, which)}`,
    ...(unread > 0 ? [`${unread} not read`] : []),
    ...(suspects.length > 0 ? [`off the pattern: ${suspects.join('; ')}`] : []),
  ].join('. ');
  return svg`<svg viewBox="0 0 ${width} ${round(h + MARGIN.top + MARGIN.bottom)}" role="img" aria-label=${name}>
    <g transform="translate(${MARGIN.left},${MARGIN.top})">
      ${points.map((point, i) => {
        const value = point[which];
        const [x, y] = [(i % nx) * cell, h - (Math.floor(i / nx) + 1) * high];
        const off = which === 'measured' && point.off !== undefined;
        return svg`<rect x=${round(x)} y=${round(y)} width=${round(cell + 0.3)} height=${round(high + 0.3)} fill=${value === undefined ? 'var(--sheet)' : colour(value, steps)} />
          ${off ? svg`<rect class="halo" x=${round(x + 2.5)} y=${round(y + 2.5)} width=${round(cell - 5)} height=${round(high - 5)} rx="3" fill="none" stroke-width="4" /><rect class="target" x=${round(x + 2.5)} y=${round(y + 2.5)} width=${round(cell - 5)} height=${round(high - 5)} rx="3" fill="none" stroke-width="1.8" />` : nothing}
          ${numbers || off ? figure(value === undefined ? '–' : off && !numbers ? '!' : `${Math.round(value)}${off ? ' !' : ''}`, x + cell / 2, y + high / 2, Math.min(cell - 4, 46)) : nothing}`;
      })}
      <rect width=${round(w)} height=${round(h)} fill="none" stroke="var(--ink)" stroke-width="1.2" />
      ${Array.from({ length: ny }, (_, r) => svg`<text class="tick" x="-6" y=${round(h - (r + 0.5) * high + 4)} font-size="11" text-anchor="end">${r === 0 ? 'row 1' : r + 1}</text>`)}
      ${numbers ? Array.from({ length: nx }, (_, c) => svg`<text class="tick" x=${round((c + 0.5) * cell)} y=${round(h + 15)} font-size="11" text-anchor="middle">${c === 0 && cell > 50 ? 'place 1' : c + 1}</text>`) : nothing}
    </g>
  </svg>`;
}

const figure = (text: string, x: number, y: number, wide: number): TemplateResult =>
  svg`<rect class="pip" x=${round(x - wide / 2)} y=${round(y - 9)} width=${round(wide)} height="18" rx="2" /><text class="pip-text" x=${round(x)} y=${round(y + 4)} font-size="11.5" font-weight="640" text-anchor="middle">${text}</text>`;

function place({ nx }: Readings, index: number, { off = 0, measured }: Point): string {
  return `place ${(index % nx) + 1} of row ${Math.floor(index / nx) + 1}, ${Math.round(measured ?? 0)}, ${percent(Math.abs(off))} ${off < 0 ? 'under' : 'over'}`;
}

const colour = (value: number, { edges, colours }: LightScale): string =>
  colours[
    Math.max(
      0,
      Math.min(
        colours.length - 1,
        edges.findLastIndex((edge) => value >= edge),
      ),
    )
  ] ?? '';

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const round = (v: number): number => Math.round(v * 10) / 10;
