/** What may be tried, as it is asked on the slip: the fields, and what is read from them. */
import { html, nothing, type TemplateResult } from 'lit';
import { showNumber, withSpaces } from '../../../functions/number-text.ts';
import { readQuantity } from '../../../functions/quantity-text.ts';
import type { Choices, Offered, Span } from '../../engine/proposing/index.ts';
import type { Units } from './layouts-shown.ts';

const DIMMING: readonly (readonly [NonNullable<Choices['dimming']>, string])[] = [
  ['aim', 'as far as the light aimed at allows'],
  ['low end', 'as far as the least light wanted allows'],
  ['none', 'not dimmed'],
];
const TURNED: readonly (readonly [NonNullable<Choices['turned']>, string])[] = [
  ['either', 'either way'],
  ['no', 'long side along'],
  ['yes', 'long side across'],
];

/** Fields with all that the book offers: what is left as it stands is tried. */
export function choiceFields(offered: Offered, { height, hung }: Units): TemplateResult {
  const { fixtures, supplies, along, across, heights, rows } = offered;
  const high = (metres: number): string => withSpaces(showNumber(metres, height).text);
  return html`
    ${ticked('fixture', 'Which lights', fixtures)}
    <fieldset class="amounts"><legend>How many, and how they hang</legend>
      ${rows.includes('along') ? between('along', 'Rows along', along) : nothing}
      ${rows.includes('across') ? between('across', 'Rows across', across) : nothing}
      ${rows.includes('turned') ? html`<label>Turned <select name="turned">${TURNED.map(option)}</select></label>` : nothing}
      ${rows.includes('spread_along') ? spread('spread-along', 'Spread along', offered.spreadAlong) : nothing}
      ${rows.includes('spread_across') ? spread('spread-across', 'Spread across', offered.spreadAcross) : nothing}
      ${
        rows.includes('height')
          ? html`<label>${hung}, from <input name="height-low" type="text" autocomplete="off" .defaultValue=${high(heights.low)} /></label>
      <label>to <input name="height-high" type="text" autocomplete="off" .defaultValue=${high(heights.high)} /></label>
      <label>by <input name="height-step" type="text" autocomplete="off" .defaultValue=${high(heights.step)} /></label>`
          : nothing
      }
      ${rows.includes('dim') ? html`<label>Dimmed <select name="dimming">${DIMMING.map(option)}</select></label>` : nothing}
    </fieldset>
    ${supplies.length > 1 ? ticked('supply', 'Which supplies', supplies) : nothing}
    <label>Mains circuits, at most <input name="circuits" type="number" min="1" max="99" placeholder="any" /></label>`;
}

const option = ([value, words]: readonly [string, string]): TemplateResult => html`<option value=${value}>${words}</option>`;

const ticked = (name: string, legend: string, of: readonly string[]): TemplateResult =>
  html`<fieldset class="ticks"><legend>${legend}</legend>${of.map((one) => html`<label><input type="checkbox" name=${name} value=${one} .defaultChecked=${true} /> ${one}</label>`)}</fieldset>`;

const between = (name: string, label: string, { low, high }: Span): TemplateResult =>
  html`<label>${label}, from <input name="${name}-low" type="number" min=${low} max=${high} .defaultValue=${String(low)} /></label>
    <label>to <input name="${name}-high" type="number" min=${low} max=${high} .defaultValue=${String(high)} /></label>`;

const spread = (name: string, label: string, content: string): TemplateResult =>
  html`<label>${label} <input name=${name} type="text" autocomplete="off" .defaultValue=${content} aria-description="One or several, with spaces between them" /></label>`;

/** What the fields say; a sentence where one of them can't be read. */
export function choicesIn(data: FormData, offered: Offered, { height }: Units): Choices | string {
  const text = (name: string): string => String(data.get(name) ?? '').trim();
  const several = (name: string, of: readonly string[]): readonly string[] | undefined => {
    const picked = data.getAll(name).map(String);
    return picked.length === of.length ? undefined : picked;
  };
  const fixtures = several('fixture', offered.fixtures);
  const supplies = offered.supplies.length > 1 ? several('supply', offered.supplies) : undefined;
  if (fixtures?.length === 0) return 'Tick one light at least.';
  if (supplies?.length === 0) return 'Tick one supply at least.';
  const along = countsIn(text('along-low'), text('along-high'), offered.along);
  const across = countsIn(text('across-low'), text('across-high'), offered.across);
  const heights = heightsIn(text, offered, height);
  const [spreadAlong, spreadAcross] = [spreadsIn(text('spread-along')), spreadsIn(text('spread-across'))];
  for (const read of [along, across, heights, spreadAlong, spreadAcross]) if (typeof read === 'string') return read;
  const circuits = Number(text('circuits'));
  return {
    ...(fixtures && { fixtures }),
    ...(along && { along: along as Span }),
    ...(across && { across: across as Span }),
    ...(text('turned') && { turned: text('turned') as NonNullable<Choices['turned']> }),
    ...(heights && { heights: heights as NonNullable<Choices['heights']> }),
    ...(spreadAlong && { spreadAlong: spreadAlong as readonly string[] }),
    ...(spreadAcross && { spreadAcross: spreadAcross as readonly string[] }),
    ...(text('dimming') && { dimming: text('dimming') as NonNullable<Choices['dimming']> }),
    ...(supplies && { supplies }),
    ...(circuits > 0 && { circuits }),
  };
}

/** Undefined where it is all that is offered. */
function countsIn(low: string, high: string, offered: Span): Span | string | undefined {
  if (low === '' && high === '') return undefined;
  const span = { low: low === '' ? offered.low : Number(low), high: high === '' ? offered.high : Number(high) };
  if (!(span.low <= span.high)) return `From ${low} to ${high} there is no number of rows.`;
  return span.low === offered.low && span.high === offered.high ? undefined : span;
}

function heightsIn(text: (name: string) => string, { heights }: Offered, shown: string): NonNullable<Choices['heights']> | string | undefined {
  const made: { low?: number; high?: number; step?: number } = {};
  for (const key of ['low', 'high', 'step'] as const) {
    const typed = text(`height-${key}`);
    // What stands there as it was offered is not rounded to what is shown of it.
    if (typed === '' || typed === withSpaces(showNumber(heights[key], shown).text)) continue;
    const read = readQuantity(typed, { unit: shown, currency: '' });
    if (read.kind !== 'number') return read.kind === 'refused' ? read.message : `“${typed}” is no height.`;
    made[key] = read.base;
  }
  const { low = heights.low, high = heights.high } = made;
  if (low > high) return 'The least height is above the greatest.';
  return Object.keys(made).length === 0 ? undefined : made;
}

function spreadsIn(typed: string): readonly string[] | string | undefined {
  const parts = typed.split(/[\s;]+/u).filter(Boolean);
  const wrong = parts.find((part) => !(Number(part) > 0));
  if (wrong !== undefined) return `“${wrong}” is no spread: write numbers such as 1.1, with spaces between them.`;
  return parts.length === 0 ? undefined : parts;
}
