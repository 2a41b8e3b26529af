/** Filled contours over the bench, seen from above; the chosen scenario large, the others small, one scale for all. */
import { html, nothing } from 'lit/html.js';
import { contourMap, extremes, mapKey } from './contour-map.ts';
import { picture } from './picture.ts';
import { lightScale } from './scale.ts';
import { fieldOf, front, LIGHT, readLight, rowsCounted, wholeBench } from './series.ts';

export const lightMap = picture({
  title: 'Light map',
  shows: 'The light over the whole bench from above, in steps, with the fixtures and the band that is wanted.',
  reads: LIGHT,
  read: readLight,
  wants: (reads) => reads.series.map(wholeBench),
  draw(reads, frame, fields) {
    const drawn = reads.series.flatMap((series) => {
      const field = fieldOf(fields, wholeBench(series));
      return field ? [{ series, input: { field, scale: series.scale, low: series.low, high: series.high } }] : [];
    });
    const main = drawn.find((d) => d.series === front(reads, frame.chosen)) ?? drawn[0];
    if (!main) return html``;
    const all = drawn.map((d) => extremes(d.input));
    const steps = lightScale(Math.min(...all.map((e) => e.low)), Math.max(...all.map((e) => e.high)));
    const wide = frame.width > 760;
    const others = drawn.filter((d) => d !== main);
    const mainWidth = wide && others.length > 0 ? frame.width - 256 : frame.width;
    const smallWidth = wide ? 236 : (frame.width - 20) / 2;
    const { series, input } = main;
    const told = `${series.count} fixtures at ${series.heightText}${rowsCounted(series)}`;
    const shape = steps.edges.join();
    const hangsOn = (i: (typeof drawn)[number], width: number) => [reads.measures, i.input.field, i.input.scale, i.input.low, i.input.high, shape, width];
    return html`<div class="cap"><h3>Light map${series.letter ? `, ${series.letter}` : ''}</h3><span>${frame.caption}: ${told}, points ${input.field.nx} × ${input.field.ny}</span></div>
      <div class="maps ${others.length === 0 ? 'alone' : ''}">
        <div>
          ${frame.again(hangsOn(main, mainWidth), () => {
            const { low, high } = extremes(input);
            return contourMap(input, steps, mainWidth, {
              id: `${frame.id}-main`,
              small: false,
              measures: reads.measures,
              name: `Light map ${series.letter}: ${told}, from ${Math.round(low)} to ${Math.round(high)} µmol/m²/s`,
            });
          })}
          ${frame.again([shape, mainWidth, input.low, input.high], () => mapKey(steps, mainWidth, input.low, input.high, `${frame.id}-key`))}
        </div>
        ${
          others.length > 0
            ? html`<div class="others">${others.map(
                (other, i) => html`<div class="mini"><p><b>${other.series.letter}</b> ${other.series.count} at ${other.series.heightText}</p>
                  ${frame.again(hangsOn(other, smallWidth), () => {
                    const { low, high } = extremes(other.input);
                    return contourMap(other.input, steps, smallWidth, {
                      id: `${frame.id}-${i}`,
                      small: true,
                      measures: reads.measures,
                      name: `Light map ${other.series.letter}: from ${Math.round(low)} to ${Math.round(high)} µmol/m²/s`,
                    });
                  })}</div>`,
              )}</div>`
            : nothing
        }
      </div>`;
  },
});
