/** A table as questions down the page, one answer each: the form in which the brief stands. */
import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { placeIn } from '../../book/address.ts';
import { addressOf, sourceOf } from '../../book/look-up.ts';
import { spokenName, viewOf } from '../parts/cell-view.ts';
import { allowedText } from '../parts/choices.ts';
import { boxed, cellParts } from './cell.ts';
import type { Spot } from './grid-moves.ts';
import { saidLine } from './said-line.ts';
import type { TableHost } from './table-host.ts';

export function answers(host: TableHost): TemplateResult {
  const { table } = host;
  return html`<div id="grid-${host.book.tables.indexOf(table)}" class="asks" role="grid" aria-label=${table.name} aria-multiselectable="true">
      ${repeat(
        table.rows,
        (row) => row.id,
        (row, index) => html`<div role="row" class="ask ${row.parted ? 'parted' : ''}">
          <div role="rowheader"><div class="q">${row.label ?? ''}</div>${row.help ? html`<div class="why">${row.help}</div>` : nothing}</div>
          ${table.columns.map((_, column) => answer(host, { row: index, column }))}
        </div>`,
      )}
    </div>`;
}

function answer(host: TableHost, spot: Spot): TemplateResult {
  const at = placeIn(host.table, spot.column, spot.row);
  if (!at) return html``;
  const address = addressOf(at);
  const { on, among } = host.marks(spot);
  const view = viewOf(at, host.values);
  const allowed = allowedText(at);
  const name = [spokenName(at, view), at.row.help, sourceOf(at), allowed && `allowed: ${allowed}`].filter(Boolean).join('. ');
  return html`<div role="gridcell" id=${host.cellId(spot)} data-spot="${spot.row},${spot.column}" class="c ${on ? 'on' : ''} ${among ? 'among' : ''}" aria-selected=${among} aria-label=${name}>
      ${boxed(cellParts(view, { letter: host.letters.get(address), pending: host.pending.get(address), list: true }))}
      ${saidLine(at, () => host.askAbout(spot))}
    </div>`;
}
