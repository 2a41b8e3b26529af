/** The light of a day, month by month: the sun below, the lamps on it, the line that is aimed at across. */
import { html, nothing, svg, type TemplateResult } from 'lit';
import type { Year, Years } from '../../pictures/months.ts';
import { niceStep, ticks } from '../../pictures/scale.ts';
import type { Frame } from './frame.ts';

const HEIGHT = 200;

export function monthsPicture(years: Years, sketch: Frame): TemplateResult {
  const year = years.years.find((y) => y.columnId === sketch.chosen) ?? years.years.find((y) => y.columnId === years.base) ?? years.years[0];
  if (!year) return html``;
  const width = Math.min(sketch.width, 760);
  const margin = { left: 34, right: 12, top: 20, bottom: 26 };
  const [w, h] = [width - margin.left - margin.right, HEIGHT];
  const { target, months } = year;
  const most = Math.max(target ?? 0, ...months.map((m) => m.sun + m.lamps), 1e-9);
  const step = niceStep(most, 5);
  const top = Math.ceil(most / step - 1e-9) * step;
  const y = (v: number): number => h - (v / top) * h;
  const room = w / months.length;
  const bar = room * 0.62;
  const hatch = `${sketch.id}-lamps`;
  const label = said(sketch.caption, year);
  return html`<div class="cap"><h3>Light by month${year.letter ? `, ${year.letter}` : ''}</h3><span>${sketch.caption}</span></div>
    <svg viewBox="0 0 ${round(width)} ${h + margin.top + margin.bottom}" style="max-width:${round(width)}px" role="img" aria-label=${label}>
      <title>${label}</title>
      <defs><pattern id=${hatch} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0,0V6" class="hatch" /></pattern></defs>
      <g transform="translate(${margin.left},${margin.top})">
        ${ticks(0, top, 5).map((v) => svg`<path class="axis" d="M0,${round(y(v))}h-4" /><text class="tick" x="-7" y=${round(y(v) + 4)} font-size="11" text-anchor="end">${v}</text>`)}
        <text class="tick" x="-30" y="-9" font-size="11">mol/m²/d</text>
        ${months.map((month, i) => {
          const left = i * room + (room - bar) / 2;
          const [sun, all] = [y(month.sun), y(month.sun + month.lamps)];
          return svg`<rect class="bar" x=${round(left)} y=${round(sun)} width=${round(bar)} height=${round(h - sun)} />
            ${month.lamps > 0 ? svg`<rect class="lamps" fill="url(#${hatch})" x=${round(left)} y=${round(all)} width=${round(bar)} height=${round(sun - all)} />` : nothing}
            ${room >= 30 ? svg`<text class="amount" x=${round(left + bar / 2)} y=${round(all - 4)} font-size="11" text-anchor="middle">${(month.sun + month.lamps).toFixed(1)}</text>` : nothing}
            <text class="tick" x=${round(left + bar / 2)} y=${h + 17} font-size="11" text-anchor="middle">${month.name.slice(0, room >= 30 ? 3 : 1)}</text>`;
        })}
        ${target === undefined ? nothing : svg`<path d="M0,${round(y(target))}H${round(w)}" stroke="var(--accent)" stroke-width="1.6" stroke-dasharray="1 3" />`}
        <path class="axis" d="M0,0V${h}H${round(w)}" fill="none" />
      </g>
    </svg>
    <p class="keyline"><span><i class="swatch sun"></i> sun on the bench</span>${years.lamps ? html`<span><i class="swatch lamps"></i> lamps</span>` : nothing}${target === undefined ? nothing : html`<span><i class="swatch aim"></i> aimed at: ${Number(target.toPrecision(3))} mol/m²/d</span>`}${years.years.length > 1 ? html`<span>choose a cell of another scenario to see it here</span>` : nothing}</p>`;
}

/** For the ear: every month, and whether it falls short. */
function said(caption: string, { letter, months, target }: Year): string {
  const each = months.map(({ name, sun, lamps }) => {
    const short = target !== undefined && sun + lamps < target * (1 - 1e-9) ? ', short of the aim' : '';
    return `${name} ${sun.toFixed(1)}${lamps > 0 ? ` and ${lamps.toFixed(1)} of lamps` : ''}${short}`;
  });
  return `${caption}${letter ? `, ${letter}` : ''}, in mol/m²/d: ${each.join('; ')}${target === undefined ? '' : `; aimed at ${Number(target.toPrecision(3))}`}`;
}

const round = (v: number): number => Math.round(v * 10) / 10;
