/** PPFD along the middle of the bench and across it, all scenarios in one frame. */
import { html } from 'lit/html.js';
import { curveFrame, ranges, roundUp } from './curve-frame.ts';
import { picture, type Wanted } from './picture.ts';
import { fieldOf, front, LIGHT, readLight, type Series } from './series.ts';

const CUT_POINTS = 72;
const alongWant = (s: Series): Wanted => ({ layout: s.layout, height: s.height, nx: CUT_POINTS, ny: 1 });
const acrossWant = (s: Series): Wanted => ({ layout: s.layout, height: s.height, nx: 1, ny: CUT_POINTS });

export const cut = picture({
  title: 'Cuts',
  shows: 'The light along the middle of the bench and across it, all scenarios in one frame.',
  reads: LIGHT,
  read: readLight,
  wants: (reads) => reads.series.flatMap((s) => [alongWant(s), acrossWant(s)]),
  draw(reads, frame, fields) {
    const chosen = front(reads, frame.chosen);
    const curve = (series: Series, want: Wanted, length: number) => {
      const values = [...(fieldOf(fields, want)?.values ?? [])];
      return { letter: series.letter, on: series === chosen, points: values.map((v, i) => [((i + 0.5) * length) / CUT_POINTS, v * series.scale] as const) };
    };
    const { series } = reads;
    const along = series.map((s) => curve(s, alongWant(s), s.length));
    const across = series.map((s) => curve(s, acrossWant(s), s.width));
    const top = roundUp(Math.max(chosen?.high ?? 0, ...[...along, ...across].flatMap((c) => c.points.map(([, v]) => v))) * 1.04);
    const [length, width] = [Math.max(...series.map((s) => s.length)), Math.max(...series.map((s) => s.width))];
    const wide = frame.width > 620;
    const band = { low: chosen?.low, high: chosen?.high, top, measures: reads.measures };
    const first = wide ? Math.round((frame.width - 20) * 0.58) : frame.width;
    const second = wide ? frame.width - 20 - first : frame.width;
    return html`<div class="cap"><h3>Cut</h3><span>${frame.caption}${chosen?.letter ? `; ${chosen.letter} in front` : ''}</span></div>
      <div class="pair ${wide ? 'wide' : ''}" style="--first:${first}px">
        ${curveFrame({ ...band, curves: along, from: 0, to: length, across: ' along, through the middle', name: `PPFD along the middle of the bench: ${ranges(along)}` }, first, 200)}
        ${curveFrame({ ...band, curves: across, from: 0, to: width, across: ' across, through the middle', name: `PPFD across the middle of the bench: ${ranges(across)}` }, second, 200)}
      </div>`;
  },
});
