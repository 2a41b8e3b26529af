/** What was planned beside what a meter read, point by point in one scale of colours. A point off the pattern has a ring and a mark, not a colour. */
import { html, nothing, svg, type TemplateResult } from 'lit/html.js';
import { placeIn, readReference, tableNamed } from '../book/address.ts';
import type { Book } from '../book/book.ts';
import { addressOf, named } from '../book/look-up.ts';
import type { Value, Values } from '../engine/types.ts';
import { lineOf, valueAt } from '../shown.ts';
import { mapKey } from './contour-map.ts';
import { type Frame, type PictureBlock, picture } from './picture.ts';
import { type LightScale, lightScale } from './scale.ts';
import { PPFD } from './series.ts';

export const plannedBesideMeasured = picture({
  title: 'Planned beside measured',
  shows: 'What a meter read beside what was planned at the same points, in one scale, and the points that are off the pattern.',
  reads: [
    {
      key: 'planned',
      name: 'planned light',
      meaning: 'at each point, row by row, the first row nearest the bench’s corner',
      takes: PPFD,
      run: true,
      needed: true,
      called: /^planned/i,
    },
    { key: 'measured', name: 'measured light', meaning: 'at the same points', takes: PPFD, run: true, needed: true, called: /^measured/i },
    {
      key: 'off',
      name: 'difference from the pattern',
      meaning: 'a share at each point; left empty: none is marked',
      takes: '1',
      run: true,
      called: /^difference/i,
    },
    { key: 'limit', name: 'difference that counts as doubtful', meaning: 'a share', takes: '1', called: /^a point (?:counts as doubtful|is looked at)/i },
    { key: 'length', name: 'length of the bench', meaning: 'so that the maps have its shape', takes: 'm', called: /^(?:bench|shelf|bed) length/i },
    { key: 'width', name: 'width of the bench', meaning: 'so that the maps have its shape', takes: 'm', called: /^(?:bench|shelf|bed) (?:width|depth)/i },
  ],
  read: readReadings,
  draw: readingMaps,
});

/** One point, row by row; the first row is nearest the bench's corner. µmol/m²/s; undefined where it was not read. */
export interface Point {
  readonly planned: number | undefined;
  readonly measured: number | undefined;
  /** Share by which it is off the plan's pattern, where that deserves a look. */
  readonly off: number | undefined;
}

export interface Readings {
  readonly nx: number;
  readonly ny: number;
  readonly points: readonly Point[];
  /** Length to width of the bench; undefined where the block does not say it. */
  readonly shape: number | undefined;
  /** From which share on a point deserves a look. */
  readonly limit: number | undefined;
}

/** Undefined where there is nothing to draw; then, and where something lacks, the reasons. */
export function readReadings(block: PictureBlock, book: Book, values: Values): { readonly found: Readings | undefined; readonly missing: readonly string[] } {
  const planned = rowsOf(block.reads.planned, book, values);
  const measured = rowsOf(block.reads.measured, book, values);
  const off = rowsOf(block.reads.off, book, values);
  if (!planned || !measured) return { found: undefined, missing: [`there are no cells for what is ${planned ? 'measured' : 'planned'}`] };
  const [ny, nx] = [planned.length, planned[0]?.length ?? 0];
  if (measured.length !== ny || measured[0]?.length !== nx)
    return { found: undefined, missing: [`${ny} × ${nx} points are planned and ${measured.length} × ${measured[0]?.length ?? 0} measured`] };
  const limit = numberOf(rowsOf(block.reads.limit, book, values)?.[0]?.[0]);
  const [length, width] = [block.reads.length, block.reads.width].map((text) => numberOf(rowsOf(text, book, values)?.[0]?.[0]));
  const points = planned.flatMap((row, r) =>
    row.map((value, c): Point => {
      const away = numberOf(off?.[r]?.[c]);
      return {
        planned: micro(value),
        measured: micro(measured[r]?.[c]),
        off: away !== undefined && limit !== undefined && Math.abs(away) >= limit ? away : undefined,
      };
    }),
  );
  const wrong = [...planned.flat(), ...measured.flat()].find((value) => value.kind === 'error');
  const none = points.every((point) => point.planned === undefined && point.measured === undefined);
  const missing = wrong ? [`some points: ${lineOf(wrong)}`] : none ? ['no point was read yet'] : [];
  const shape = length !== undefined && width !== undefined && width > 0 ? length / width : undefined;
  return { found: none ? undefined : { nx, ny, points, shape, limit }, missing };
}

function rowsOf(text: string | undefined, book: Book, values: Values): readonly (readonly Value[])[] | undefined {
  const reference = text === undefined ? undefined : readReference(named(book, text) ?? text);
  const table = reference?.table === undefined ? undefined : tableNamed(book, reference.table);
  if (!reference || !table) return undefined;
  const rows: Value[][] = [];
  for (let r = reference.from.row; r <= reference.to.row; r++) {
    const row: Value[] = [];
    for (let c = reference.from.column; c <= reference.to.column; c++) {
      const at = placeIn(table, c, r);
      if (at) row.push(valueAt(values, addressOf(at)));
    }
    if (row.length > 0) rows.push(row);
  }
  return rows.length > 0 ? rows : undefined;
}

const numberOf = (value: Value | undefined): number | undefined => (value?.kind === 'number' ? value.base : undefined);

const micro = (value: Value | undefined): number | undefined => {
  const base = numberOf(value);
  return base === undefined ? undefined : base * 1e6;
};

const MARGIN = { left: 34, right: 2, top: 4, bottom: 20 };
/** px: a cell in which a number can be read. */
const [LEAST_WIDE, LEAST_HIGH, MOST_HIGH] = [34, 26, 74];

function readingMaps(readings: Readings, frame: Frame): TemplateResult {
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
