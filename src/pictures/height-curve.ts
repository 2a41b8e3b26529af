/** Mean PPFD against mount height, with the line aimed at and where each scenario hangs. */
import { html } from 'lit/html.js';
import type { PictureField } from '../engine/types.ts';
import { curveFrame, roundUp } from './curve-frame.ts';
import { picture } from './picture.ts';
import { fieldOf, front, LIGHT, PPFD, type Reads, readLight, type Series, wholeBench } from './series.ts';

const HEIGHTS = 14;
function heightsOf(reads: Reads): readonly number[] {
  const own = reads.series.map((s) => s.height);
  const from = Math.min(reads.lowest ?? Math.min(...own) * 0.6, ...own);
  const to = Math.max(reads.highest ?? Math.max(...own) * 1.5, ...own);
  return Array.from({ length: HEIGHTS + 1 }, (_, i) => Number((from + ((to - from) * i) / HEIGHTS).toPrecision(9)));
}

const meanOf = (field: PictureField | undefined): number => (field ? field.values.reduce((sum, v) => sum + v, 0) / field.values.length : Number.NaN);

export const heightCurve = picture({
  title: 'Light against height',
  shows: 'How the mean light falls as the lights hang higher, and where each scenario hangs.',
  reads: [
    ...LIGHT,
    { key: 'target', name: 'light aimed at', meaning: 'a line across', takes: PPFD, called: /^(?:ppfd aimed at|light wanted on the leaves)/i },
    { key: 'lowest', name: 'lowest height drawn', meaning: 'where the curve begins', takes: 'm', called: /^(?:lowest a light may|room asked over)/i },
    { key: 'highest', name: 'greatest height drawn', meaning: 'where the curve ends', takes: 'm', called: /^(?:highest (?:a|the) lights? |room between)/i },
  ],
  read: readLight,
  wants: (reads) => reads.series.flatMap((s) => [...heightsOf(reads), s.height].map((height) => ({ ...wholeBench(s), height }))),
  draw(reads, frame, fields) {
    const { series } = reads;
    const chosen = front(reads, frame.chosen);
    const heights = heightsOf(reads);
    const mean = (s: Series, height: number): number => meanOf(fieldOf(fields, { ...wholeBench(s), height })) * s.scale;
    const curves = series.map((s) => ({
      letter: s.letter,
      on: s === chosen,
      points: heights.map((height) => [height, mean(s, height)] as const).filter(([, v]) => Number.isFinite(v)),
    }));
    const marks = series
      .map((s) => ({ letter: s.letter, height: s.heightText, on: s === chosen, at: [s.height, mean(s, s.height)] as const }))
      .filter(({ at }) => Number.isFinite(at[1]));
    const top = roundUp(Math.max(chosen?.high ?? 0, ...curves.flatMap((c) => c.points.map(([, v]) => v))) * 1.04);
    return html`<div class="cap"><h3>Light against height</h3><span>${frame.caption}; the dots are where they hang now</span></div>
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
          across: ', face to leaf tops',
          measures: reads.measures,
          name: `Mean PPFD against mount height: ${marks.map((m) => `${m.letter} ${Math.round(m.at[1])} at ${m.height}`).join(', ')}`,
        },
        Math.min(frame.width, 760),
        230,
      )}`;
  },
});
