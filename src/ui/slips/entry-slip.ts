import { html, nothing, type TemplateResult } from 'lit';
import { shownChoice } from '../../book/allowed.ts';
import type { Column, Table } from '../../book/book.ts';
import { addEntry, entryAt, headingOf, missingOf, readEntry } from '../../book/commands/add-entry.ts';
import { setCell } from '../../book/commands/set-cell.ts';
import { inOneStep } from '../../book/commands/set-habits.ts';
import { hangsOn } from '../../book/hangs-on.ts';
import { findTable } from '../../book/lines.ts';
import { rangeOf } from '../../book/look-up.ts';
import type { PlainReading } from '../../book/read-plain.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import { allowedText } from '../cells/index.ts';
import '../styles/begin.css';
import '../styles/bring-in.css';
import { Slip } from './slip.ts';

interface Asked {
  readonly title: string;
  /** A list's id. */
  readonly table: string;
  /** The given that takes the new name once it is there. */
  readonly pick: string | undefined;
}

/** Results that are named of those that a missing field stops. */
const NAMED = 3;

/** A row of a list as its data sheet has it: a field for each column of the list, and what can't be worked out while one is blank. */
export class ObEntrySlip extends Slip<Asked> {
  static override properties = { asked: { state: true }, typed: { state: true }, wrong: { state: true } };
  declare asked: Asked | undefined;
  /** By column ids. */
  declare typed: Readonly<Record<string, string>>;
  declare wrong: string;
  #stops: ReturnType<typeof hangsOn> = () => [];
  /** Fields that were left: of what is still being written nothing is said to be wrong. */
  readonly #left = new Set<string>();

  constructor() {
    super();
    this.typed = {};
    this.wrong = '';
  }

