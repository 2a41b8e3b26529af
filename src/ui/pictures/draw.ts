/**
 * The pictures by name: what each reads, what fields it wants of the engine, and how it is drawn from them. What a block may say is in kinds.ts.
 *
 * - `light map`: filled contours over the bench, seen from above; the chosen scenario large, the others small, one scale for all.
 * - `cut`: PPFD along the middle of the bench and across it, all scenarios in one frame.
 * - `height curve`: mean PPFD against mount height, with the target line and where each scenario hangs.
 * - `scenario bars`: one quantity of every scenario.
 * - `monthly light`: the light of a day by month, from sun and lamps.
 * - `planned beside measured`: the plan and a meter's readings, point by point.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import type { Book } from '../../book/book.ts';
import type { PictureField, Values } from '../../engine/types.ts';
import { readBars } from '../../pictures/bars.ts';
import type { PictureBlock } from '../../pictures/cells.ts';
import { extremes, lightMap, mapKey } from '../../pictures/light-map.ts';
import { readMonths } from '../../pictures/months.ts';
import { readingMaps } from '../../pictures/reading-maps.ts';
import { readReadings } from '../../pictures/readings.ts';
import { lightScale, niceStep } from '../../pictures/scale.ts';
import { gridOf, type Reads, readPicture, type Series } from '../../pictures/series.ts';
import { barsPicture } from './bars.ts';
import type { Field, Fields, Wanted } from './fields.ts';
import { curveFrame, type Frame } from './frame.ts';
import { monthsPicture } from './months.ts';

interface Sketch extends Frame {
  readonly reads: Reads;
}

interface LightPicture {
  wants(reads: Reads): readonly Wanted[];
  draw(sketch: Sketch, fields: Fields): TemplateResult;
}

/** What a block reads at present, ready to be drawn once its fields are there. */
export interface Ready {
  readonly wants: readonly Wanted[];
  /** What can't be drawn, and why. */
  readonly missing: readonly string[];
  /** Undefined where nothing of it can be drawn. */
  readonly draw: ((frame: Frame, fields: Fields) => TemplateResult) | undefined;
}

type Picture = (block: PictureBlock, book: Book, values: Values) => Ready;

const isField = (field: Field | undefined): field is PictureField => field !== undefined && 'values' in field;
const front = (sketch: Sketch): Series | undefined =>
  sketch.reads.series.find((s) => s.columnId === sketch.chosen) ?? sketch.reads.series.find((s) => s.columnId === sketch.reads.base) ?? sketch.reads.series[0];
const mapWant = (s: Series): Wanted => ({ layout: s.layout, height: s.height, ...gridOf(s.length, s.width) });

