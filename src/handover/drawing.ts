/** What plan and side view share: lines with dimensions, in millimetres on paper, and the scales that a drawing may have. */
import { svg, type TemplateResult } from 'lit/html.js';
import { showNumber, spokenUnit } from '../../functions/number-text.ts';
import type { Found } from './reader.ts';

/** 1 to each of these: what people find on a scale rule. */
const SCALES = [2, 5, 10, 20, 25, 50, 100, 200, 500, 1000];
/** An inch of paper for whole inches, and for whole feet: what can be read off with a tape. */
const TAPE_SCALES = [2, 3, 6, 12, 24, 36, 48, 60, 120, 240, 600, 1200];

const isTape = (unit: string): boolean => unit === 'ft' || unit === 'in';

/** The largest scale at which a thing fits; sizes in m, room in mm. `unit`: of the drawing. */
export function scaleFor(length: number, width: number, roomAlong: number, roomAcross: number, unit: string): number {
  const scales = isTape(unit) ? TAPE_SCALES : SCALES;
  return scales.find((s) => (length * 1000) / s <= roomAlong && (width * 1000) / s <= roomAcross) ?? scales.at(-1) ?? 1000;
}

/** `1 : 25`, and of a drawing in feet and inches `1 in = 2 ft`. */
export function scaleText(scale: number, unit: string): string {
  if (!isTape(unit)) return `1 : ${scale}`;
  return scale % 12 === 0 ? `1 in = ${scale / 12} ft` : `1 in = ${scale} in`;
}

/** What a dimension says: the text of a cell, or a length that follows from the text of the layout. */
export interface Dimension {
  readonly text: string;
  readonly cell?: string;
  readonly from?: string;
}

/** A cell's length in the unit of its drawing: as the cell shows it, where that is its unit too. */
export const cellDimension = ({ text, address, value }: Found, drawn: string): Dimension =>
  value.kind !== 'number' || value.unit === drawn ? { text, cell: address } : { text: lengthText(value.base, drawn), from: address };

/** The unit of a drawing: that of the cell which it shows first. */
export const drawnIn = ({ value }: Found): string => (value.kind === 'number' ? value.unit : 'm');

/** How it is called in a heading. */
export const lengthsIn = (unit: string): string => (unit === 'ft' ? 'feet and inches' : spokenUnit(unit));

const DECIMALS: Readonly<Record<string, number>> = { m: 3, cm: 1, mm: 0 };

/** A length that stands in no cell as it is said here, in the unit of its drawing. */
export const lengthText = (metres: number, unit: string): string => showNumber(metres, unit, DECIMALS[unit]).text;

export const round = (x: number): number => Math.round(x * 100) / 100;

export const said = ({ text, cell, from }: Dimension): TemplateResult =>
  cell !== undefined ? svg`<tspan data-cell=${cell}>${text}</tspan>` : from !== undefined ? svg`<tspan data-from=${from}>${text}</tspan>` : svg`${text}`;

const SIZE = 2.9;
/** About the width of a text, in mm. */
export const widthOf = (text: string): number => text.length * SIZE * 0.6;

/** A dimension line along the page. A text that is wider than its line stands beyond its right end. */
export function dimensionAlong(from: number, to: number, y: number, dimension: Dimension): TemplateResult {
  const fits = to - from > widthOf(dimension.text) + 3;
  const x = fits ? (from + to) / 2 : to + 1.2;
  return svg`<path class="dim" d="M${round(from)},${round(y - 1.4)}v2.8M${round(to)},${round(y - 1.4)}v2.8M${round(from)},${round(y)}H${round(to)}" />
    <text class="dim-text" x=${round(x)} y=${round(y + 1)} text-anchor=${fits ? 'middle' : 'start'}>${said(dimension)}</text>`;
}

/** A dimension line up the page. The text reads from below; where it is longer than the line it lies level beside it. */
export function dimensionUp(x: number, from: number, to: number, dimension: Dimension): TemplateResult {
  const middle = (from + to) / 2;
  const line = svg`<path class="dim" d="M${round(x - 1.4)},${round(from)}h2.8M${round(x - 1.4)},${round(to)}h2.8M${round(x)},${round(from)}V${round(to)}" />`;
  if (Math.abs(to - from) > widthOf(dimension.text) + 3)
    return svg`${line}<text class="dim-text" transform="translate(${round(x + 1)} ${round(middle)}) rotate(-90)" text-anchor="middle">${said(dimension)}</text>`;
  return svg`${line}<text class="dim-text" x=${round(x + 2)} y=${round(middle + 1)}>${said(dimension)}</text>`;
}

export const label = (x: number, y: number, text: string, anchor = 'start'): TemplateResult =>
  svg`<text x=${round(x)} y=${round(y)} text-anchor=${anchor}>${text}</text>`;

/** A picture in millimetres: what its numbers say is what a rule on the paper reads. */
export function paper(x: number, y: number, width: number, height: number, name: string, body: unknown): TemplateResult {
  return svg`<svg class="drawing" viewBox="${round(x)} ${round(y)} ${round(width)} ${round(height)}" width="${round(width)}mm" height="${round(height)}mm" role="img" aria-label=${name}>${body}</svg>`;
}

/** A bar to measure against, should the printer have shrunk the page. */
export function scaleBar(x: number, y: number, scale: number, unit: string): TemplateResult {
  const tape = isTape(unit);
  const one = tape ? 0.3048 : 1;
  const rounds = tape ? [1 / 12, 1 / 6, 1 / 4, 1 / 2, 1, 2, 5, 10, 20, 50] : [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20];
  const whole = rounds.find((n) => (n * one * 1000) / scale >= 15) ?? rounds.at(-1) ?? 1;
  const width = (whole * one * 1000) / scale;
  return svg`<path class="bar" d="M${round(x)},${round(y - 1)}v2M${round(x + width)},${round(y - 1)}v2M${round(x)},${round(y)}h${round(width)}" />
    <text x=${round(x + width + 1.5)} y=${round(y + 1)}>${showNumber(whole * one, unit).text}</text>`;
}