  get #table(): Table | undefined {
    return this.asked && findTable(this.around.session.book, this.asked.table);
  }

  async open(asked: Asked): Promise<void> {
    this.asked = asked;
    this.typed = {};
    this.wrong = '';
    this.#left.clear();
    const table = this.#table;
    if (table) this.#stops = hangsOn(this.around.session.book, table);
    await this.updateComplete;
    this.querySelector('form')?.reset();
    this.dialog?.showModal();
  }

  #closed(): void {
    if (!this.isOpen) this.asked = undefined;
  }

  #write({ type, target }: Event): void {
    const { name, value } = target as HTMLInputElement;
    if (type === 'change') this.#left.add(name);
    this.wrong = '';
    this.typed = { ...this.typed, [name]: value };
  }

  /** Enter goes on to the next field, as it does in a table. */
  #next(event: KeyboardEvent): void {
    if (event.key !== 'Enter' || !(event.target instanceof HTMLInputElement)) return;
    const fields = [...this.querySelectorAll<HTMLElement>('input, select, [type=submit]')];
    event.preventDefault();
    fields[fields.indexOf(event.target) + 1]?.focus();
  }

  #keep(event: Event): void {
    event.preventDefault();
    const { asked, typed } = this;
    const [first] = this.#table?.columns ?? [];
    if (!asked || !first) return;
    const name = (typed[first.id] ?? '').trim();
    this.say('change', {
      command: (book): Answer => {
        const { pick } = asked;
        const add = { table: asked.table, typed };
        return pick === undefined ? addEntry(book, add) : inOneStep(book, [(b) => addEntry(b, add), (b) => setCell(b, { address: pick, content: name })]);
      },
      answered: (answer) => {
        this.wrong = isRefused(answer) ? answer.message : '';
        if (isRefused(answer)) return;
        const table = this.#table;
        const row = table?.rows.findLast(({ id }) => table.cells[id]?.[first.id]?.content === name);
        this.close();
        if (asked.pick === undefined && table && row) this.say('choose', { place: { table: table.id, row: row.id, column: first.id }, focus: true });
      },
    });
  }

  override render(): TemplateResult {
    const table = this.#table;
    return html`<dialog class="slip-box bring-in" aria-labelledby="entry-name" @close=${this.#closed}>${this.asked && table ? this.#form(this.asked, table) : nothing}</dialog>`;
  }

  #form({ title }: Asked, table: Table): TemplateResult {
    const read = readEntry(this.around.session.book, table, this.typed);
    const [first] = table.columns;
    const needs = (column: Column): boolean => column === first || column.needed === true;
    const fields = (columns: readonly Column[]): TemplateResult[] => columns.map((column) => this.#field(table, column, read.get(column.id)));
    const more = table.columns.filter((column) => !needs(column));
    const missing = missingOf(table, this.typed);
    return html`<form class="begin" @submit=${this.#keep} @input=${this.#write} @change=${this.#write} @keydown=${this.#next}>
      <h2 id="entry-name">${title}</h2>
      <fieldset class="usual"><legend>A plan needs</legend>${fields(table.columns.filter(needs))}</fieldset>
      ${more.length > 0 ? html`<fieldset class="usual"><legend>Where it is said</legend>${fields(more)}</fieldset>` : nothing}
      <div role="status" aria-label="Still missing"><ul>${missing.map((column) => html`<li>${this.#stopped(table, column)}</li>`)}${this.#unknown(table)}</ul></div>
      <div role="status">${this.#told(read)}</div>
      <div class="do">
        <button type="submit" class="btn first">${missing.length > 0 ? `Add it with ${missing.length} missing` : 'Add it'}</button>
        <button type="button" class="btn" @click=${() => this.close()}>Leave it as it was</button>
      </div>
    </form>`;
  }

  #stopped(table: Table, column: Column): string {
    const labels = this.#stops(table.columns.indexOf(column));
    const more = labels.length - NAMED;
    const named = all([...labels.slice(0, NAMED), ...(more > 0 ? [`${more} more`] : [])]);
    return `${headingOf(table, column)} is missing${labels.length > 0 ? `: without it ${named} can’t be worked out` : ''}.`;
  }

  /** What no plan needs and a check may ask for, in one sentence. */
  #unknown(table: Table): TemplateResult | typeof nothing {
    const [, ...others] = table.columns.filter(({ id, needed }, i) => i === 0 || (!needed && !this.typed[id]?.trim()));
    const asked = others.map((column) => ({ column, checks: this.#stops(table.columns.indexOf(column), 'check') })).filter(({ checks }) => checks.length > 0);
    if (asked.length === 0) return nothing;
    const checks = new Set(asked.flatMap(({ checks }) => checks));
    return html`<li>Blank too: ${all(asked.map(({ column }) => headingOf(table, column)))}. Without them may be unknown: ${all([...checks])}.</li>`;
  }

  /** What is wrong with the fields that were left, and how they were read where that deserves a word. */
  #told(read: ReadonlyMap<string, PlainReading>): TemplateResult[] {
    const left = [...read].filter(([id]) => this.#left.has(id)).map(([, one]) => one);
    const wrong = [...left.flatMap((one) => (one.ok ? [] : [one.message])), ...(this.wrong ? [this.wrong] : [])];
    const said = left.flatMap((one) => (one.ok && one.said !== undefined ? [one.said] : []));
    return [...new Set(wrong)].map((text) => html`<p class="wrong">${text}</p>`).concat(said.map((text) => html`<p class="hint">${text}</p>`));
  }

  #field(table: Table, column: Column, read: PlainReading | undefined): TemplateResult {
    const { id, unit } = column;
    const at = entryAt(table, column, {});
    const choices = rangeOf(at)?.oneOf;
    const label = `${headingOf(table, column)}${unit ? `, ${unit}` : ''}`;
    const wrong = read?.ok === false && this.#left.has(id);
    return choices
      ? html`<label>${label} <select name=${id}><option></option>${choices.map((one) => html`<option value=${one}>${shownChoice(one)}</option>`)}</select></label>`
      : html`<label>${label} <input name=${id} type="text" autocomplete="off" spellcheck="false" placeholder=${allowedText(at)} aria-invalid=${wrong} /></label>`;
  }
}
const all = (words: readonly string[]): string => new Intl.ListFormat('en-GB').format(words);

customElements.define('ob-entry-slip', ObEntrySlip);
