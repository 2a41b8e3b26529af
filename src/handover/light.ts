/** The light: the map, and the squares that a meter is held against. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import { showNumber } from '../../functions/number-text.ts';
import type { PictureField } from '../engine/types.ts';
import { contourMap, extremes, lightScale, mapKey, rowsCounted, type Series } from '../pictures/index.ts';
import { applies } from './applies.ts';
import { list, section, shown, sideways, table } from './pieces.ts';
import type { Reader } from './reader.ts';

/** px of the map's own drawing; on paper it is as wide as the page. */
const WIDTH = 660;

export function map({ book }: Reader, series: Series, caption: string, field: PictureField): TemplateResult {
  const input = { field, scale: series.scale, low: series.low, high: series.high };
  const { low, high } = extremes(input);
  const steps = lightScale(low, high);
  const name = `Light map: from ${Math.round(low)} to ${Math.round(high)} µmol/m²/s`;
  // A long narrow bench is drawn as wide as the page, a square one no taller than half of it.
  const width = Math.min(WIDTH, Math.max(330, (300 * field.length) / field.width));
  return section(
    'map picture',
    'Light map',
    sideways(
      'Light map',
      html`<div class="drawn">${contourMap(input, steps, width, { id: 'sheet-map', small: false, name, measures: book.measures })}</div><div class="drawn">${mapKey(steps, WIDTH, input.low, input.high, 'sheet-key')}</div>`,
    ),
    html`${caption}${rowsCounted(series)}, µmol/m²/s; points ${field.nx} × ${field.ny}, sides in ${book.measures === 'metric' ? 'm' : 'feet and inches'}`,
  );
}

const LIGHT = [
  'kept', 'day_one', 'full', 'kept_share', 'dli', 'dli_mean', 'dli_least', 'dli_most', 'start_ppfd', 'start_dli', 'round_light', 'dark_light', 'evenness', 'evenness_inside',
  'lowest', 'highest', 'share_lit', 'spill', 'beside_gain', 'full_middle', 'full_end', 'under', 'footprint', 'half_across', 'half_along', 'good_across', 'good_along', 'landing', 'reach_height', 'past_ends', 'past_sides',
  'target_low', 'target_aim', 'target_high', 'ppfd_low', 'ppfd_high', 'sun_darkest', 'gap_darkest', 'darkest_light', 'dull_most', 'shade', 'light_change', 'grid_along', 'grid_across',
]; // biome-ignore format: a list of ids reads best in lines

export const lightList = (reader: Reader): TemplateResult =>
  section(
    'light',
    'The light in figures',
    list(reader.lines(LIGHT).filter((found) => applies(reader, found))),
    'full: new and undimmed; day one: dimmed, what a meter reads; maintained: after ageing and dirt',
  );

/** How many squares a bench is read in: about 40 cm a side, few enough to be read in a quarter of an hour. */
export function squaresOf(length: number, width: number): { readonly nx: number; readonly ny: number } {
  const squares = (side: number, most: number): number => Math.max(3, Math.min(most, Math.round(side / 0.4)));
  return { nx: squares(length, 9), ny: squares(width, 5) };
}

/** What a meter should read on day one in the middle of each square, and room to write what it does read. The row at the bottom is nearest the bench's corner. */
export function grids(reader: Reader, field: PictureField): TemplateResult | typeof nothing {
  const layout = reader.row('layout');
  const mean = reader.row('day_one');
  const tolerance = reader.named('tolerance');
  if (!layout || !mean) return nothing;
  const rows = Array.from({ length: field.ny }, (_, j) => Array.from({ length: field.nx }, (_, i) => field.values[(field.ny - 1 - j) * field.nx + i] ?? 0));
  const text = (value: number): string => showNumber(value / 1e6, 'µmol/m²/s', 0).text.replace(/\s*µmol.*$/u, '');
  // A few squares miss rows of lights that the mean of the whole bench has in it: readings are held against what is planned where they are taken.
  const ofSquares = field.values.reduce((sum, value) => sum + value, 0) / field.values.length;
  return html`<section class="grids">
    <h2>Readings <small>µmol/m²/s, in the middle of ${field.nx} × ${field.ny} squares, seen as the plan; meter level with the leaf tops, other light off</small></h2>
    <p>${mean.label} planned: ${shown(mean)}; mean of the squares: <span class="of-squares" data-from=${layout.address}>${text(ofSquares)}</span>.${
      tolerance ? html` Accepted when the mean of the readings differs from that of the squares by ${shown(tolerance)} at most.` : nothing
    }</p>
    <div class="two">
      <div><h3>Planned, day one</h3>${squares(rows.map((row) => row.map((value) => html`<span data-from=${layout.address}>${text(value)}</span>`)))}</div>
      <div><h3>Measured</h3>${squares(rows.map((row) => row.map(() => '')))}</div>
    </div>
  </section>`;
}

const squares = (rows: readonly (readonly unknown[])[]): TemplateResult =>
  html`<table class="squares"><tbody>${rows.map((row) => html`<tr>${row.map((cell) => html`<td>${cell}</td>`)}</tr>`)}</tbody></table>`;

/** Tables that stand in several columns under the rest: readings and what came of them. */
export function spread(reader: Reader): readonly TemplateResult[] {
  return reader.book.tables
    .filter((t) => t.form === 'plain' && t.columns.length > 1)
    .map((t) =>
      section(
        'spread',
        t.name,
        table(
          'wide',
          ['', ...t.columns.map((column) => column.label ?? '')],
          reader.grid(t).map((cells, r) => [t.rows[r]?.label ?? '', ...cells.map((found) => (found.value.kind === 'blank' ? '' : shown(found)))]),
        ),
      ),
    );
}
