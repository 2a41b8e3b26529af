import { html, nothing, type TemplateResult } from 'lit';
import { titleOf } from '../book/look-up.ts';
import { isRefused } from '../book/refused.ts';
import type { Session } from '../session.ts';
import { Part } from './part.ts';
import { type Ask, beyond, type Cells, putDown, type Read, readGrid, wordsOf } from './paste-cells.ts';
import { type DecimalMark, decimalMarkOf } from './pasted-text.ts';

/** What is shown of a long list; the counts speak of all of it. */
const SHOWN = 8;

/** A slip that shows how a pasted block will be read before it lands, and offers the rows that it needs. */
export class ObPasteSlip extends Part {
  static override properties = { asked: { state: true }, read: { state: true }, mark: { state: true }, wrong: { state: true } };
  declare asked: Ask | undefined;
  declare read: readonly (readonly Read[])[] | undefined;
  declare mark: DecimalMark;
  declare wrong: string;
  #session: Session | undefined;

  constructor() {
    super();
    this.mark = '.';
    this.wrong = '';
  }

  async open(session: Session, asked: Ask): Promise<void> {
    this.#session = session;
    this.asked = asked;
    this.wrong = '';
    this.mark = decimalMarkOf(asked.grid ?? []) ?? '.';
    await this.#readAll();
    await this.updateComplete;
    this.querySelector('dialog')?.showModal();
    this.querySelector<HTMLInputElement>('[name=mark]:checked')?.focus();
  }

  async #readAll(): Promise<void> {
    const { asked } = this;
    if (!asked || !this.#session) return;
    this.read = asked.own ? undefined : await readGrid(this.#session, asked.target, asked.grid ?? [], this.mark);
  }

  #choose(mark: DecimalMark): void {
    this.mark = mark;
    void this.#readAll();
  }

  #close(): void {
    this.querySelector('dialog')?.close();
    this.asked = undefined;
    this.read = undefined;
  }

  #land(event: Event): void {
    event.preventDefault();
    const { asked } = this;
    if (!asked || !this.#session) return;
    if (this.#session.book !== asked.target.book) {
      this.wrong = 'The book changed meanwhile. Paste it again.';
      return;
    }
    const cells: Cells = asked.own?.cells ?? this.read?.map((line) => line.map((each) => each.cell ?? null)) ?? [];
    const answer = putDown(asked.target, cells, asked.own, true);
    if (isRefused(answer)) {
      this.wrong = answer.message;
      return;
    }
    this.#close();
    this.say('bring', { change: answer });
  }

  override render(): TemplateResult {
    const { asked } = this;
    if (!asked) return html`<dialog class="slip-box" aria-label="How it will be read"></dialog>`;
    const all = this.read?.flat().filter((each) => each.text !== '') ?? [];
    const otherwise = all.filter((each) => each.said !== undefined);
    const problems = all.filter((each) => each.problem !== undefined);
    const cells: readonly (readonly unknown[])[] = asked.own?.cells ?? asked.grid ?? [];
    const more = wordsOf(beyond(asked.target, cells));
    const size = `${cells.length} × ${Math.max(...cells.map((line) => line.length))}`;
    return html`<dialog class="slip-box paste" aria-label="How it will be read">
      <form @submit=${this.#land}>
        <h2>How it will be read</h2>
        <p>${size} cells, from ${titleOf(asked.target.at)} on.${more ? ` That is ${more} beyond the edge of ${asked.target.at.table.name}.` : ''}</p>
        ${asked.own ? nothing : this.#marks()}
        ${otherwise.length > 0 ? html`<p>${otherwise.length === 1 ? 'One cell reads' : `${otherwise.length} cells read`} otherwise than written:</p>${this.#list(otherwise, (each) => each.said ?? '')}` : nothing}
        ${problems.length > 0 ? html`<p class="wrong">${problems.length === 1 ? 'One cell is' : `${problems.length} cells are`} not taken:</p>${this.#list(problems, (each) => each.problem ?? '')}` : nothing}
        <p class="wrong" role="status">${this.wrong || nothing}</p>
        <div class="do">
          <button type="submit" class="btn first" ?disabled=${problems.length > 0} autofocus>${more ? `Put it down and add ${more}` : 'Put it down so'}</button>
          <button type="button" class="btn" @click=${() => this.#close()}>Leave it</button>
        </div>
      </form>
    </dialog>`;
  }

  #marks(): TemplateResult {
    const one = (mark: DecimalMark, words: string): TemplateResult =>
      html`<label><input type="radio" name="mark" .checked=${this.mark === mark} @change=${() => this.#choose(mark)} /> ${words}</label>`;
    return html`<fieldset class="how"><legend>Before the decimals stands</legend>${one('.', 'a point, as in 33.3')}${one(',', 'a comma, as in 33,3')}</fieldset>`;
  }

  #list(all: readonly Read[], said: (read: Read) => string): TemplateResult {
    return html`<ul class="readings">${all.slice(0, SHOWN).map((each) => html`<li>${each.where}: “${each.text.slice(0, 40)}” → ${said(each)}</li>`)}${all.length > SHOWN ? html`<li>and ${all.length - SHOWN} more</li>` : nothing}</ul>`;
  }
}
customElements.define('ob-paste-slip', ObPasteSlip);
