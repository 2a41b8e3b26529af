import { html, nothing, type TemplateResult } from 'lit';
import { readQuantity } from '../../../functions/quantity-text.ts';
import type { At } from '../../book/address.ts';
import type { Range } from '../../book/book.ts';
import { setRange } from '../../book/commands/set-range.ts';
import { rangeOf, titleOf, unitOf } from '../../book/look-up.ts';
import { isRefused } from '../../book/refused.ts';
import { Slip } from './slip.ts';

interface Asked {
  readonly addresses: readonly string[];
  /** The chosen one of them. */
  readonly at: At;
}

/** A slip that says what may be given in the chosen cells: a least and a greatest, a list to pick from, or cells that hold the choices. */
export class ObRangeSlip extends Slip<Asked> {
  static override properties = { at: { state: true }, wrong: { state: true } };
  declare at: At | undefined;
  declare wrong: string;
  #addresses: readonly string[] = [];

  constructor() {
    super();
    this.wrong = '';
  }

  async open({ addresses, at }: Asked): Promise<void> {
    this.#addresses = addresses;
    this.at = at;
    this.wrong = '';
    await this.updateComplete;
    const range = rangeOf(at);
    const unit = range?.unit && range.unit !== '1' ? ` ${range.unit}` : '';
    this.#fill('least', range?.low === undefined ? '' : `${range.low}${unit}`);
    this.#fill('greatest', range?.high === undefined ? '' : `${range.high}${unit}`);
    this.#fill('list', range?.oneOf?.join('\n') ?? '');
    this.#fill('from', range?.from ?? '');
    this.dialog?.showModal();
  }

  #field(name: string): HTMLInputElement | HTMLTextAreaElement | null {
    return this.querySelector(`[name=${name}]`);
  }

  #fill(name: string, value: string): void {
    const field = this.#field(name);
    if (field) field.value = value;
  }

  #set(range: Range | null): void {
    this.say('change', {
      command: (book) => setRange(book, { addresses: this.#addresses, range }),
      answered: (answer) => {
        this.wrong = isRefused(answer) ? answer.message : '';
        if (!isRefused(answer)) this.close();
      },
    });
  }

  #take(event: Event): void {
    event.preventDefault();
    const text = (name: string): string => this.#field(name)?.value.trim() ?? '';
    const [least, greatest, from] = [text('least'), text('greatest'), text('from')];
    const list = text('list')
      .split('\n')
      .map((line) => line.trim())
      .filter(Boolean);
    const limits = this.#limits(least, greatest);
    if (typeof limits === 'string') this.wrong = limits;
    else this.#set({ ...limits, ...(list.length > 0 ? { oneOf: list } : {}), ...(from === '' ? {} : { from }) });
  }

  /** The least and the greatest in one unit; a sentence where they can't be read. */
  #limits(least: string, greatest: string): Range | string {
    const { at } = this;
    if (!at) return {};
    const limits: { low?: number; high?: number; unit?: string } = {};
    for (const [key, text] of [
      ['low', least],
      ['high', greatest],
    ] as const) {
      if (text === '') continue;
      const unit = limits.unit ?? unitOf(at);
      const read = readQuantity(text, { currency: this.around.session.book.currency, ...(unit ? { unit } : {}) });
      if (read.kind !== 'number') return read.kind === 'refused' ? read.message : `“${text}” is not a number.`;
      if (limits.unit !== undefined && read.unit !== limits.unit) return `Write both in ${limits.unit || 'plain numbers'}.`;
      limits[key] = read.value;
      limits.unit = read.unit;
    }
    const { unit, ...numbers } = limits;
    return unit ? { ...numbers, unit } : numbers;
  }

  override render(): TemplateResult {
    const { at } = this;
    const what = at ? (this.#addresses.length > 1 ? `${this.#addresses.length} cells` : titleOf(at)) : '';
    return html`<dialog class="slip-box" aria-label="What may be given: ${what}">
      <form class="begin" @submit=${this.#take}>
        <p>What may be given in ${what}: numbers within limits, or one of a list, or one of the texts in some cells.</p>
        <label>At least <input name="least" type="text" autocomplete="off" spellcheck="false" /></label>
        <label>At most <input name="greatest" type="text" autocomplete="off" spellcheck="false" /></label>
        <label>Or a list, one a line <textarea name="list" rows="3" spellcheck="false"></textarea></label>
        <label>Or the cells that hold the choices, such as Fixtures.A2:A6 <input name="from" type="text" autocomplete="off" autocapitalize="off" spellcheck="false" /></label>
        <p class="wrong" role="status">${this.wrong || nothing}</p>
        <div class="do">
          <button type="submit" class="btn first">Keep</button>
          <button type="button" class="btn" @click=${() => this.#set(null)}>As the row says</button>
          <button type="button" class="btn" @click=${() => this.close()}>Leave as it was</button>
        </div>
      </form>
    </dialog>`;
  }
}
customElements.define('ob-range-slip', ObRangeSlip);
