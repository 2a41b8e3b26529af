/** What a search came to, in words: the proposals with their reasons, or what stands in the way of any. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Table } from '../../book/book.ts';
import type { Aim, Binding, Counts, Looked, Proposal, Way } from '../../engine/proposing/index.ts';
import { lineOf as valueLine } from '../../shown.ts';
import { inWords, type Units } from './layouts-shown.ts';

const AIMS: Readonly<Record<Aim, string>> = { cheapest: 'Cheapest by the year', 'most even': 'Most even', 'fewest lights': 'Fewest lights' };

export const letterOf = (table: Table | undefined, n: number): string => table?.columns[n]?.label ?? String.fromCharCode(65 + n);

/** One after another, as they stand in the scenarios or would. */
export function reasons(proposals: readonly Proposal[], table: Table | undefined, units: Units): TemplateResult {
  return html`<ol class="reasons">${proposals.map(
    (one, n) => html`<li><h3><b>${letterOf(table, n)}</b> ${AIMS[one.aim]}</h3>
      <p>${inWords(one.layout, units)}.</p>
      <p>${one.why}</p>
      ${restsOn(one)}</li>`,
  )}</ol>`;
}

/** What is assumed and what is close to its limit: checks that hold only so far. */
export function restsOn({ assumed, close }: Pick<Looked, 'assumed' | 'close'>): TemplateResult | typeof nothing {
  if (assumed.length === 0 && close.length === 0) return nothing;
  return html`<p class="rests">${assumed.length > 0 ? `Assumed: ${assumed.join(', ')}. ` : ''}${close.length > 0 ? `Close to limit: ${close.join(', ')}.` : ''}</p>`;
}

/** `all`: those in which all holds were all wanted, and can be counted. */
export function counted({ layouts, built, hold }: Counts, all: boolean): string {
  const said = (n: number): string => n.toLocaleString('en-GB');
  return `${said(layouts)} layouts tried: ${said(built)} can be built${all ? `, and in ${said(hold)} of them no check fails and none is unknown` : ''}.`;
}

/** `change`: writes into the cell what would let something through; undefined where that can't be offered. A fact of the building is the client's to say. */
export function binding({ said, changes }: Binding, change: (way: Way) => (() => void) | undefined): TemplateResult {
  return html`<div class="binds"><p><b>${said}</b></p>
    ${
      changes.length === 0
        ? nothing
        : html`<p>What the smallest change would let through:</p><ul>${changes.map((way) => {
            const make = way.ofClient ? undefined : change(way);
            return html`<li>${way.said} ${make ? html`<button type="button" class="btn" @click=${make}>Change it and try again</button>` : nothing}</li>`;
          })}</ul>`
    }</div>`;
}

/** Rows that say what a layout comes to, where the book has them. */
const TOLD = ['count', 'kept', 'dli', 'dli_mean', 'evenness', 'highest', 'heat', 'buy', 'run', 'annual', 'verdict'];

export function inFull({ values, assumed, close }: Looked, table: Table | undefined): TemplateResult {
  const rows = (table?.rows ?? []).filter(({ id }) => TOLD.includes(id) && values[id]);
  return html`<dl class="told-rows">${rows.map((row) => html`<div><dt>${row.label}</dt><dd>${valueLine(values[row.id] ?? { kind: 'blank' }, row.decimals)}</dd></div>`)}</dl>
    ${restsOn({ assumed, close })}`;
}
