import { html, nothing, type TemplateResult } from 'lit';
import { readContent } from '../../../functions/quantity-text.ts';
import { need, toBase, unit } from '../../../functions/units.ts';
import type { Book } from '../../book/book.ts';
import { plainText } from '../../book/content.ts';
import { placeOf, sourceOf } from '../../book/look-up.ts';
import { isRefused } from '../../book/refused.ts';
import { saidBy } from '../../book/said-by.ts';
import { answers, type Finding, hear, keptAnswers } from '../../enquiry/index.ts';
import { Slip } from './slip.ts';
import type { ObUnderstood, Understood } from './understood.ts';
import './understood.ts';

/** The text of the client's that is kept with the book, read again when it has changed: only what differs from the plan is asked. */
export class ObEnquirySlip extends Slip<undefined> {
  static override properties = { understood: { state: true }, same: { state: true }, wrong: { state: true } };
  declare understood: Understood | undefined;
  /** How many findings stand in the plan already. */
  declare same: number;
  declare wrong: string;

  constructor() {
    super();
    this.same = 0;
    this.wrong = '';
  }

  async open(): Promise<void> {
    this.understood = undefined;
    this.wrong = '';
    await this.updateComplete;
    const field = this.querySelector('textarea');
    if (field) field.value = this.around.session.book.enquiry ?? '';
    this.dialog?.showModal();
    field?.focus();
  }

  #read(): void {
    const text = this.querySelector('textarea')?.value ?? '';
    const { book } = this.around.session;
    const all = answers(text, hear(text), book);
    const findings = all.findings.filter((one) => !stands(book, one));
    this.same = all.findings.length - findings.length;
    this.understood = { ...all, findings, text, book };
    this.wrong = '';
  }

  #keep(): void {
    const kept = this.querySelector<ObUnderstood>('ob-understood')?.kept ?? [];
    const text = this.understood?.text ?? '';
    let troubles: readonly string[] = [];
    this.say('change', {
      command: (book) => {
        const made = keptAnswers(book, kept, text);
        troubles = made.troubles;
        return made.change;
      },
      answered: (answer) => {
        this.wrong = isRefused(answer) ? answer.message : troubles.join(' ');
        if (this.wrong === '') this.close();
      },
    });
  }

  override render(): TemplateResult {
    const { understood, same } = this;
    return html`<dialog class="slip-box enquiry" aria-label="What the client wrote">
      <label>What the client wrote, in English <textarea name="enquiry" rows="6" spellcheck="false"></textarea></label>
      <div class="do"><button type="button" class="btn ${understood ? '' : 'first'}" @click=${() => this.#read()}>Read it</button></div>
      ${
        understood
          ? html`${same > 0 ? html`<p class="why">${same === 1 ? 'One answer stands' : `${same} answers stand`} in the plan already.</p>` : nothing}
        <ob-understood .understood=${understood}></ob-understood>`
          : nothing
      }
      ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
      <div class="do">
        ${understood ? html`<button type="button" class="btn first" @click=${() => this.#keep()}>Put in what is kept</button>` : nothing}
        <button type="button" class="btn" @click=${() => this.close()}>Put away</button>
      </div>
    </dialog>`;
  }
}
customElements.define('ob-enquiry-slip', ObEnquirySlip);

/** Whether the given has this answer, and somebody's word for it. */
function stands(book: Book, { given, value, unit: symbol }: Finding): boolean {
  const at = placeOf(book, given);
  const content = at?.cell?.content ?? '';
  if (!at || content === '' || (saidBy(sourceOf(at))?.teller === 'default' && at.table.form !== 'list')) return false;
  const now = readContent(content, book.currency);
  if (now.kind === 'number')
    return typeof value === 'number' && Math.abs(toBase(value, unit(symbol) ?? need('1')) - now.base) <= 1e-9 * Math.max(1, Math.abs(now.base));
  return plainText(content) === String(value);
}
