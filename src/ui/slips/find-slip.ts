import { html, type TemplateResult } from 'lit';
import { textOf } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import type { Edit } from '../../book/change.ts';
import { replaceText } from '../../book/commands/replace-text.ts';
import { isFormula } from '../../book/content.ts';
import { findText, type Hit, type Wanted } from '../../book/find.ts';
import { sentence } from '../../book/label.ts';
import { titleOf } from '../../book/look-up.ts';
import { type Answer, isRefused, refused } from '../../book/refused.ts';
import type { Session } from '../../session.ts';
import { Slip } from './slip.ts';

/** px that what is found keeps from the slip, which grows by a line where a place has a long name. */
const GAP = 60;

/** A slip that stays beside the page while one goes from place to place: a text is looked for, and replaced here or everywhere. */
export class ObFindSlip extends Slip<undefined> {
  static override properties = { hits: { state: true }, at: { state: true }, said: { state: true } };
  declare hits: readonly Hit[];
  /** Which of them is looked at; below 0: none yet. */
  declare at: number;
  declare said: string;

  constructor() {
    super();
    this.hits = [];
    this.at = -1;
    this.said = '';
  }

  async open(): Promise<void> {
    this.said = '';
    await this.updateComplete;
    if (!this.isOpen) this.dialog?.show();
    this.#keepClear();
    const input = this.querySelector<HTMLInputElement>('[name=text]');
    input?.focus();
    input?.select();
    this.#look();
  }