const lightMapPicture: LightPicture = {
  wants: (reads) => reads.series.map(mapWant),
  draw(sketch, fields) {
    const drawn = sketch.reads.series.flatMap((series) => {
      const field = fields.get(mapWant(series));
      return isField(field) ? [{ series, input: { field, scale: series.scale, low: series.low, high: series.high } }] : [];
    });
    const main = drawn.find((d) => d.series === front(sketch)) ?? drawn[0];
    if (!main) return html``;
    const all = drawn.map((d) => extremes(d.input));
    const steps = lightScale(Math.min(...all.map((e) => e.low)), Math.max(...all.map((e) => e.high)));
    const wide = sketch.width > 760;
    const others = drawn.filter((d) => d !== main);
    const mainWidth = wide && others.length > 0 ? sketch.width - 256 : sketch.width;
    const smallWidth = wide ? 236 : (sketch.width - 20) / 2;
    const { series, input } = main;
    const told = `${series.count} fixtures at ${series.heightText}`;
    const shape = steps.edges.join();
    const deps = (i: (typeof drawn)[number], width: number) => [i.input.field, i.input.scale, i.input.low, i.input.high, shape, width];
    return html`<div class="cap"><h3>Light map${series.letter ? `, ${series.letter}` : ''}</h3><span>${sketch.caption}: ${told}, points ${input.field.nx} × ${input.field.ny}</span></div>
      <div class="maps ${others.length === 0 ? 'alone' : ''}">
        <div>
          ${guard(deps(main, mainWidth), () => {
            const { low, high } = extremes(input);
            return lightMap(input, steps, mainWidth, {
              id: `${sketch.id}-main`,
              small: false,
              name: `Light map ${series.letter}: ${told}, from ${Math.round(low)} to ${Math.round(high)} µmol/m²/s`,
            });
          })}
          ${guard([shape, mainWidth, input.low, input.high], () => mapKey(steps, mainWidth, input.low, input.high, `${sketch.id}-key`))}
        </div>
        ${
          others.length > 0
            ? html`<div class="others">${others.map(
                (other, i) => html`<div class="mini"><p><b>${other.series.letter}</b> ${other.series.count} at ${other.series.heightText}</p>
                  ${guard(deps(other, smallWidth), () => {
                    const { low, high } = extremes(other.input);
                    return lightMap(other.input, steps, smallWidth, {
                      id: `${sketch.id}-${i}`,
                      small: true,
                      name: `Light map ${other.series.letter}: from ${Math.round(low)} to ${Math.round(high)} µmol/m²/s`,
                    });
                  })}</div>`,
              )}</div>`
            : nothing
        }
      </div>`;
  },
};

const CUT_POINTS = 72;
const alongWant = (s: Series): Wanted => ({ layout: s.layout, height: s.height, nx: CUT_POINTS, ny: 1 });
const acrossWant = (s: Series): Wanted => ({ layout: s.layout, height: s.height, nx: 1, ny: CUT_POINTS });

const cutPicture: LightPicture = {
  wants: (reads) => reads.series.flatMap((s) => [alongWant(s), acrossWant(s)]),
  draw(sketch, fields) {
    const chosen = front(sketch);
    const curve = (series: Series, want: Wanted, length: number) => {
      const field = fields.get(want);
      const values = isField(field) ? [...field.values] : [];
      return { letter: series.letter, on: series === chosen, points: values.map((v, i) => [((i + 0.5) * length) / CUT_POINTS, v * series.scale] as const) };
    };
    const { series } = sketch.reads;
    const along = series.map((s) => curve(s, alongWant(s), s.length));
    const across = series.map((s) => curve(s, acrossWant(s), s.width));
    const top = roundUp(Math.max(chosen?.high ?? 0, ...[...along, ...across].flatMap((c) => c.points.map(([, v]) => v))) * 1.04);
    const [length, width] = [Math.max(...series.map((s) => s.length)), Math.max(...series.map((s) => s.width))];
    const wide = sketch.width > 620;
    const band = { low: chosen?.low, high: chosen?.high, top };
    const first = wide ? Math.round((sketch.width - 20) * 0.58) : sketch.width;
    const second = wide ? sketch.width - 20 - first : sketch.width;
    return html`<div class="cap"><h3>Cut</h3><span>${sketch.caption}${chosen?.letter ? `; ${chosen.letter} in front` : ''}</span></div>
      <div class="pair ${wide ? 'wide' : ''}" style="--first:${first}px">
        ${curveFrame({ ...band, curves: along, from: 0, to: length, across: 'm along, through the middle', name: `PPFD along the middle of the bench: ${ranges(along)}` }, first, 200)}
        ${curveFrame({ ...band, curves: across, from: 0, to: width, across: 'm across, through the middle', name: `PPFD across the middle of the bench: ${ranges(across)}` }, second, 200)}
      </div>`;
  },
};

