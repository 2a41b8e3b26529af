/** The light of all scenarios at a glance: a small map of each in one row and one scale, with its lowest point and its mean in words. */
import { html } from 'lit/html.js';
import { contourMap, extremes } from './contour-map.ts';
import { picture } from './picture.ts';
import { lightScale } from './scale.ts';
import { fieldOf, LIGHT, readLight, wholeBench } from './series.ts';

/** px: the widest and the tallest that one is drawn, the least width at which it still tells something, and what lies between two. */
const [WIDEST, TALLEST, LEAST, GAP] = [190, 104, 96, 14];

export const smallLightMaps = picture({
  title: 'Light of all scenarios',
  shows: 'A small light map of each scenario, side by side in one scale, with its lowest point and its mean.',
  reads: LIGHT,
  read: readLight,
  wants: (reads) => reads.series.map(wholeBench),
  draw({ series, measures }, frame, fields) {
    const drawn = series.flatMap((one) => {
      const field = fieldOf(fields, wholeBench(one));
      if (!field) return [];
      const input = { field, scale: one.scale, low: one.low, high: one.high };
      const mean = (field.values.reduce((sum, value) => sum + value, 0) / field.values.length) * one.scale;
      return [{ one, input, mean, ...extremes(input) }];
    });
    const steps = lightScale(Math.min(...drawn.map((d) => d.low)), Math.max(...drawn.map((d) => d.high)));
    const room = Math.max(LEAST, (frame.width + GAP) / drawn.length - GAP);
    return html`<div class="minis">${drawn.map(({ one, input, mean, low }, i) => {
      const width = Math.floor(Math.min(WIDEST, room, (TALLEST * one.length) / one.width));
      const said = `lowest ${Math.round(low)}, mean ${Math.round(mean)}`;
      return html`<div class="mini" style="width:${Math.max(width, Math.min(room, 132))}px"><p><b>${one.letter}</b> ${one.count} at ${one.heightText}</p>
        <div style="width:${width}px">${frame.again([measures, input.field, input.scale, input.low, input.high, steps.edges.join(), width], () =>
          contourMap(input, steps, width, {
            id: `${frame.id}-${i}`,
            small: true,
            measures,
            name: `Light map ${one.letter}: ${one.count} fixtures at ${one.heightText}, ${said} µmol/m²/s`,
          }),
        )}</div><p>${said}</p></div>`;
    })}</div>`;
  },
});
