/** How layouts that were found are shown: as a list that one is picked from, and as a picture of what each costs and how even it is. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Layout } from '../../engine/proposing/index.ts';
import { type CostAgainstEvenness, dotAt, drawCostAgainstEvenness, type NamedDot } from '../../pictures/index.ts';
import { type Amount, dotOf, type Line, lineOf, ORDERS, type Order, type Sorting, sameLayout, type Units } from './layouts-shown.ts';

export interface Picked {
  /** Those that are asked for, sorted. */
  readonly layouts: readonly Layout[];
  /** How many of them are listed. */
  readonly shown: number;
  readonly picked: Layout | undefined;
  /** The best of each kind, with what stands beside them. */
  readonly named: readonly (readonly [name: string, layout: Layout])[];
  readonly sorting: Sorting;
  readonly units: Units;
  readonly pick: (layout: Layout) => void;
  readonly sort: (by: Order) => void;
  readonly more: () => void;
}

export function layoutPicture({ layouts, picked, named, units, pick }: Picked, width: number): TemplateResult | typeof nothing {
  const seen = layouts.flatMap((layout) => {
    const dot = dotOf(layout, units);
    return dot ? [{ layout, dot }] : [];
  });
  if (seen.length === 0 || width === 0) return nothing;
  const names: NamedDot[] = [];
  for (const [name, layout] of named) {
    const dot = dotOf(layout, units);
    const there = names.findIndex(({ cost, evenness }) => dot?.cost === cost && dot.evenness === evenness);
    const known = names[there];
    if (known) names[there] = { ...known, name: `${known.name}, ${name}` };
    else if (dot) names.push({ ...dot, name });
  }
  const picture: CostAgainstEvenness = { dots: seen.map(({ dot }) => dot), named: names, picked: picked && dotOf(picked, units), unit: units.cost, width };
  const press = (event: MouseEvent): void => {
    const svg = (event.currentTarget as Element).querySelector('svg');
    if (!svg) return;
    const box = svg.getBoundingClientRect();
    const drawn = svg.viewBox.baseVal;
    const found = seen[dotAt(picture, ((event.clientX - box.left) / box.width) * drawn.width, ((event.clientY - box.top) / box.height) * drawn.height) ?? -1];
    if (found) pick(found.layout);
  };
  return html`<div class="seen" @click=${press}>${drawCostAgainstEvenness(picture)}</div>`;
}

interface Column {
  readonly order?: Order;
  readonly label: string;
  /** Of all numbers in it, where they have one. */
  readonly unit?: string;
  readonly of: (line: Line) => Amount;
}

const columnsOf = ({ hasCost, hasEvenness, cost, light, lit }: Units): readonly Column[] => [
  { order: 'height', label: 'Hung', of: (line) => line.height },
  { label: 'Dimmed', of: (line) => line.dim },
  { order: 'count', label: 'Lights', of: (line) => line.count },
  { order: 'light', label: lit, unit: light, of: (line) => line.light },
  ...(hasEvenness ? [{ order: 'evenness', label: 'Evenness', of: (line: Line) => line.evenness } as const] : []),
  ...(hasCost ? [{ order: 'cost', label: 'Cost', unit: cost, of: (line: Line) => line.cost } as const] : []),
];

export function layoutList(list: Picked): TemplateResult {
  const { layouts, shown, picked, named, units, pick, sorting, sort, more } = list;
  const columns = columnsOf(units);
  const rest = layouts.length - shown;
  return html`<div class="found"><table>
      <caption class="unseen">Layouts in which all holds. Pick one to read about it and to take it.</caption>
      <thead><tr><th scope="col">Layout</th>${columns.map((column) => heading(column, sorting, sort))}</tr></thead>
      <tbody>${layouts.slice(0, shown).map((layout) => {
        const line = lineOf(layout, units);
        const names = named.flatMap(([name, one]) => (sameLayout(one, layout) ? [name] : []));
        const on = sameLayout(layout, picked);
        return html`<tr class=${on ? 'on' : ''}>
          <th scope="row"><label><input type="radio" name="layout" .checked=${on} aria-label="${names.length > 0 ? `${names.join(', ')}: ` : ''}${line.spoken}" @change=${() => pick(layout)} /><span>${line.arranged}${names.length > 0 || line.fed ? html`<small>${names.map((name) => html`<b>${name}</b> `)}${line.fed}</small>` : nothing}</span></label></th>
          ${columns.map(({ label, of }) => html`<td data-label=${label}>${of(line).text}<span class="u"> ${of(line).unit}</span></td>`)}
        </tr>`;
      })}</tbody>
    </table>
    ${rest > 0 ? html`<button type="button" class="btn" @click=${more}>Show ${Math.min(rest, shown)} more of ${rest.toLocaleString('en-GB')}</button>` : nothing}</div>`;
}

function heading({ order, label, unit }: Column, { by, turned }: Sorting, sort: (by: Order) => void): TemplateResult {
  const words = html`${label}${unit ? html` <span class="u">${unit}</span>` : nothing}`;
  if (!order) return html`<th scope="col">${words}</th>`;
  const sorted = order !== by ? 'none' : ORDERS[order].up === turned ? 'descending' : 'ascending';
  return html`<th scope="col" aria-sort=${sorted}><button type="button" @click=${() => sort(order)}>${words}<i aria-hidden="true">${sorted === 'none' ? '' : sorted === 'ascending' ? ' ↑' : ' ↓'}</i></button></th>`;
}
