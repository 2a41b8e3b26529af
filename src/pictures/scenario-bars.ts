/** One quantity of every scenario as bars, lying side by side; the values are written, the line aimed at crosses them. */
import { html, nothing, svg, type TemplateResult } from 'lit/html.js';
import { showNumber } from '../../functions/number-text.ts';
import { fromBase, unit } from '../../functions/units.ts';
import type { Book } from '../book/book.ts';
import type { Value, Values } from '../engine/types.ts';
import { lineOf } from '../shown.ts';
import { cellsOf, missTexts } from './cells.ts';
import { lengthTicks } from './length-ticks.ts';
import { type Frame, type PictureBlock, type PictureRead, picture } from './picture.ts';
import { ticks } from './scale.ts';

const READS: readonly PictureRead[] = [
  {
    key: 'value',
    name: 'quantity',
    meaning: 'a row of the scenarios: a length, a cost, a day’s light',
    takes: 'number',
    needed: true,
    compared: true,
    called: /^(?:maintained|kept) mean ppfd/i,
  },
  { key: 'target', name: 'value aimed at', meaning: 'a line across the bars, of the same quantity', takes: 'number', called: /^ppfd aimed at/i },
  { key: 'low', name: 'least wanted', meaning: 'the low end of the band', takes: 'number', called: /^ppfd wanted.*at least/i },
  { key: 'high', name: 'most wanted', meaning: 'the high end of the band', takes: 'number', called: /^ppfd wanted.*at most/i },
];

export const scenarioBars = picture({
  title: 'Scenario bars',
  shows: 'One quantity of every scenario as bars side by side, the values written, with the line aimed at where there is one.',
  reads: READS,
  read(block, book, values) {
    const bars = readBars(block, book, values);
    return { found: bars.bars.length > 0 ? bars : undefined, missing: bars.missing };
  },
  draw: drawBars,
});

export interface Bar {
  readonly letter: string;
  readonly columnId: string;
  /** In the unit of the axis. */
  readonly amount: number;
  /** As the table shows it. */
  readonly text: string;
}

export interface Bars {
  readonly bars: readonly Bar[];
  readonly missing: readonly string[];
  readonly base: string;
  /** What the row is called. */
  readonly name: string;
  readonly unit: string;
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly target: number | undefined;
}

export function readBars(block: PictureBlock, book: Book, values: Values): Bars {
  const cells = cellsOf(block, READS, book, values, 'value');
  const numbers = cells.columns.map((column) => ({ column, value: cells.value('value', column) }));
  // All are drawn on one axis, in the unit in which the first of them is shown.
  const first = numbers.find(({ value }) => value?.kind === 'number')?.value;
  const shown = first?.kind === 'number' ? unit(first.unit) : undefined;
  const inUnit = (base: number): number => (shown ? fromBase(base, shown) : base);
  const alike = (value: Value | undefined): value is Value & { kind: 'number' } => value?.kind === 'number' && unit(value.unit)?.dimension === shown?.dimension;
  const line = (key: string): number | undefined => {
    const value = cells.value(key, cells.columns[0] ?? 0);
    return alike(value) ? inUnit(value.base) : undefined;
  };
  const misses: { readonly letter: string; readonly why: string }[] = [];
  const bars: Bar[] = [];
  for (const { column, value } of numbers) {
    const letter = cells.letter(column);
    if (alike(value)) bars.push({ letter, columnId: cells.columnId(column), amount: inUnit(value.base), text: lineOf(value) });
    else misses.push({ letter, why: value?.kind === 'number' ? 'it is another quantity than the others' : cells.miss('value', column) });
  }
  const unfit = (['low', 'high', 'target'] as const).filter((key) => cells.says(key) && line(key) === undefined && bars.length > 0);
  return {
    bars,
    missing: [
      ...missTexts(misses),
      ...unfit.map((key) =>
        cells.value(key, cells.columns[0] ?? 0)?.kind === 'number'
          ? `the line for the ${key === 'target' ? 'value aimed at' : key === 'low' ? 'least wanted' : 'most wanted'} is another quantity`
          : cells.miss(key, cells.columns[0] ?? 0),
      ),
    ],
    base: cells.base,
    name: cells.name('value'),
    unit: shown?.symbol ?? '',
    low: line('low'),
    high: line('high'),
    target: line('target'),
  };
}

const ROW = 30;
/** m */
const FOOT = 0.3048;
const onTape = (feet: number): string => showNumber(feet * FOOT, 'ft').text;

