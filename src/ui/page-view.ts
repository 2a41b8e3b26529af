import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Block, Book, Page } from '../book/book.ts';
import { tableOfBlock } from '../book/look-up.ts';
import type { Address, Engine, Values } from '../engine/types.ts';
import { command, type Desk, labelOf } from './commands.ts';
import { Part, type Place } from './part.ts';
import type { Refusal } from './table.ts';

/** A page, read from top to bottom: prose, tables and pictures. */
export class ObPage extends Part {
  static override properties = {
    book: { attribute: false },
    page: { attribute: false },
    values: { attribute: false },
    tick: { attribute: false },
    chosen: { attribute: false },
    letters: { attribute: false },
    pending: { attribute: false },
    refusal: { attribute: false },
    desk: { attribute: false },
    ask: { attribute: false },
  };
  declare book: Book;
  declare page: Page;
  declare values: Values;
  declare tick: number;
  declare chosen: Place | undefined;
  declare letters: ReadonlyMap<Address, string>;
  declare pending: ReadonlyMap<Address, string>;
  declare refusal: Refusal | undefined;
  declare desk: Desk;
  declare ask: <T>(question: (engine: Engine) => Promise<T>) => Promise<T>;

  readonly #editable = (address: Address): Promise<string> => this.ask((engine) => engine.editable(address));

  override render(): TemplateResult {
    return html`${repeat(
      this.page.blocks,
      (block) => block.id,
      (block) => this.#block(block),
    )}`;
  }

  #block(block: Block): unknown {
    if (block.kind === 'prose') return html`<ob-prose .text=${block.text} .book=${this.book} .values=${this.values} .tick=${this.tick}></ob-prose>`;
    if (block.kind === 'picture') {
      return html`<ob-picture .block=${block} .book=${this.book} .values=${this.values} .tick=${this.tick} .chosen=${this.chosen} .ask=${this.ask}></ob-picture>`;
    }
    const table = tableOfBlock(this.book, block.table);
    if (!table) return html`<p class="prose">This page names a table that the book does not have: ${block.table}.</p>`;
    const several = this.page.blocks.filter((b) => b.kind === 'table').length > 1;
    return html`${several && table.name !== this.page.title ? html`<h3 class="piece">${table.name}</h3>` : nothing}
      <ob-table .book=${this.book} .table=${table} .values=${this.values} .tick=${this.tick} .chosen=${this.chosen} .letters=${this.letters} .pending=${this.pending} .refusal=${this.refusal} .editable=${this.#editable}></ob-table>
      ${table.form === 'scenarios' ? this.#scenarioActs() : nothing}`;
  }

  #scenarioActs(): TemplateResult {
    const acts = ['add-scenario', 'base', 'drop-scenario'].map(command);
    return html`<div class="do acts-below">${acts.map((c) => html`<button type="button" class="btn" ?disabled=${!c.when(this.desk)} @click=${() => c.run(this.desk)}>${labelOf(c, this.desk)}</button>`)}</div>`;
  }
}
customElements.define('ob-page', ObPage);
