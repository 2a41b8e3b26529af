import { html, nothing, type TemplateResult } from 'lit';
import { quantityName } from '../../../functions/units.ts';
import { addressOf, titleOf } from '../../book/look-up.ts';
import { alikeUnits, showIn, shownUnit, unitRefusal } from '../cells/index.ts';
import { Slip } from './slip.ts';

/** A slip on which the chosen cell, or its row, is given another unit to be shown in: picked from those of its kind, or typed. */
export class ObUnitSlip extends Slip<'cell' | 'row'> {
  static override properties = { what: { state: true }, wrong: { state: true } };
  declare what: 'cell' | 'row';
  declare wrong: string;

  constructor() {
    super();
    this.what = 'cell';
    this.wrong = '';
  }

  async open(what: 'cell' | 'row'): Promise<void> {
    this.what = what;
    this.wrong = '';
    await this.updateComplete;
    const input = this.querySelector('input');
    if (input) input.value = '';
    this.dialog?.showModal();
  }

  #show(unit: string | null): void {
    const { at } = this.around;
    this.close();
    if (at) this.say('change', { command: (book) => showIn(book, at, this.what, unit) });
  }

  #typed(event: Event): void {
    event.preventDefault();
    const { at, session } = this.around;
    const typed = this.querySelector('input')?.value.trim() ?? '';
    if (!at) return;
    this.wrong = typed === '' ? 'Write a unit, or choose one from the list.' : (unitRefusal(at, session.values, typed) ?? '');
    if (this.wrong === '') this.#show(typed);
  }

  override render(): TemplateResult {
    const { at, session } = this.around;
    const now = at && shownUnit(at, session.values);
    if (!at || !now) return html`<dialog class="slip-box" aria-label="Show in another unit"></dialog>`;
    const what = this.what === 'row' ? `the row ${at.row.label ?? at.rowIndex + 1}` : titleOf(at);
    return html`<dialog class="slip-box" aria-label="Show ${what} in another unit">
      <form class="begin" data-cell=${addressOf(at)} @submit=${this.#typed}>
        <p>Show ${what} in another unit of ${quantityName(now.dimension, now.reading)}. What was given stays what it is.</p>
        <div class="do">${alikeUnits(now).map((symbol) => html`<button type="button" class="btn" aria-pressed=${symbol === now.symbol} ?autofocus=${symbol === now.symbol} @click=${() => this.#show(symbol || '1')}>${symbol || 'plain number'}</button>`)}</div>
        <label>Or write one <input type="text" autocomplete="off" autocapitalize="off" spellcheck="false" aria-describedby="unit-wrong" /></label>
        <p id="unit-wrong" class="wrong" role="status">${this.wrong || nothing}</p>
        <div class="do">
          <button type="submit" class="btn first">Show it so</button>
          <button type="button" class="btn" @click=${() => this.#show(null)}>In its own unit</button>
          <button type="button" class="btn" @click=${() => this.close()}>Leave as it was</button>
        </div>
      </form>
    </dialog>`;
  }
}
customElements.define('ob-unit-slip', ObUnitSlip);