const HEIGHTS = 14;
function heightsOf(reads: Reads): readonly number[] {
  const own = reads.series.map((s) => s.height);
  const from = Math.min(reads.lowest ?? Math.min(...own) * 0.6, ...own);
  const to = Math.max(reads.highest ?? Math.max(...own) * 1.5, ...own);
  return Array.from({ length: HEIGHTS + 1 }, (_, i) => Number((from + ((to - from) * i) / HEIGHTS).toPrecision(9)));
}
const meanOf = (field: Field | undefined): number => (isField(field) ? field.values.reduce((sum, v) => sum + v, 0) / field.values.length : Number.NaN);

const heightPicture: LightPicture = {
  wants: (reads) => reads.series.flatMap((s) => [...heightsOf(reads), s.height].map((height) => ({ ...mapWant(s), height }))),
  draw(sketch, fields) {
    const { series } = sketch.reads;
    const chosen = front(sketch);
    const heights = heightsOf(sketch.reads);
    const mean = (s: Series, height: number): number => meanOf(fields.get({ ...mapWant(s), height })) * s.scale;
    const curves = series.map((s) => ({
      letter: s.letter,
      on: s === chosen,
      points: heights.map((height) => [height, mean(s, height)] as const).filter(([, v]) => Number.isFinite(v)),
    }));
    const marks = series
      .map((s) => ({ letter: s.letter, on: s === chosen, at: [s.height, mean(s, s.height)] as const }))
      .filter(({ at }) => Number.isFinite(at[1]));
    const top = roundUp(Math.max(chosen?.high ?? 0, ...curves.flatMap((c) => c.points.map(([, v]) => v))) * 1.04);
    return html`<div class="cap"><h3>Light against height</h3><span>${sketch.caption}; the dots are where they hang now</span></div>
      ${curveFrame(
        {
          curves,
          marks,
          from: heights[0] ?? 0,
          to: heights.at(-1) ?? 1,
          top,
          low: chosen?.low,
          high: chosen?.high,
          target: chosen?.target,
          across: 'm, face to leaf tops',
          name: `Mean PPFD against mount height: ${marks.map((m) => `${m.letter} ${Math.round(m.at[1])} at ${m.at[0]} m`).join(', ')}`,
        },
        Math.min(sketch.width, 760),
        230,
      )}`;
  },
};

const ranges = (curves: readonly { readonly letter: string; readonly points: readonly (readonly [number, number])[] }[]): string =>
  curves
    .map(({ letter, points }) => {
      const values = points.map(([, v]) => v);
      return `${letter} ${Math.round(Math.min(...values))} to ${Math.round(Math.max(...values))}`;
    })
    .join(', ');

const roundUp = (x: number): number => {
  const step = niceStep(Math.max(x, 1e-9), 6);
  return Math.ceil(x / step - 1e-9) * step;
};

const ofLight =
  (picture: LightPicture): Picture =>
  (block, book, values) => {
    const reads = readPicture(block, book, values);
    const drawn = reads.series.length > 0;
    return { wants: picture.wants(reads), missing: reads.missing, draw: drawn ? (frame, fields) => picture.draw({ ...frame, reads }, fields) : undefined };
  };

const scenarioBars: Picture = (block, book, values) => {
  const bars = readBars(block, book, values);
  return { wants: [], missing: bars.missing, draw: bars.bars.length > 0 ? (frame) => barsPicture(bars, frame) : undefined };
};

const monthlyLight: Picture = (block, book, values) => {
  const years = readMonths(block, book, values);
  return { wants: [], missing: years.missing, draw: years.years.length > 0 ? (frame) => monthsPicture(years, frame) : undefined };
};

const plannedBesideMeasured: Picture = (block, book, values) => {
  const { readings, missing } = readReadings(block, book, values);
  return { wants: [], missing, draw: readings ? (frame) => readingMaps(readings, frame) : undefined };
};

export const pictures: Readonly<Record<string, Picture>> = {
  'light map': ofLight(lightMapPicture),
  cut: ofLight(cutPicture),
  'height curve': ofLight(heightPicture),
  'scenario bars': scenarioBars,
  'monthly light': monthlyLight,
  'planned beside measured': plannedBesideMeasured,
};
