import { html, nothing, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import { renameBook } from '../../book/commands/rename.ts';
import { hasPrices, plainMoney } from '../../book/commands/set-currency.ts';
import { inOneStep, setHabits } from '../../book/commands/set-habits.ts';
import { habitsOf } from '../../book/habits.ts';
import { isRefused } from '../../book/refused.ts';
import '../styles/blocks.css';
import { habitFields, habitsIn, remember } from './habit-fields.ts';
import { Slip } from './slip.ts';

/** The one slip on which the plan and its client are named, and what is usual where the client is is said. */
export class ObPlanName extends Slip<undefined> {
  static override properties = { book: { state: true }, money: { state: true }, wrong: { state: true } };
  /** As it stood when the slip was opened. */
  declare book: Book | undefined;
  /** The code that stands in its field. */
  declare money: string;
  declare wrong: string;

  constructor() {
    super();
    this.money = '';
    this.wrong = '';
  }

  async open(): Promise<void> {
    const { book } = this.around.session;
    this.book = book;
    this.money = book.currency;
    this.wrong = '';
    await this.updateComplete;
    this.querySelector('form')?.reset();
    this.dialog?.showModal();
  }

  /** What was asked is no longer there to be drawn, and is drawn anew from the book the next time. */
  #closed(): void {
    if (!this.isOpen) this.book = undefined;
  }

  #keep(event: Event): void {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const [title = '', client = '', amounts, rate = ''] = ['title', 'client', 'amounts', 'rate'].map((key) => String(data.get(key) ?? '').trim());
    const habits = habitsIn(data);
    if (typeof habits === 'string') {
      this.wrong = habits;
      return;
    }
    const converted = this.#asksForMoney && amounts === 'convert';
    this.say('change', {
      command: (book) =>
        inOneStep(book, [
          (b) => renameBook(b, { title, client }),
          (b) => setHabits(b, { ...habits, ...(converted ? { rate: Number(rate.replace(',', '.')) } : {}) }),
        ]),
      answered: (answer) => {
        this.wrong = isRefused(answer) ? answer.message : '';
        if (isRefused(answer)) return;
        remember(habits);
        this.close();
      },
      plain: true,
    });
  }

  get #asksForMoney(): boolean {
    const { book, money } = this;
    return book !== undefined && /^[A-Z]{3}$/u.test(money) && money !== book.currency && hasPrices(book);
  }

  override render(): TemplateResult {
    const { book } = this;
    return html`<dialog class="slip-box naming" aria-label="Name the plan, its client and what is usual there" @close=${this.#closed}>
      ${
        book
          ? html`<form class="begin" @submit=${this.#keep} @input=${this.#look}>
        <label>Plan <input name="title" type="text" required autocomplete="off" .defaultValue=${book.title} /></label>
        <label>Client <input name="client" type="text" autocomplete="off" .defaultValue=${book.client} /></label>
        ${habitFields(habitsOf(book))}
        ${this.#asksForMoney ? this.#amounts(book) : nothing}
        ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
        <div class="do">
          <button type="submit" class="btn first">Keep</button>
          <button type="button" class="btn" @click=${() => this.close()}>Leave as it was</button>
        </div>
      </form>`
          : nothing
      }
    </dialog>`;
  }

  #look = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    if (field.name === 'currency') this.money = field.value.trim().toUpperCase();
    if (field.name === 'rate') {
      const convert = this.querySelector<HTMLInputElement>('input[value=convert]');
      if (convert) convert.checked = true;
    }
  };

  /** A price is no other for being written in another money: somebody has to say which of the two is meant. */
  #amounts(book: Book): TemplateResult {
    const plain = plainMoney(book);
    return html`<fieldset class="amounts"><legend>The amounts in this book are in ${book.currency}</legend>
      <label class="one"><input type="radio" name="amounts" value="keep" required /> Their numbers are ${this.money} already</label>
      <label class="one"><input type="radio" name="amounts" value="convert" required /> Convert them all by a rate</label>
      <label>1 ${book.currency} in ${this.money} <input name="rate" type="text" inputmode="decimal" autocomplete="off" /></label>
      ${plain.length > 0 ? html`<p>${plain.length === 1 ? 'One formula makes' : `${plain.length} formulas make`} money of plain numbers, or the other way round, and ${plain.length === 1 ? 'is' : 'are'} not converted: ${plain.slice(0, 6).join(', ')}${plain.length > 6 ? ' …' : ''}.</p>` : nothing}
    </fieldset>`;
  }
}
customElements.define('ob-naming', ObPlanName);