  get #wanted(): Wanted & { readonly with: string } {
    const data = new FormData(this.querySelector('form') ?? undefined);
    const table = data.get('here') ? this.around.at?.table.id : undefined;
    return { text: String(data.get('text') ?? ''), with: String(data.get('with') ?? ''), capitals: data.get('capitals') !== null, ...(table ? { table } : {}) };
  }

  #look(): void {
    this.hits = findText(this.around.session.book, this.#wanted);
    this.at = Math.min(this.at, this.hits.length - 1);
    this.said = '';
  }

  #go(by: 1 | -1): void {
    this.#look();
    const n = this.hits.length;
    if (n === 0) return;
    this.at = this.at < 0 ? (by > 0 ? 0 : n - 1) : (this.at + by + n) % n;
    const hit = this.hits[this.at];
    if (hit) this.#show(hit);
  }

  /** The slip lies over the foot of the page, which keeps that much free under what is scrolled into sight. */
  #keepClear(): void {
    const page = document.querySelector<HTMLElement>('main.page');
    const { open, offsetHeight = 0 } = this.dialog ?? {};
    const room = open ? `${offsetHeight + GAP}px` : '';
    if (page) Object.assign(page.style, { paddingBottom: room, scrollPaddingBottom: room });
  }

  #show(hit: Hit): void {
    this.#keepClear();
    if ('at' in hit) this.say('choose', { place: { table: hit.at.table.id, row: hit.at.row.id, column: hit.at.column.id }, focus: true });
    else if ('page' in hit) this.say('page', { page: hit.page.id });
    else {
      const [row, column] = hit.in === 'heading' && hit.axis === 'column' ? [0, hit.index] : [hit.index, 0];
      this.say('choose', { place: { table: hit.table.id, row: hit.table.rows[row]?.id ?? '', column: hit.table.columns[column]?.id ?? '' }, focus: true });
    }
    // A page that is turned to takes the focus and begins at its title: then the slip goes on, and the page to what was found.
    requestAnimationFrame(() => {
      this.querySelector<HTMLElement>('[name=next]')?.focus();
      if ('page' in hit) document.querySelector(`[data-block="${hit.block.id}"]`)?.scrollIntoView({ block: 'center' });
    });
  }

  async #replace(all: boolean): Promise<void> {
    const { session } = this.around;
    const { book } = session;
    const planned = replaceText(book, { ...this.#wanted, ...(all ? {} : { only: Math.max(0, this.at) }) });
    const answer = isRefused(planned) ? planned : await readFormulas(session, planned.edits, planned.label);
    const done = await this.#make(book, answer);
    this.#look();
    this.said = isRefused(done) ? done.message : sentence(done.label);
    if (!all && !isRefused(done)) {
      this.at -= 1;
      const message = this.said;
      this.#go(1);
      this.said = message;
    }
    // A button that can't be pressed any more has lost the focus, and with it the slip its keys.
    await this.updateComplete;
    if (document.activeElement === document.body || document.activeElement?.matches(':disabled')) this.querySelector<HTMLElement>('[name=text]')?.focus();
  }

  /** It is said on the slip what came of it. */
  #make(book: Book, answer: Answer): Promise<Answer> {
    return new Promise((answered) => {
      this.say('change', { command: (now) => (now === book ? answer : refused('The book changed meanwhile. Try again.')), answered, plain: true });
    });
  }

  override render(): TemplateResult {
    const { hits } = this;
    const times = hits.reduce((n, hit) => n + hit.times, 0);
    const hit = hits[this.at];
    return html`<dialog class="slip-box beside" aria-label="Find and replace" @keydown=${this.#press}>
      <form class="begin" @submit=${(e: Event) => {
        e.preventDefault();
        this.#go(1);
      }} @input=${() => this.#look()}>
        <label>Find <input name="text" type="text" autocomplete="off" autocapitalize="off" spellcheck="false" /></label>
        <label>New text <input name="with" type="text" autocomplete="off" autocapitalize="off" spellcheck="false" /></label>
        <label class="pick-one"><input name="capitals" type="checkbox" /> Only with the same capitals</label>
        <label class="pick-one"><input name="here" type="checkbox" ?disabled=${!this.around.at} /> Only in ${this.around.at?.table.name ?? 'the table of the chosen cell'}</label>
        <p role="status">${this.said || (times === 0 ? 'Not found.' : `Found ${times === 1 ? 'once' : `${times} times`}${hit ? `. Place ${this.at + 1} of ${hits.length}: ${placeText(hit)}` : ` in ${hits.length === 1 ? 'one place' : `${hits.length} places`}`}.`)}</p>
        <div class="do">
          <button type="submit" name="next" class="btn first" ?disabled=${hits.length === 0}>Next</button>
          <button type="button" class="btn" ?disabled=${hits.length === 0} @click=${() => this.#go(-1)}>Previous</button>
          <button type="button" class="btn" ?disabled=${!hit} @click=${() => void this.#replace(false)}>Replace here</button>
          <button type="button" class="btn" ?disabled=${hits.length === 0} @click=${() => void this.#replace(true)}>Replace everywhere</button>
          <button type="button" class="btn" @click=${() => this.#leave()}>Close</button>
        </div>
      </form>
    </dialog>`;
  }

  #press(event: KeyboardEvent): void {
    if (event.key !== 'Escape' || event.isComposing) return;
    event.preventDefault();
    this.#leave();
  }

  #leave(): void {
    this.close();
    this.#keepClear();
  }
}
customElements.define('ob-find-slip', ObFindSlip);

function placeText(hit: Hit): string {
  if ('at' in hit) return hit.in === 'cell' ? titleOf(hit.at) : `${hit.in} of ${titleOf(hit.at)}`;
  if ('page' in hit) return `a text on ${hit.page.title}`;
  return `a heading of ${hit.table.name}`;
}

/** A formula that was changed is read as if it were typed: with its units written in, or refused with the reason. */
async function readFormulas(session: Pick<Session, 'book' | 'ask'>, edits: readonly Edit[], label: string): Promise<Answer> {
  const { book } = session;
  const made: Edit[] = [];
  for (const edit of edits) {
    const content = edit.at === 'cell' ? (edit.after?.content ?? '') : '';
    if (edit.at !== 'cell' || !edit.after || !isFormula(content) || edit.before?.content === content) {
      made.push(edit);
      continue;
    }
    const table = book.tables.find((each) => each.id === edit.table);
    const [row, column] = [table?.rows.findIndex((each) => each.id === edit.row) ?? -1, table?.columns.findIndex((each) => each.id === edit.column) ?? -1];
    const address = textOf(table?.name ?? '', column, row);
    const read = await session.ask((engine) => engine.read(address, content));
    if (!read.ok) return refused(`${address}: ${read.message} Nothing was replaced.`);
    made.push({ ...edit, after: { ...edit.after, content: read.content } });
  }
  return { label, edits: made };
}