function drawBars(bars: Bars, frame: Frame): TemplateResult {
  const caption = frame.caption || bars.name;
  const width = Math.min(frame.width, 760);
  // The values stand in a column of their own, so that no line crosses them.
  const longest = Math.max(...bars.bars.map((bar) => bar.text.length), bars.unit.length);
  const margin = { left: 30, right: 24 + Math.min(longest, 24) * 7.2, top: 20, bottom: 26 };
  const [w, h] = [width - margin.left - margin.right, bars.bars.length * ROW];
  const { low, high, target } = bars;
  const amounts = [0, ...bars.bars.map((bar) => bar.amount), ...[low, high, target].filter((v) => v !== undefined)];
  const [from, to] = [Math.min(...amounts), Math.max(...amounts)];
  const end = to === from ? from + 1 : to;
  const x = (v: number): number => ((v - from) / (end - from)) * w;
  const chosen = bars.bars.find((bar) => bar.columnId === frame.chosen) ?? bars.bars.find((bar) => bar.columnId === bars.base) ?? bars.bars[0];
  const tape = bars.unit === 'ft';
  const number = tape ? onTape : decimal;
  const unit = bars.unit === '' || tape ? '' : ` ${bars.unit}`;
  const most = Math.max(2, Math.floor(w / 70));
  const places = tape
    ? lengthTicks(from * FOOT, end * FOOT, most, 'US customary').map(({ at, text }) => ({ at: at / FOOT, text }))
    : ticks(from, end, most).map((at) => ({ at, text: number(at) }));
  const wanted = [
    target === undefined ? '' : `aimed at ${number(target)}${unit}`,
    low === undefined && high === undefined
      ? ''
      : `wanted ${low === undefined ? '' : `from ${number(low)} `}${high === undefined ? '' : `to ${number(high)}`}${unit}`,
  ].filter(Boolean);
  const label = `${caption}: ${[...bars.bars.map((bar) => `${bar.letter} ${bar.text}`.trim()), ...wanted].join(', ')}`;
  const upright = (v: number, dash: string, accent = false): TemplateResult =>
    svg`<path d="M${round(x(v))},-4V${h + 4}" stroke=${accent ? 'var(--accent)' : 'var(--ink)'} stroke-width=${accent ? 1.6 : 1} stroke-dasharray=${dash} />`;
  return html`<div class="cap"><h3>Side by side</h3><span>${caption}${wanted.length > 0 ? `; ${wanted.join(', ')}` : ''}</span></div>
    <svg viewBox="0 0 ${round(width)} ${h + margin.top + margin.bottom}" style="max-width:${round(width)}px" role="img" aria-label=${label}>
      <title>${label}</title>
      <g transform="translate(${margin.left},${margin.top})">
        ${low !== undefined && high !== undefined ? svg`<rect class="band" x=${round(x(low))} y="-4" width=${round(Math.max(0, x(high) - x(low)))} height=${h + 8} />` : nothing}
        ${places.map(({ at, text }) => svg`<path class="axis" d="M${round(x(at))},${h + 4}v4" /><text class="tick" x=${round(x(at))} y=${h + 20} font-size="11" text-anchor="middle">${text}</text>`)}
        <path class="axis" d="M0,${h + 4}H${round(w)}" fill="none" />
        <text class="tick" x=${round(w + margin.right - 2)} y=${h + 20} font-size="11" text-anchor="end">${unit.trim()}</text>
        ${bars.bars.map((bar, i) => {
          const [a, b] = [x(Math.min(0, bar.amount)), x(Math.max(0, bar.amount))];
          return svg`<g transform="translate(0,${i * ROW})">
            <text x="-10" y="19" font-size="13" font-weight=${bar === chosen ? 760 : 560} text-anchor="end">${bar.letter}</text>
            <rect class="bar ${bar === chosen ? 'on' : ''}" x=${round(a)} y="6" width=${round(Math.max(b - a, 1))} height="17" />
            <text class="amount" x=${round(w + margin.right - 2)} y="19" font-size="12" text-anchor="end" font-weight=${bar === chosen ? 660 : 460}>${bar.text}</text>
          </g>`;
        })}
        ${low === undefined ? nothing : upright(low, 'none')}
        ${high === undefined ? nothing : upright(high, '5 3')}
        ${target === undefined ? nothing : svg`${upright(target, '1 3', true)}<text class="tick" x=${round(x(target))} y="-8" font-size="11" text-anchor="middle">aim ${number(target)}</text>`}
        <path class="axis" d="M${round(x(0))},-4V${h + 4}" fill="none" />
      </g>
    </svg>`;
}

const decimal = (v: number): string => String(Number(v.toPrecision(4))).replace('-', '−');
const round = (v: number): number => Math.round(v * 10) / 10;
