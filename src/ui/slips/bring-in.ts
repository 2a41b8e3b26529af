/** A slip on which a CSV file is looked at before it comes in: how it was read, what goes where, what finds no place. Then it is one change. */
import { html, nothing, type TemplateResult } from 'lit';
import { counted, readQuantity } from '../../../functions/quantity-text.ts';
import { unit, withCurrency } from '../../../functions/units.ts';
import { tableNamed } from '../../book/address.ts';
import type { Table } from '../../book/book.ts';
import { columnHeading } from '../../book/look-up.ts';
import { isRefused, type Refused, refused } from '../../book/refused.ts';
import {
  DELIMITERS,
  type Delimiter,
  ENCODINGS,
  type Encoding,
  type Mapping,
  type Plan,
  planCsv,
  type Role,
  readHeading,
  reason,
  roleOf,
  rowLines,
  rowsSaid,
  type Staged,
  type StageOptions,
  stageCsv,
  suggestMapping,
  unitOfColumn,
  type Watch,
  withRole,
  withUnit,
} from '../../files/csv/index.ts';
import type { Session } from '../../session.ts';
import { Slip } from './slip.ts';
import '../styles/bring-in.css';

const ENCODING_NAMES: Readonly<Record<Encoding, string>> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16, big-endian',
  'windows-1252': 'Windows-1252',
};
const DELIMITER_NAMES: Readonly<Record<Delimiter, string>> = { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'vertical bars' };
/** What is shown of a long list; the counts speak of all of it. */
const SHOWN = 6;
const LINES = 20;

interface File {
  readonly name: string;
  readonly bytes: Uint8Array;
}
type HowRead = Omit<StageOptions, 'name' | keyof Watch>;

export class ObBringIn extends Slip<File> {
  static override properties = {
    staged: { state: true },
    mapping: { state: true },
    plan: { state: true },
    progress: { state: true },
    wrong: { state: true },
  };
  declare staged: Staged | undefined;
  /** Undefined: a tidy file goes to its own cells. */
  declare mapping: Mapping | undefined;
  declare plan: Plan | Refused | undefined;
  /** From 0 to 1 while a file is read or placed. */
  declare progress: number | undefined;
  /** What is wrong with a unit that was written. */
  declare wrong: string;

  #file: File | undefined;
  #how: HowRead = {};
  /** The book that the plan was made for. */
  #planned: Session['book'] | undefined;
  #work = new AbortController();

  constructor() {
    super();
    this.wrong = '';
  }

  async open(file: File): Promise<void> {
    this.#file = file;
    this.#how = {};
    this.staged = undefined;
    await this.updateComplete;
    this.dialog?.showModal();
    await this.#read(true);
  }

