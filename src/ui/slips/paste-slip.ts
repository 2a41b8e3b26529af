import { html, nothing, type TemplateResult } from 'lit';
import { titleOf } from '../../book/look-up.ts';
import { isRefused } from '../../book/refused.ts';
import { type Ask, type DecimalMark, fetchPasting, type Patch, type Read } from '../table/index.ts';
import { Slip } from './slip.ts';

/** There since the first paste that asked. */
let pasting: Awaited<ReturnType<typeof fetchPasting>>;

/** What is shown of a long list; the counts speak of all of it. */
const SHOWN = 8;

/** A slip that shows how a pasted block will be read before it lands, and offers the rows that it needs. */
export class ObPasteSlip extends Slip<Ask> {
  static override properties = { asked: { state: true }, read: { state: true }, mark: { state: true }, wrong: { state: true } };
  declare asked: Ask | undefined;
  declare read: readonly (readonly Read[])[] | undefined;
  declare mark: DecimalMark;
  declare wrong: string;

  constructor() {
    super();
    this.mark = '.';
    this.wrong = '';
  }

  async open(asked: Ask): Promise<void> {
    pasting = await fetchPasting();
    this.asked = asked;
    this.wrong = '';
    this.mark = pasting.decimalMarkOf(asked.grid ?? []) ?? '.';
    await this.#readAll();
    await this.updateComplete;
    this.dialog?.showModal();
    this.querySelector<HTMLInputElement>('[name=mark]:checked')?.focus();
  }

  async #readAll(): Promise<void> {
    const { asked } = this;
    if (!asked) return;
    this.read = asked.own ? undefined : await pasting.readGrid(this.around.session.ask, (asked.places ?? asked).target, asked.grid ?? [], this.mark);
  }

  #choose(mark: DecimalMark): void {
    this.mark = mark;
    void this.#readAll();
  }

  #leave(): void {
    this.close();
    this.asked = undefined;
    this.read = undefined;
  }

  /** `so`: where it is, whatever places it would have. */
  #land(event: Event, so = false): void {
    event.preventDefault();
    const { asked } = this;
    if (!asked) return;
    if (this.around.session.book !== asked.target.book) {
      this.wrong = 'The book changed meanwhile. Paste it again.';
      return;
    }
    const cells: Patch = asked.own?.cells ?? this.read?.map((line) => line.map((each) => each.cell ?? null)) ?? [];
    const { target, own, places } = asked;
    const answer = places && !so ? pasting.putDownAnew(places, cells, own) : pasting.putDown(target, cells, own, true);
    if (isRefused(answer)) {
      this.wrong = answer.message;
      return;
    }
    this.#leave();
    this.say('change', { command: () => answer });
  }

  override render(): TemplateResult {
    const { asked } = this;
    if (!asked) return html`<dialog class="slip-box" aria-label="How it will be read"></dialog>`;
    const all = this.read?.flat().filter((each) => each.text !== '') ?? [];
    const otherwise = all.filter((each) => each.said !== undefined);
    const shown = all.filter((each) => each.shown !== undefined);
    const problems = all.filter((each) => each.problem !== undefined);
    const cells: readonly (readonly unknown[])[] = asked.own?.cells ?? asked.grid ?? [];
    const { places } = asked;
    const more = pasting.wordsOf(pasting.beyond((places ?? asked).target, cells));
    const size = `${cells.length} × ${Math.max(...cells.map((line) => line.length))}`;
    return html`<dialog class="slip-box paste" aria-label="How it will be read">
      <form @submit=${(event: Event) => this.#land(event)}>
        <h2>How it will be read</h2>
        <p>${size} cells, from ${titleOf(asked.target.at)} on.${more ? ` That is ${more} beyond the edge of ${asked.target.at.table.name}.` : ''}</p>
        ${places ? html`<p>${places.change.label}.</p>` : nothing}
        ${asked.own ? nothing : this.#marks()}
        ${problems.length > 0 ? html`<p class="wrong">${problems.length === 1 ? 'One cell does' : `${problems.length} cells do`} not take what is pasted:</p>${list(problems.map(refusalOf))}` : nothing}
        ${otherwise.length > 0 ? html`<p>${otherwise.length === 1 ? 'One cell reads' : `${otherwise.length} cells read`} otherwise than written:</p>${list(otherwise.map(({ where, text, said }) => `${where}: “${cut(text)}” → ${said}`))}` : nothing}
        ${shown.length > 0 ? html`<p>${shown.length === 1 ? 'One cell is' : `${shown.length} cells are`} shown in another unit from then on:</p>${list(shown.map(({ where, text, shown }) => `${where}: “${cut(text)}”, shown in ${shown?.now}, until now in ${shown?.before}`))}` : nothing}
        <p class="wrong" role="status">${this.wrong || (problems.length > 0 ? `Nothing is put in until ${problems.length === 1 ? 'that is' : 'those are'} mended: leave it, mend ${problems.length === 1 ? 'it' : 'them'} where you copied, and paste again.` : nothing)}</p>
        <div class="do">
          <button type="submit" class="btn first" ?disabled=${problems.length > 0} autofocus>${places ? `Read at ${places.size} places, and put it down` : more ? `Put it down and add ${more}` : 'Put it down so'}</button>
          ${places?.fits ? html`<button type="button" class="btn" ?disabled=${problems.length > 0} @click=${(event: Event) => this.#land(event, true)}>Put it down so</button>` : nothing}
          <button type="button" class="btn" @click=${() => this.#leave()}>Leave it</button>
        </div>
      </form>
    </dialog>`;
  }

  #marks(): TemplateResult {
    const one = (mark: DecimalMark, words: string): TemplateResult =>
      html`<label><input type="radio" name="mark" .checked=${this.mark === mark} @change=${() => this.#choose(mark)} /> ${words}</label>`;
    return html`<fieldset class="how"><legend>Decimal mark</legend>${one('.', 'a point, as in 33.3')}${one(',', 'a comma, as in 33,3')}</fieldset>`;
  }
}
customElements.define('ob-paste-slip', ObPasteSlip);

const cut = (text: string): string => text.slice(0, 40);

/** Why a cell does not take its text, with the place said once: some reasons begin with it. */
function refusalOf({ where, text, problem = '' }: Read): string {
  const why = problem.startsWith(`${where}: `) ? problem.slice(where.length + 2) : problem;
  const whole = why.includes(`“${text}”`) ? why : `“${cut(text)}” is not taken. ${why}`;
  return why.startsWith(where) ? whole : `${where}: ${whole}`;
}

const list = (lines: readonly string[]): TemplateResult =>
  html`<ul class="readings">${lines.slice(0, SHOWN).map((line) => html`<li>${line}</li>`)}${lines.length > SHOWN ? html`<li>and ${lines.length - SHOWN} more</li>` : nothing}</ul>`;
