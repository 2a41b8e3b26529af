/** One quantity of every scenario as bars, lying side by side; the values are written, the line aimed at crosses them. */
import { html, nothing, svg, type TemplateResult } from 'lit';
import type { Bars } from '../../pictures/bars.ts';
import { ticks } from '../../pictures/scale.ts';
import type { Frame } from './frame.ts';

const ROW = 30;

export function barsPicture(bars: Bars, sketch: Frame): TemplateResult {
  const caption = sketch.caption || bars.name;
  const width = Math.min(sketch.width, 760);
  // The values stand in a column of their own, so that no line crosses them.
  const longest = Math.max(...bars.bars.map((bar) => bar.text.length), bars.unit.length);
  const margin = { left: 30, right: 24 + Math.min(longest, 24) * 7.2, top: 20, bottom: 26 };
  const [w, h] = [width - margin.left - margin.right, bars.bars.length * ROW];
  const { low, high, target } = bars;
  const amounts = [0, ...bars.bars.map((bar) => bar.amount), ...[low, high, target].filter((v) => v !== undefined)];
  const [from, to] = [Math.min(...amounts), Math.max(...amounts)];
  const end = to === from ? from + 1 : to;
  const x = (v: number): number => ((v - from) / (end - from)) * w;
  const chosen = bars.bars.find((bar) => bar.columnId === sketch.chosen) ?? bars.bars.find((bar) => bar.columnId === bars.base) ?? bars.bars[0];
  const unit = bars.unit === '' ? '' : ` ${bars.unit}`;
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
        ${ticks(from, end, Math.max(2, Math.floor(w / 70))).map((v) => svg`<path class="axis" d="M${round(x(v))},${h + 4}v4" /><text class="tick" x=${round(x(v))} y=${h + 20} font-size="11" text-anchor="middle">${number(v)}</text>`)}
        <path class="axis" d="M0,${h + 4}H${round(w)}" fill="none" />
        <text class="tick" x=${round(w + margin.right - 2)} y=${h + 20} font-size="11" text-anchor="end">${bars.unit}</text>
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

const number = (v: number): string => String(Number(v.toPrecision(4))).replace('-', '−');
const round = (v: number): number => Math.round(v * 10) / 10;
