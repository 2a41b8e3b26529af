/** The light of a day, month by month: the sun below, the lamps that fill what it leaves open on it, the line that is aimed at across. */
import { html, nothing, svg, type TemplateResult } from 'lit/html.js';
import type { Book } from '../book/book.ts';
import type { Value, Values } from '../engine/types.ts';
import { textOfValue } from '../shown.ts';
import { cellsOf, missTexts, type PictureCells } from './cells.ts';
import { type Frame, type PictureBlock, type PictureRead, picture } from './picture.ts';
import { niceStep, ticks } from './scale.ts';

const READS: readonly PictureRead[] = [
  { key: 'months', name: 'months', meaning: 'their names, one a cell', takes: 'texts', run: true, needed: true, called: /^month$/i },
  {
    key: 'sun',
    name: 'sun on the bench',
    meaning: 'the light of a day by month, before the fixtures keep any off',
    takes: 'mol/m²/d',
    run: true,
    needed: true,
    called: /^sun under the roof/i,
  },
  { key: 'shade', name: 'sun shaded by the fixtures', meaning: 'a share; left empty: none', takes: '1', called: /^sun (?:shaded by|that) the fixtures/i },
  {
    key: 'gap',
    name: 'what the sun leaves open',
    meaning: 'what is short of the light aimed at, by month; the lamps fill it',
    takes: 'mol/m²/d',
    run: true,
    called: /^gap$/i,
  },
  {
    key: 'most',
    name: 'most that the lamps give',
    meaning: 'in a day, on for all their hours',
    takes: 'mol/m²/d',
    called: /^most (?:dli from|that) the lamps/i,
  },
  { key: 'target', name: 'DLI aimed at', meaning: 'a line across', takes: 'mol/m²/d', called: /^(?:dli|day light) aimed at/i },
];

export const monthlyLight = picture({
  title: 'Light by month',
  shows: 'The light of a day through the year: what the sun brings, what the lamps add, and what is wanted.',
  reads: READS,
  read(block, book, values) {
    const years = readMonths(block, book, values);
    return { found: years.years.length > 0 ? years : undefined, missing: years.missing };
  },
  draw: drawMonths,
});

/** mol/m²/d throughout. */
export interface Month {
  readonly name: string;
  /** What is left of it under the fixtures. */
  readonly sun: number;
  readonly lamps: number;
}

export interface Year {
  readonly letter: string;
  readonly columnId: string;
  readonly months: readonly Month[];
  readonly target: number | undefined;
}

export interface Years {
  readonly years: readonly Year[];
  readonly missing: readonly string[];
  readonly base: string;
  /** The block says what the lamps give. */
  readonly lamps: boolean;
}

const numberOf = (value: Value | undefined): number | undefined => (value?.kind === 'number' ? value.base : undefined);

export function readMonths(block: PictureBlock, book: Book, values: Values): Years {
  // The scenarios are those of whatever the lamps are read from; without lamps there is one year.
  const lead = ['gap', 'most', 'shade'].find((key) => block.reads[key]) ?? 'sun';
  const cells = cellsOf(block, READS, book, values, lead);
  const lamps = cells.says('gap') && cells.says('most');
  const misses: { readonly letter: string; readonly why: string }[] = [];
  const years: Year[] = [];
  for (const column of cells.columns) {
    const letter = cells.letter(column);
    const year = yearOf(cells, column, lamps);
    if (typeof year === 'string') misses.push({ letter, why: year });
    else years.push({ letter, columnId: cells.columnId(column), months: year, target: cells.number('target', column) });
  }
  const half = !lamps && (cells.says('gap') || cells.says('most'));
  return {
    years,
    missing: [...missTexts(misses), ...(half ? [`the lamps, as ${cells.miss(cells.says('gap') ? 'most' : 'gap', 0)}`] : [])],
    base: cells.base,
    lamps,
  };
}

/** Twelve months, or as many as there are; else why not. The lamps fill the gap as far as they can, and rest where there is none. */
function yearOf(cells: PictureCells, column: number, lamps: boolean): readonly Month[] | string {
  const suns = cells.run('sun', column);
  const names = cells.run('months', column);
  if (suns.length === 0) return cells.miss('sun', column);
  if (names.length !== suns.length)
    return names.length === 0 ? cells.miss('months', column) : `there are ${names.length} names of months for ${suns.length} values of sun`;
  const gaps = lamps ? cells.run('gap', column) : [];
  if (lamps && gaps.length !== suns.length) return gaps.length === 0 ? cells.miss('gap', column) : `there are ${gaps.length} gaps for ${suns.length} months`;
  const titles = names.map((name) => textOfValue(name));
  const places = gapPlaces(titles, lamps ? cells.headings('gap') : []);
  if (typeof places === 'string') return places;
  const shade = cells.says('shade') ? cells.number('shade', column) : 0;
  if (shade === undefined) return cells.miss('shade', column);
  const most = lamps ? cells.number('most', column) : 0;
  if (most === undefined) return cells.miss('most', column);
  const months: Month[] = [];
  for (const [i, value] of suns.entries()) {
    const sun = numberOf(value);
    const gap = lamps ? numberOf(gaps[places[i] ?? i]) : 0;
    const name = titles[i] ?? '';
    if (sun === undefined || gap === undefined) return `${name || `month ${i + 1}`} has no ${sun === undefined ? 'sun' : 'gap'} yet`;
    months.push({ name, sun: sun * (1 - shade), lamps: Math.min(gap, most) });
  }
  return months;
}

/**
 * Where the gap of each month stands: in the row that says the month, as the one table can be put into another order than the other. Rows
 * that say none of the months are taken in order.
 */
function gapPlaces(months: readonly string[], rows: readonly string[]): readonly number[] | string {
  const said = rows.map((row) => months.flatMap((month, i) => (month !== '' && says(row, month) ? [i] : [])));
  if (said.every((of) => of.length === 0)) return months.map((_, i) => i);
  const places = months.map((_, i) => said.findIndex((of) => of.length === 1 && of[0] === i));
  const lacking = places.indexOf(-1);
  return lacking < 0 ? places : `no row of the gaps is called ${months[lacking] || `month ${lacking + 1}`}, where others say their month`;
}

/** Whole words only: a row for "Mayflower" says nothing of May. */
const says = (row: string, month: string): boolean =>
  ` ${row.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, ' ')} `.includes(` ${month.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, ' ')} `);

const HEIGHT = 200;

function drawMonths(years: Years, frame: Frame): TemplateResult {
  const year = years.years.find((y) => y.columnId === frame.chosen) ?? years.years.find((y) => y.columnId === years.base) ?? years.years[0];
  if (!year) return html``;
  const width = Math.min(frame.width, 760);
  const margin = { left: 34, right: 12, top: 20, bottom: 26 };
  const [w, h] = [width - margin.left - margin.right, HEIGHT];
  const { target, months } = year;
  const most = Math.max(target ?? 0, ...months.map((m) => m.sun + m.lamps), 1e-9);
  const step = niceStep(most, 5);
  const top = Math.ceil(most / step - 1e-9) * step;
  const y = (v: number): number => h - (v / top) * h;
  const room = w / months.length;
  const bar = room * 0.62;
  const hatch = `${frame.id}-lamps`;
  const label = said(frame.caption, year);
  return html`<div class="cap"><h3>Light by month${year.letter ? `, ${year.letter}` : ''}</h3><span>${frame.caption}</span></div>
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