  /** Reads the file as it is said to be read, and makes a plan. */
  async #read(anew: boolean): Promise<void> {
    const file = this.#file;
    if (!file) return;
    await this.#busy(async (watch) => {
      const staged = await stageCsv(file.bytes, { name: file.name, ...this.#how, ...watch });
      this.staged = staged;
      if (anew || this.mapping) this.mapping = staged.tidy ? undefined : suggestMapping(this.around.session.book, staged);
      await this.#place(watch);
    });
  }

  async #place(watch: Watch): Promise<void> {
    const { staged, mapping } = this;
    const { session } = this.around;
    if (!staged) return;
    this.plan = undefined;
    await session.settled();
    const { book, values } = session;
    this.#planned = book;
    this.plan = await planCsv(book, staged, { ...(mapping && { mapping }), read: readQuantity, values, ...watch });
  }

  /** One piece of work at a time; a new one stops the one before. */
  async #busy(work: (watch: Watch) => Promise<void>): Promise<void> {
    this.#work.abort();
    const own = new AbortController();
    this.#work = own;
    try {
      await work({ signal: own.signal, progress: (done, of) => this.#work === own && this.#step(done / Math.max(of, 1)) });
    } catch (error) {
      if (this.#work !== own) return;
      this.plan = refused(own.signal.aborted ? 'Stopped. The book is as it was.' : error instanceof Error ? error.message : String(error));
    } finally {
      if (this.#work === own) this.progress = undefined;
    }
  }

  #step(share: number): void {
    this.progress = share;
  }

  #stop(): void {
    this.#work.abort();
  }

  #leave(): void {
    this.#stop();
    this.close();
  }

  #reread(how: HowRead): void {
    this.#how = { ...this.#how, ...how };
    void this.#read(false);
  }

  #remap(mapping: Mapping | undefined): void {
    this.mapping = mapping;
    this.wrong = '';
    void this.#busy((watch) => this.#place(watch));
  }

  #goTo(goal: string): void {
    const { staged } = this;
    const { session } = this.around;
    if (!staged) return;
    if (goal === 'own') this.#remap(undefined);
    else this.#remap(suggestMapping(session.book, staged, goal === 'new' ? 'new table' : { table: goal }));
  }

  #use(from: number, said: string): void {
    const { mapping, staged } = this;
    const { session } = this.around;
    if (mapping && staged) this.#remap(withRole(mapping, from, roleFrom(said), readHeading(staged.headings[from] ?? '', session.book.currency)));
  }

  #unit(from: number, typed: string): void {
    if (!this.mapping) return;
    const text = typed.trim();
    const found = text === '' ? undefined : unit(withCurrency(text, this.around.session.book.currency));
    if (text !== '' && !found) this.wrong = `“${text}” is no unit.`;
    else this.#remap(withUnit(this.mapping, from, found?.symbol));
  }

  #take(event: Event): void {
    event.preventDefault();
    const { plan } = this;
    const { session } = this.around;
    if (!plan || isRefused(plan) || plan.change.edits.length === 0) return;
    // The book can have changed while the slip lay open, by another's values if not by its user.
    if (session.book !== this.#planned) void this.#busy((watch) => this.#place(watch));
    else {
      this.#leave();
      this.say('change', { command: () => plan.change, answered: () => this.#showNew() });
    }
  }

  /** A new table is looked at next: its page opens. */
  #showNew(): void {
    const { mapping } = this;
    const { session } = this.around;
    if (mapping?.to !== 'new table') return;
    const made = tableNamed(session.book, mapping.name);
    const page = session.book.pages.find(({ blocks }) => blocks.some((block) => block.kind === 'table' && block.table === made?.id));
    if (page) this.say('page', { page: page.id });
  }

  override render(): TemplateResult {
    const { staged } = this;
    return html`<dialog class="slip-box bring-in" aria-label="Bring in a table" @close=${() => this.#stop()}>
      <form class="begin" @submit=${(e: Event) => this.#take(e)}>
        <h2>Bring in ${this.#file?.name ?? 'a table'}</h2>
        ${staged ? this.#staged(staged) : nothing}
        ${this.progress === undefined ? nothing : html`<p class="do"><progress aria-label="Reading" value=${this.progress}></progress><button type="button" class="btn" @click=${() => this.#stop()}>Stop</button></p>`}
        <div role="status">${this.#outcome()}</div>
        <div class="do">
          <button type="submit" class="btn first" ?disabled=${!this.#ready}>Bring it in</button>
          <button type="button" class="btn" @click=${() => this.#leave()}>Leave the book as it is</button>
        </div>
      </form>
    </dialog>`;
  }

  get #ready(): boolean {
    return this.plan !== undefined && !isRefused(this.plan) && this.plan.change.edits.length > 0;
  }

  #staged(staged: Staged): TemplateResult {
    const { mapping } = this;
    const { session } = this.around;
    const goal = mapping === undefined ? 'own' : mapping.to === 'new table' ? 'new' : mapping.table;
    return html`<div class="as-read">
        ${picked('Letters as', staged.encoding, pairs(ENCODINGS, ENCODING_NAMES), (encoding) => this.#reread({ encoding }))}
        ${picked('Fields separated by', staged.delimiter, pairs(DELIMITERS, DELIMITER_NAMES), (delimiter) => this.#reread({ delimiter }))}
        ${picked('Decimal mark', staged.decimalMark, [['.', 'point'] as const, [',', 'comma'] as const], (decimalMark) => this.#reread({ decimalMark }))}
        <label>Headings in record <input type="number" min="0" step="1" .value=${String(staged.headingsAt)} @change=${(e: Event) => this.#reread({ headingsAt: Math.max(0, Math.trunc(Number((e.target as HTMLInputElement).value) || 0)) })} /></label>
      </div>
      <p class="hint">Read as ${staged.encodingSaid}; ${staged.records.length.toLocaleString('en')} records after the headings.</p>
      ${picked('It goes to', goal, [...(staged.tidy ? [['own', 'the cells that the file names'] as const] : []), ...session.book.tables.map((table) => [table.id, `rows of ${table.name}`] as const), ['new', 'a new table'] as const], (to) => this.#goTo(to))}
      ${mapping?.to === 'new table' ? html`<label>Its name <input type="text" .value=${mapping.name} @change=${(e: Event) => this.#remap({ ...mapping, name: (e.target as HTMLInputElement).value.trim(), page: (e.target as HTMLInputElement).value.trim() })} /></label>` : nothing}
      ${mapping?.to === 'rows' && typeof mapping.into === 'string' ? picked('Its records go', mapping.into, [['end', 'after the last filled row'] as const, ['start', 'over the rows from the first on'] as const], (into) => this.#remap({ ...mapping, into })) : nothing}
      ${mapping?.to === 'rows' && typeof mapping.into === 'string' ? html`<p class="hint">${this.#wherefore(mapping)}</p>` : nothing}
      <div class="peek" tabindex="0" role="region" aria-label="The first records"><table>
        <thead><tr>${staged.headings.map((heading, i) => html`<th scope="col">${heading}${mapping ? this.#columnUse(mapping, heading, i) : nothing}</th>`)}</tr></thead>
        <tbody>${staged.records.slice(0, SHOWN).map((record) => html`<tr>${staged.headings.map((_, i) => html`<td>${record.fields[i] ?? ''}</td>`)}</tr>`)}</tbody>
      </table></div>
      <p class="wrong" role="status">${this.wrong || nothing}</p>`;
  }

  /** What comes of the place that the records go to. */
  #wherefore({ table, into }: Mapping & { to: 'rows' }): string {
    const found = this.around.session.book.tables.find(({ id }) => id === table);
    if (into === 'start') return 'What is in those rows is written over; a blank field empties its cell.';
    return `What is in ${found?.name} stays. Formulas that read it as far as it goes now will not see what comes after it.`;
  }

  #columnUse(mapping: Mapping, heading: string, from: number): TemplateResult {
    const role = roleOf(mapping, from);
    const table = mapping.to === 'rows' ? this.around.session.book.tables.find(({ id }) => id === mapping.table) : undefined;
    const valued = role.is === 'values' || role.is === 'new';
    return html`<select aria-label="What ${heading} is for" @change=${(e: Event) => this.#use(from, (e.target as HTMLSelectElement).value)}>
        ${uses(table).map(([value, words]) => html`<option value=${value} ?selected=${value === saidRole(role)}>${words}</option>`)}
      </select>
      ${valued ? html`<label class="in">numbers in <input type="text" size="6" autocomplete="off" autocapitalize="off" spellcheck="false" .value=${unitOfColumn(mapping, from) ?? ''} placeholder="their own" @change=${(e: Event) => this.#unit(from, (e.target as HTMLInputElement).value)} /></label>` : nothing}`;
  }

  #outcome(): TemplateResult | typeof nothing {
    const { plan } = this;
    if (!plan) return nothing;
    if (isRefused(plan)) return html`<p class="wrong">${plan.message}</p>`;
    const aside = plan.notPlaced - plan.leftOut;
    return html`${plan.columnsOut.length > 0 ? html`<p>Left out: ${plan.columnsOut.join(', ')}.</p>` : nothing}<p><b>${counted(plan.read, plan.of)} read: ${plan.placed === 1 ? '1 finds its' : `${number(plan.placed)} find their`} place${aside > 0 ? `, ${aside === 1 ? '1 finds' : `${number(aside)} find`} none` : ''}${plan.leftOut > 0 ? `, ${plan.leftOut === 1 ? '1 is' : `${number(plan.leftOut)} are`} left out or worked out here` : ''}.</b>
        ${plan.change.edits.length === 0 ? 'Nothing in it is new to this book.' : nothing}</p>
      ${aside > 0 ? html`<p>What finds no place is kept on the page “Not placed”, with the reasons, and can be sent out from there.</p>` : nothing}
      ${list(
        plan.problems.slice(0, SHOWN).map((problem) => reason(problem)),
        plan.problems.length,
        'wrong',
      )}
      ${list(plan.said.slice(0, SHOWN), plan.saidInAll, '')}
      ${plan.rows ? html`<p><b>${rowsSaid(plan.rows)}</b></p>${list(rowLines(this.around.session.book, plan.rows, LINES), plan.rows.changed.length + plan.rows.added.length, '')}` : nothing}
      ${list(
        plan.rows ? [] : plan.preview.slice(0, SHOWN).map(({ line, where, content }) => `Line ${line}: ${where} becomes ${content}`),
        plan.cells,
        'hint',
      )}`;
  }
}
customElements.define('ob-bring-in', ObBringIn);

const number = (n: number): string => n.toLocaleString('en');

function list(lines: readonly string[], of: number, kind: string): TemplateResult | typeof nothing {
  if (lines.length === 0) return nothing;
  return html`<ul class=${kind}>${lines.map((line) => html`<li>${line}</li>`)}${of > lines.length ? html`<li>… and ${number(of - lines.length)} more</li>` : nothing}</ul>`;
}

const pairs = <V extends string>(values: readonly V[], names: Readonly<Record<V, string>>): readonly (readonly [V, string])[] =>
  values.map((value) => [value, names[value]] as const);

function picked<V extends string>(label: string, now: V, choices: readonly (readonly [V, string])[], pick: (value: V) => void): TemplateResult {
  return html`<label>${label} <select @change=${(e: Event) => pick((e.target as HTMLSelectElement).value as V)}>
    ${choices.map(([value, words]) => html`<option value=${value} ?selected=${value === now}>${words}</option>`)}
  </select></label>`;
}

/** Roles as the choices of a list name them, and back. */
const saidRole = (role: Role): string =>
  role.is === 'key' ? `key ${role.column === 'label' ? '' : role.column.id}` : role.is === 'values' ? `values ${role.column}` : role.is;

function roleFrom(said: string): Role {
  if (said === 'new' || said === 'unit') return { is: said };
  if (said === 'key ') return { is: 'key', column: 'label' };
  if (said.startsWith('key ')) return { is: 'key', column: { id: said.slice(4) } };
  if (said.startsWith('values ')) return { is: 'values', column: said.slice(7) };
  return { is: 'left out' };
}

function uses(table: Table | undefined): readonly (readonly [string, string])[] {
  const out = ['left out', 'left out'] as const;
  if (!table) return [out, ['new', 'a column of it']];
  const [row] = table.rows;
  const columns = table.columns.map((column, columnIndex) => {
    const title = row ? columnHeading({ table, row, column, rowIndex: 0, columnIndex, cell: undefined }) : '';
    return { id: column.id, title: title || (table.columns.length === 1 ? 'its one column' : `column ${columnIndex + 1}`) };
  });
  return [
    out,
    ...columns.map(({ id, title }) => [`values ${id}`, `goes to ${title}`] as const),
    ...(table.rows.some((r) => r.label) ? [['key ', 'finds the row by its label'] as const] : []),
    ...columns.map(({ id, title }) => [`key ${id}`, `finds the row by ${title}`] as const),
    ['unit', 'says the unit'],
  ];
}
