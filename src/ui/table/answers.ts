/** A table as questions down the page, one answer each: the form in which the brief stands. */
import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { boxed, cellParts } from './cell.ts';
import { drawn } from './row-templates.ts';
import type { CellModel, MarkedCell, RowModel } from './rows.ts';

export interface Answers {
  readonly id: string;
  readonly name: string;
  readonly rows: readonly RowModel[];
  /** Asks who gave an answer; the same function at every drawing. */
  readonly ask: (spot: string) => void;
}

export function answers({ id, name, rows, ask }: Answers): TemplateResult {
  return html`<div id=${id} class="asks" role="grid" aria-label=${name} aria-multiselectable="true">
      ${repeat(
        rows,
        ({ id }) => id,
        (row) => drawn(row, (now) => question(now, ask)),
      )}
    </div>`;
}

function question({ looks, label, help, cells }: RowModel, ask: Answers['ask']): TemplateResult {
  return html`<div role="row" class="ask ${looks.startsWith('parted') ? 'parted' : ''}">
          <div role="rowheader"><div class="q">${label}</div>${help ? html`<div class="why">${help}</div>` : nothing}</div>
          ${cells.map((cell) => answer(cell, ask))}
        </div>`;
}

function answer({ cell, on, among, letter, pending }: MarkedCell, ask: Answers['ask']): TemplateResult {
  return html`<div role="gridcell" id=${cell.id} data-spot=${cell.spot} class="c ${on ? 'on' : ''} ${among ? 'among' : ''}" aria-selected=${among} aria-label=${cell.name}>
      ${boxed(cellParts(cell.view, { letter, pending, list: true }))}
      ${saidLine(cell, ask)}
    </div>`;
}

/**
 * Under an answer: who said so, as a button that asks it, and what is allowed. The button is no tab stop, for the table has one of its own;
 * from the keyboard the same slip is opened by its command.
 */
function saidLine({ said, spot }: CellModel, ask: Answers['ask']): TemplateResult | typeof nothing {
  if (!said) return nothing;
  return html`<div class="by">
    <button type="button" class="teller ${said.left ? 'left' : ''}" tabindex="-1" aria-label="${said.of}: who said so?" @click=${() => ask(spot)}>${said.left ? html`<b>to ask</b> ` : nothing}${said.teller}</button>
    <span>${said.allowed}</span>
  </div>`;
}
